"""What the example programs promise of their files: an answer that cannot be written is exit status 3 and one line on
standard error, a figure is written whole or not at all and never over its batch, and a batch file cannot add to the
question that is asked about it.
usage: programs_check.py BUILD_EXAMPLES_DIR.  Exits 1 on the first difference.  Standard library only."""
import json
import os
import re
import stat
import subprocess
import sys
import tempfile

root = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
programs = os.path.abspath(sys.argv[1])
sources = os.path.join(root, "examples")
batch = os.path.join(sources, "batches", "miso_caramel.json")
UNFIT = re.compile("[\0-\x09\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]")

# How each program is run; a program without a line here is run without arguments.
ways = {
    "check_syrup": [["sucrose=60", "glucose=20", "--solids-percent", "80"], ["--help"]],
    "cook_timeline": [[batch, "--hob", "gas"], [batch, "--svg", "-"], [batch, "--json"], ["--help"]],
    "cook_for": [[batch, "--set-word", "ribbon"], [batch, "--brix", "88", "--json"], ["--help"]],
    "describe_syrup": [["honey=100", "--celsius", "40"], ["--list"], ["--help"]],
    "draw_batch": [[batch], ["--version"], ["--help"]],
    "formulate_sauce": [[batch, "--free", "pan[0]", "pan[1]", "--grams", "600"], ["--help"]],
    "learn_kitchen": [[batch, "--weighed", "106=551", "108.5=534", "112=516"], ["--help"]],
    "other_kitchen": [[batch, "--altitude-metres", "1600"], ["--help"]],
    "predict_set": [[batch], [batch, "--full"], [batch, "--width", "32"], [batch, "--json"], ["--version"], ["--help"]],
    "print_card": [[batch], ["--help"]],
    "rescue_batch": [[batch, "--grams-left", "520", "--water-percent", "14"], ["--help"]],
    "scale_batch": [[batch, "--portions", "24", "--grams-per-portion", "35", "--loss-grams", "20"], ["--help"]],
    "stage_chart": [["--altitude-metres", "500"], ["--altitude-metres", "1600", "--svg", "-"], ["--list"], ["--help"]],
    "swap_ingredient": [[batch, "--replace", "pan[1]", "--by", "honey"], ["--help"]],
    "what_matters": [[batch], [batch, "--thermometer-kelvin", "0.3", "--samples", "50"], ["--help"]],
}


def need(truth, what):
    if not truth:
        raise SystemExit(f"{where}: {what}")


def run(program, *arguments, text=b"", closed=False, **more):
    if not more:
        more = {"stdout": subprocess.PIPE}
    done = subprocess.run([os.path.join(programs, program), *arguments], input=text, stderr=subprocess.PIPE, timeout=120,
                          preexec_fn=(lambda: os.close(1)) if closed else None, **more)
    return done.returncode, done.stdout, done.stderr.decode()


def refused(done, *words):
    status, out, said = done
    need(status == 2 and out == b"" and said.count("\n") == 1, f"exit status {status}: {out[:80]} {said}")
    need(not UNFIT.search(said), f"not plain: {said!r}")
    for word in words:
        need(word in said, f"\"{word}\" is missing: {said}")


def words(text):
    """The words of a page, without the marks of its format."""
    return " ".join(re.sub(r"<[^>]*>", " ", text).split())


# The first aid of the library is on every page that speaks of hot sugar, and first in whatever a program says of it.
where = "first aid"
first_aid = re.search(r"On a burn: [^.]*\.", words(run("predict_set", "--help")[1].decode()))[0]
need(all(word in first_aid for word in ("cool running water 20 minutes", "no ice", "do not pull off", "medical help")),
     first_aid)
pages = [os.path.join(root, "README.md"), os.path.join(root, "bindings", "javascript", "package", "README.md"),
         os.path.join(root, "bindings", "javascript", "demo.html")]
pages += [os.path.join(root, "docs", name + ".md")
          for name in ("batch-file", "c-api", "embedded", "javascript", "python", "questions", "set")]
for where in pages:
    with open(where, encoding="utf-8") as page:
        need(first_aid in words(page.read()), f"\"{first_aid}\" is missing")

names = sorted(os.path.splitext(name)[0] for name in os.listdir(sources) if name.endswith((".cpp", ".c")))
where = "examples"
need(set(ways) < set(names), f"no source of {set(ways) - set(names)}")
for name in names:
    for arguments in ways.get(name, [[]]):
        where = " ".join([name, *arguments])
        status, out, said = run(name, *arguments)
        need(status == 0 and out and not said, f"exit status {status}: {said}")
        if not {"--json", "--list", "--version"} & set(arguments):
            # a figure's heading, and what is only read out, are no instructions
            shown = re.sub(r"<(title|desc)>.*?</\1>", "", out.decode()).split("</text>", 1)[-1]
            before, aid, _ = words(shown).partition(first_aid)
            need(aid, "no first aid")
            need("--help" in arguments or "°C" not in before, f"an instruction before its caution: {before}")
        with open("/dev/full", "wb") as full:
            for done in (run(name, *arguments, stdout=full), run(name, *arguments, closed=True)):
                need(done[0] == 3, f"exit status {done[0]} where nothing could be written: {done[2]}")
                need(done[2].startswith("standard output: cannot be written") and done[2].count("\n") == 1, done[2])

