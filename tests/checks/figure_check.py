"""The figures of draw_batch, print_card and stage_chart: well-formed, finite, on the page, legible, and saying what
predict_set says.
usage: figure_check.py BUILD_EXAMPLES_DIR.  Exits 1 on the first difference.  Standard library only.

After a change of numbers or of the drawing:
BUILD_EXAMPLES_DIR/draw_batch examples/batches/soft_caramels.json --output docs/figures/caramel.svg"""
import glob
import json
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET

root = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
programs = os.path.abspath(sys.argv[1])
svg = "{http://www.w3.org/2000/svg}"
title = svg + "title"

# Invented batches for what the example batches leave out: a place where it shall pour, markup and what XML forbids in
# the title, a long title, a nearly dry pan, a glass beyond the frame, a thermometer of +-1.5 K.
sauce = {"sirop_batch": 1, "title": "Sauce <\"noisette\" & 'lait'> ]]> \uffff (invented)",
         "pan": [{"ingredient": "white sugar", "grams": 250}, {"ingredient": "heavy cream 36 %", "grams": 240}],
         "cook": {"to_celsius": 112}, "off_heat": [{"ingredient": "dark chocolate 60-69 %", "grams": 100}],
         "serve": {"celsius": 18}, "pour": {"celsius": 45}}
syrup = {"sirop_batch": 1, "title": "MWMW " * 60,
         "pan": [{"ingredient": "white sugar", "grams": 500}, {"ingredient": "water", "grams": 300}],
         "cook": {"to_celsius": 150, "altitude_metres": 1600, "thermometer_within_celsius": 1.5}}
dry = {"sirop_batch": 1, "pan": [{"ingredient": "white sugar", "grams": 500}, {"ingredient": "water", "grams": 12}],
       "cook": {"to_celsius": 158}, "serve": {"celsius": -15}}


def run(program, *arguments, text=None):
    done = subprocess.run([os.path.join(programs, program), *arguments], input=text, capture_output=True, timeout=60)
    return done.returncode, done.stdout, done.stderr.decode()


def need(truth, what):
    if not truth:
        raise SystemExit(f"{where}: {what}")