with tempfile.TemporaryDirectory() as folder:
    def path(name):
        return os.path.join(folder, name)

    def content(name):
        with open(path(name), "rb") as file:
            return file.read()

    figure = run("draw_batch", batch)[1]
    with open(batch, "rb") as file:
        text = file.read()
    with open(path("batch.json"), "wb") as file:
        file.write(text)
    os.symlink("batch.json", path("link.json"))
    os.link(path("batch.json"), path("hard.json"))
    before = sorted(os.listdir(folder))
    for source in ("batch.json", "link.json", "hard.json"):
        for output in ("batch.json", "link.json", "hard.json"):
            where = f"draw_batch {source} --output {output}"
            refused(run("draw_batch", path(source), "--output", path(output)), "--output", "is the batch file")
    where = "draw_batch - < batch.json --output batch.json"
    with open(path("batch.json"), "rb") as file:
        done = subprocess.run([os.path.join(programs, "draw_batch"), "-", "--output", path("hard.json")], stdin=file,
                              capture_output=True)
    refused((done.returncode, done.stdout, done.stderr.decode()), "--output")
    need(content("batch.json") == text and sorted(os.listdir(folder)) == before, "the folder has changed")

    where = "draw_batch --output"
    for output in ("new.svg", "old.svg", "to_old.svg"):
        if output == "old.svg":
            with open(path(output), "wb") as file:
                file.write(b"x" * 10 * len(figure))
            os.chmod(path(output), 0o640)
            os.symlink("old.svg", path("to_old.svg"))
            os.link(path("old.svg"), path("kept.svg"))  # still the old file afterwards: nothing was written into it
        done = run("draw_batch", path("batch.json"), "--output", path(output))
        need(done == (0, b"", "") and content(output) == figure, f"{output}: {done}")
    need(content("kept.svg") == b"x" * 10 * len(figure), "an old file was written into")
    need(stat.S_IMODE(os.stat(path("old.svg")).st_mode) == 0o640, "the mode of an old file was lost")
    need(os.path.islink(path("to_old.svg")), "a link was replaced")
    before = sorted(os.listdir(folder))
    for output in ("/dev/full", path("no folder/x.svg"), folder):
        status, out, said = run("draw_batch", path("batch.json"), "--output", output)
        need(status == 3 and not out and said.count("\n") == 1, f"{output}: exit status {status}: {said}")
    need(stat.S_ISCHR(os.stat("/dev/full").st_mode), "/dev/full was replaced")
    need(sorted(os.listdir(folder)) == before, f"left behind: {set(os.listdir(folder)) - set(before)}")
    need(run("draw_batch", path("batch.json"), "--output", path("new.svg"), closed=True)[0] == 0, "needs stdout")
    need(content("new.svg") == figure, "another figure with a closed standard output")

# Texts that end the batch early and go on with keys of the question.
plain = json.dumps(json.loads(text))
asked = {"cook_for": ["-", "--set-word", "ribbon"], "rescue_batch": ["-", "--grams-left", "520", "--water-percent", "14"],
         "swap_ingredient": ["-", "--replace", "pan[1]", "--by", "honey"],
         "formulate_sauce": ["-", "--free", "pan[0]", "pan[1]", "--grams", "600"],
         "scale_batch": ["-", "--grams", "900"], "other_kitchen": ["-", "--altitude-metres", "1600"],
         "what_matters": ["-"], "learn_kitchen": ["-", "--weighed", "106=551", "108.5=534", "112=516"]}
for name, arguments in asked.items():
    where = name
    need(run(name, *arguments, text=plain.encode())[0] == 0, "the batch itself is refused")
    for more in (', "samples": 9', ', "may_change": ["pan[0]"]', ', "with": ["honey"]', ', "sweetness_percent": 40',
                 f', "batch": {plain}', ', "x": {', "}", "} {"):
        where = f"{name}, batch file with {more[:30]}"
        refused(run(name, *arguments, text=(plain + more).encode()), "line 1, column")
    where = f"{name}, batch file with a key twice"
    refused(run(name, *arguments, text=(plain[:-1] + ', "pan": []}').encode()), "pan: the key stands twice")

# Words of the command line that are not plain text.
where = "words that are not plain"
refused(run("swap_ingredient", batch, "--replace", "x\nforged: line", "--by", "honey"), "replace", "\\u000A")
refused(run("swap_ingredient", batch, "--replace", b"\xff\x9b31m", "--by", "honey"), "replace")
refused(run("predict_set", "no\x1bfile"), "batch: cannot read", "\\u001B")
refused(run("stage_chart", "--table", "us\n2004"), "table", "\\u000A")
refused(run("check_syrup", "su\ncrose=4"), "part", "\\u000A")
print(f"{len(names)} programs: passed")