def numbers(element):
    """The coordinates of an element: pairs of x and y."""
    get = {k: float(v) for k, v in element.attrib.items()
           if k in ("x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "width", "height")}
    points = [tuple(map(float, p.split(","))) for p in element.get("points", "").split()]
    if "x1" in get:
        points += [(get["x1"], get["y1"]), (get["x2"], get["y2"])]
    if "cx" in get:
        points += [(get["cx"] - get["r"], get["cy"] - get["r"]), (get["cx"] + get["r"], get["cy"] + get["r"])]
    if "x" in get:
        points += [(get["x"], get["y"]), (get["x"] + get.get("width", 0), get["y"] + get.get("height", 0))]
    return points


def scale(ticks):
    """From a coordinate on the page to the value on an axis, by its first and last tick."""
    need(len(ticks) >= 3, f"only {len(ticks)} ticks on an axis")
    (a, p), (b, q) = min(ticks), max(ticks)
    return lambda at: p + (q - p) * (at - a) / (b - a)


def check_page(data):
    """What holds of every page.  Its root, what is drawn, and its texts."""
    page = ET.fromstring(data)
    need(page.tag == svg + "svg", "not an SVG")
    left, top, width, height = map(float, page.get("viewBox").split())
    for parent in page.iter():
        for name, value in parent.attrib.items():
            need(not re.search(r"\b(nan|inf|infinity|not a number)\b", value, re.I), f"{parent.tag} {name}={value}")
    drawn = [e for e in page if e.tag != svg + "defs"]
    for element in drawn:
        for x, y in numbers(element):
            need(left <= x <= left + width and top <= y <= top + height, f"off the page: {element.attrib}")
    words = [e for e in drawn if e.tag == svg + "text"]
    for element in words:
        # 0.5 em is a narrow estimate of a character: what fails it runs off the page in any font
        long = 0.5 * float(element.get("font-size", page.get("font-size"))) * len(element.text)
        if element.get("transform") is None and element.get("text-anchor") is None:
            need(float(element.get("x")) + long <= width, f"too long: {element.text}")
    return page, drawn, words


def check_drawing(data):
    """What holds of every figure of a batch.  Its root and its texts."""
    page, drawn, words = check_page(data)
    boxes = []  # of the labels
    for element in drawn:
        if element.tag == svg + "rect" and element.get("stroke-width") == "0.8":
            (a, b), (c, d) = numbers(element)
            need(all(c <= e or a >= g or d <= f or b >= h for e, f, g, h in boxes), "two labels overlap")
            boxes.append((a, b, c, d))
    need(len(boxes) == 3, f"{len(boxes)} labels, 3 wanted")
    upright = sorted(float(e.get("x")) for e in words if e.get("transform") and e.get("text-anchor") is None)
    need(all(b - a >= 13 for a, b in zip(upright, upright[1:])), "names of stages touch")
    return page, words


def check_card(data, batch, predicted):
    """That a card is an A5 page in black on white with its cautions first, and says what predict_set says."""
    page, drawn, words = check_page(data)
    need((page.get("width"), page.get("height")) == ("148mm", "210mm"), "not A5")
    colours = {value for e in drawn for key, value in e.attrib.items() if key in ("fill", "stroke")}
    need(colours <= {"#000", "#fff", "none"}, f"not black on white: {colours}")
    rows = sorted(float(e.get("y")) for e in words if e.get("text-anchor") is None and float(e.get("x")) < 40)
    need(all(b - a >= 13 for a, b in zip(rows, rows[1:])), "two lines touch")
    text = " ".join(e.text for e in words)
    celsius = f"{predicted['cooked']['thermometer_celsius']:.1f}".removesuffix(".0") + " °C"
    weight = f"{predicted['cooked']['grams']:.0f} g without the pan"
    for label in ["get medical help", celsius, weight, predicted["set"]["word"]] + [
            line["ingredient"] for line in batch["pan"] + batch.get("off_heat", [])]:
        need(label in text, f"\"{label}\" is missing: {text}")
    need(text.index("get medical help") < text.index(celsius), "the caution is not first")


def check_batch(data, predicted, version):
    """That the figure says, and shows, what predict_set says of the same batch."""
    page, words = check_drawing(data)
    texts = [e.text for e in words]
    cooked, stage, answer = predicted["cooked"], predicted["stage"], predicted["set"]
    target, water = cooked["thermometer_celsius"], cooked["water_percent"]
    everything = " ".join(texts)
    for label in (f"{target:.1f} °C, {water:.1f} % water", f"{1.8 * target + 32:.1f} °F, {stage['by_consistency']}",
                  f"{target:.1f} °C: {answer['word']}", "starts to boil", "plain sugar", "this batch", "°F",
                  "water left in the pan, % by mass", "firmness, Pa s", "temperature on your thermometer, °C",
                  "Hot sugar sticks and burns deep", version):
        need(label in everything, f"\"{label}\" is missing")

    # The dot of the target on the left, read back from the ticks; a tenth of a unit is what coordinates are cut to.
    dot = next(e for e in page.iter(svg + "circle") if e.findtext(title) == "target")
    ticks = [(e, float(e.text)) for e in words if re.fullmatch(r"-?[0-9.]+", e.text)]
    lowest = max(float(e.get("y")) for e, _ in ticks)
    middle = 0.5 * float(page.get("viewBox").split()[2])
    across = [(float(e.get("x")), v) for e, v in ticks if float(e.get("y")) == lowest and float(e.get("x")) < middle]
    up = [(float(e.get("y")), v) for e, v in ticks if e.get("text-anchor") == "end" and float(e.get("x")) < middle]
    x, y = float(dot.get("cx")), float(dot.get("cy")) + 4.5  # a number stands 4.5 below the middle of its tick
    for of, at, wanted, what in ((scale(across), x, target, "°C"), (scale(up), y, water, "% water")):
        allowed = 0.3 * abs(of(1) - of(0))
        need(abs(of(at) - wanted) <= allowed, f"the dot is at {of(at):.3f} {what}, not at {wanted:.3f}")

    # The stage in which it lies, on the lower row of bars.
    bars = {}
    for element in page.iter(svg + "rect"):
        tip = re.fullmatch(r"this batch, (.*): .*", element.findtext(title) or "")
        if tip:
            bars[tip[1]] = (float(element.get("x")), float(element.get("x")) + float(element.get("width")))
    need(bars, "no stages")
    inside = [name for name, (a, b) in bars.items() if a - 0.1 <= x <= b + 0.1]
    said = stage["by_consistency"]
    if said in bars:
        need(said in inside, f"the dot is in {inside}, not in {said}")
    for name in inside:  # at an edge it may be either
        a, b = bars[name]
        need(name == said or min(x - a, b - x) < 0.3 or b >= 581, f"the dot is in {name}, not in {said}")
    return texts


batches = {os.path.basename(name): open(name, "rb").read()
           for name in sorted(glob.glob(os.path.join(root, "examples", "batches", "*.json")))}
where = "examples/batches"
need(len(batches) >= 3, "too few batches")
batches |= {name: json.dumps(b).encode() for name, b in (("sauce", sauce), ("syrup", syrup), ("dry", dry))}
version = run("predict_set", "--version")[1].decode().strip()
for where, batch in batches.items():
    for table in ("us 2004", "fr pastry", "us 1917") if where in ("syrup", "sauce") else ("us 2004",):
        status, data, said = run("draw_batch", "-", "--table", table, text=batch)
        need(status == 0 and not said, f"exit status {status}: {said}")
        status, answer, said = run("predict_set", "--json", "-", "--table", table, text=batch)
        need(status == 0, f"predict_set: exit status {status}: {said}")
        shown = check_batch(data, json.loads(answer), version)
        if table != "us 2004":
            need(data == run("draw_batch", "-", "--table", table, text=batch)[1], "not the same twice")
    status, data, said = run("print_card", "-", text=batch)
    need(status == 0 and not said, f"print_card: exit status {status}: {said}")
    check_card(data, json.loads(batch), json.loads(run("predict_set", "--json", "-", text=batch)[1]))
    name = json.loads(batch).get("title", "A batch without a title")
    need(shown[0] == name.replace("\uffff", " ") or shown[0].endswith("…"), f"title: {shown[0]}")
    need(any("where it shall pour" in t for t in shown) == ("pour" in json.loads(batch)), "the line of pouring")

where = "a card of 40 ingredients"
long = dict(sauce, pan=[{"ingredient": "white sugar", "grams": 50}, {"ingredient": "heavy cream 36 %", "grams": 50}] * 20)
status, data, said = run("print_card", "-", text=json.dumps(long).encode())
need(status == 0, said)
check_card(data, long, json.loads(run("predict_set", "--json", "-", text=json.dumps(long).encode())[1]))

for arguments in (["--altitude-metres", "0"], ["--altitude-metres", "3000"], ["--table", "fr pastry"],
                  ["--table", "us 1917", "--altitude-feet", "7200"]):
    where = " ".join(["stage_chart --svg -", *arguments])
    status, data, said = run("stage_chart", "--svg", "-", *arguments)
    need(status == 0 and not said, f"exit status {status}: {said}")
    _, drawn, words = check_page(data)
    chart = run("stage_chart", *arguments)[1].decode()
    texts = " ".join(e.text for e in words)
    for line in re.findall(r"^(\S.*?) {2,}.*?([0-9.]+)(?: - ([0-9.]+))?(?: \*)? {2,}[0-9]", chart, re.M):
        for number in filter(None, line[1:]):
            near = {f"{float(number):.0f}", f"{float(number) - 0.05:.0f}", f"{float(number) + 0.05:.0f}"}
            need(near & set(texts.split()), f"{line}: {number} is not on the chart")
    need("get medical help" in texts, "no first aid")
    middle = [e.text for e in words]
    need(middle.index(next(t for t in middle if "medical help" in t)) < middle.index("°F"), "the caution is not first")

with tempfile.TemporaryDirectory() as folder:
    output = os.path.join(folder, "figure.svg")
    raw = dict(sauce, cook={"to_celsius": 95})
    for where, text, more in (("refused: too cold", json.dumps(raw).encode(), []), ("refused: no JSON", b"{", []),
                              ("refused: table", json.dumps(sauce).encode(), ["--table", "none"])):
        for arguments in (["-"], ["-", "--output", output]):
            status, data, said = run("draw_batch", *arguments, *more, text=text)
            need(status == 2 and data == b"" and said.count("\n") == 1, f"exit status {status}: {data} {said}")
            need(not os.path.exists(output), "a file was written")
    where = "no such folder"
    status, data, said = run("draw_batch", "-", "--output", os.path.join(output, "x"), text=json.dumps(sauce).encode())
    need(status == 3 and said.count("\n") == 1, f"exit status {status}: {said}")
    where = "docs/figures/caramel.svg"
    source = os.path.join(root, "examples", "batches", "soft_caramels.json")
    need(run("draw_batch", source, "--output", output)[0] == 0, "cannot be made")
    with open(output, "rb") as new, open(os.path.join(root, where), "rb") as old:
        need(new.read() == old.read(), "is not what draw_batch makes of examples/batches/soft_caramels.json")
print(f"{len(batches)} batches: passed")
