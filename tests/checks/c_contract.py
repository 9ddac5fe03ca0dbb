#!/usr/bin/env python3
"""What sirop.h promises of every function, tried on each of them as the header has it.

    c_contract.py LIBSIROP.so       prints what does not hold; exit status 1 if something does not

A null pointer, an argument beyond its range, a bad mass and an unknown name each have their status, and every result is
then NaN, -1 or that status; nothing is written beyond a result.  A function for n elements gives what the one for one
gives, the first error or else the worst warning, and one bad element spoils no other."""

import ctypes
import math
import pathlib
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "parity"))
import make_cases as c  # noqa: E402

RANGE, NAME, NULL = -2, -3, -6
TEXTS = {"property": "viscosity_pa_s", "conversion": "brix_to_baume", "ingredient": "honey", "table": None,
         "stage": "soft ball", "argument": "pressure_hpa", "kind": "cook_for", "key": "set", "text": "ribbon", "name": "mine",
         "field": "serve_celsius"}
BATCH = '{"sirop_batch": 1, "pan": [{"ingredient": "honey", "grams": 50}], "cook": {"to_celsius": 120}}'
NUMBERS = {"altitude_metres": [350.0, 0.0, 2240.0], "water_boils_celsius": [98.0, 100.0, 92.5], "value": [60.0, 0.0, 20.5],
           "pressure_hpa": [1013.25, 800.0, 950.0], "celsius": [20.0, 5.0, 60.0], "firmness_pa_s": [20.0, 0.0, 1e5],
           "dextrose_equivalent": [42.0, 28.0, 60.0], "solids_percent": [80.0, 78.0, 1.0], "index": 0, "component": 0, "status": 0,
           "lower": 1, "upper": 2, "where": 0, "grams": 5.0, "yes": 1, "columns": 40}
HOT = [115.0, 121.0, 118.0]
GRAMS = [[30.0, 70.0, 0.0], [45.0, 50.0, 5.0], [60.0, 0.0, 40.0]]
tried, wrong = 0, []


def expect(holds, *words):
    global tried
    tried += 1
    if not holds:
        wrong.append(" ".join(map(str, words)))


def good(f, n=3):
    """Arguments by their names that are answered: of arrays n elements."""
    given = {"n": n} if f.array else {}
    for one in f.takes:
        if one.kind.startswith("text"):
            given[one.name] = TEXTS[one.name]
        elif one.kind == "json":
            given[one.name] = BATCH
        elif one.kind in c.HANDLES:
            continue
        elif one.kind in ("masses", "rows", "desserts"):
            layers = 2 if "layers" in f.name else 1
            mixtures = [*GRAMS[:n], *reversed(GRAMS[:n])][:layers * n] if f.array else (GRAMS * 2)[:layers]
            given.update({"grams": sum(mixtures, []), "components": 3}, **({"layers": layers} if layers > 1 else {}))
        else:
            values = HOT if one.name == "celsius" and ("boil" in f.name or "of_temperature" in f.name) else \
                NUMBERS["value" if one.name == "values" else one.name]
            given[one.name] = values[:n] if f.array else values[0] if isinstance(values, list) else values
    if f.gives[0].kind in ("masses", "syrups"):
        given["components"] = len(c.doors.COMPONENTS)
    return given


def called(f, given, nulled=None):
    """Status and results after a call, one of whose pointers may be null."""
    raw, results = c.prepare(f.name, given)
    if nulled is not None:
        raw[[name for _, name in f.parameters].index(nulled)] = None
        results.pop(nulled, None)
    status = getattr(c.library, f"sirop_{f.name}")(*raw)
    for name, room in results.items():
        behind = (ctypes.c_char * ctypes.sizeof(getattr(room, "_type_", type(room)) if isinstance(room, ctypes.Array)
                                                else room)).from_address(ctypes.addressof(room) + ctypes.sizeof(room))
        expect(set(behind.raw) == {7}, f.name, "writes beyond", name)
    return status, results


def empty(result, status):
    """True if a result says that there is none: NaN, -1, the status."""
    if isinstance(result, ctypes.Array):
        return all(empty(one, status) for one in result)
    if isinstance(result, ctypes.Structure):
        return all(getattr(result, name) == status if name == "status" else empty(getattr(result, name), status)
                   for name, _ in result._fields_ if name not in ("struct_bytes", "reserved"))
    value = getattr(result, "value", result)
    return math.isnan(value) if isinstance(value, float) else value == -1


def refused(f, given, expected, *why, nulled=None):
    status, results = called(f, given, nulled)
    statuses = results.pop("statuses", None)
    expect(status == expected, f.name, *why, "gives", status, "not", expected)
    if statuses is not None:
        expect(all(one == expected for one in statuses), f.name, *why, "statuses", list(statuses))
    for name, result in results.items():
        expect(empty(result, expected), f.name, *why, "leaves a number in", name)


def beyond(f, one):
    """Values of a number that are refused."""
    limits = c.doors.LIMITS.get("temperature_celsius" if one.range == "celsius" else one.range)
    if one.name == "celsius" and f.takes[0].name == "property":
        limits = c.perform("property_range", {"property": TEXTS["property"]}, {})[1]["celsius"].values()
    if one.name == "firmness_pa_s":
        return [-1.0, math.nan]
    if limits is None:
        return [math.nan, math.inf, 1e300]
    low, high = list(limits)[:2]
    return [math.nextafter(low, -math.inf), math.nextafter(high, math.inf), math.nan, math.inf]


BAD_MIXTURES = [[-1.0, 70.0, 0.0], [math.nan, 70.0, 0.0], [math.inf, 70.0, 0.0], [2.0e9, 70.0, 0.0], [0.0, 0.0, 0.0]]


def of_one(f):
    for one in f.takes:
        if one.kind == "number":
            for value in beyond(f, one):
                refused(f, {**good(f), one.name: value}, RANGE, one.name, value)
        elif one.kind == "text" and f.gives[0].kind != "text" or one.kind == "text?":
            refused(f, {**good(f), one.name: "charm"}, NAME, one.name, "charm") if f.gives[0].kind != "text" else None
        elif one.kind in ("masses", "rows"):
            given = good(f)
            for bad in BAD_MIXTURES:
                refused(f, {**given, "grams": bad + given["grams"][3:]}, RANGE, bad)
            for components in (0, len(c.doors.COMPONENTS) + 1):
                refused(f, {**given, "grams": [1.0] * 99, "components": components}, RANGE, "components", components)


def of_many(f):
    scalar = c.FUNCTIONS[f.name[:-2]]
    spoilt = [(None, None)]
    for one in f.takes:
        if one.kind in ("many", "numbers"):
            spoilt += [(one.name, value) for value in beyond(f, one)]
        elif one.kind in ("rows", "desserts"):
            spoilt += [("grams", bad) for bad in BAD_MIXTURES]
    for name, bad in spoilt:
        given = good(f)
        width = given.get("components", 1) * given.get("layers", 1) if "grams" in given else 0
        if name == "grams":
            given["grams"][width:width + 3] = bad
        elif name is not None:
            given[name] = [given[name][0], bad, given[name][2]]
        status, results = called(f, given)
        alone, worst = [], 0
        for i in range(3):
            of_this = {key: value for key, value in given.items() if key != "n"}
            for one, twin in zip(scalar.takes, f.takes):
                if twin.kind in ("many", "numbers"):
                    of_this[one.name] = given[twin.name][i]
                elif twin.kind in ("rows", "desserts"):
                    of_this["grams"] = given["grams"][i * width:(i + 1) * width]
            alone.append(called(scalar, of_this))
            expect((alone[i][0] < 0) == (i == 1 and name is not None), f.name, name, bad, "element", i, alone[i][0])
            worst = worst if worst < 0 else alone[i][0] if alone[i][0] < 0 else max(worst, alone[i][0])
        expect(status == worst, f.name, name, bad, "gives", status, "not", worst)
        statuses = results.pop("statuses", None)
        if statuses is not None:
            expect(list(statuses) == [one for one, _ in alone], f.name, name, bad, "statuses", list(statuses))
            again = called(f, given, "statuses")
            expect(again[0] == status and [bytes(one) for one in again[1].values()] ==
                   [bytes(one) for one in results.values()], f.name, "without statuses")
        for (argument, room), place in zip(results.items(), range(9)):
            each = b"".join(bytes(list(found.values())[place]) for _, found in alone)
            expect(bytes(room) == each, f.name, name, bad, argument, "is not that of the function for one")
    nothing = [kind(0) if kind in (ctypes.c_size_t,) else None for kind in
               (c.PLAIN.get(kind, ctypes.c_void_p) for kind, _ in f.parameters)]
    texts = [TEXTS[one.name] and TEXTS[one.name].encode() for one in f.takes if one.kind.startswith("text")]
    expect(getattr(c.library, f"sirop_{f.name}")(*texts, *nothing[len(texts):]) == 0, f.name, "of nothing")


def on_handles_and_texts(functions):
    """A null pointer is told of, or does no harm where there is no status."""
    handles = {}
    for name, given in (("batch_read", {"text": BATCH}), ("batch_predict", {"table": None}),
                        ("question_new", {"kind": "cook_for"})):
        expect(c.perform(name, given, handles)[0] >= 0, name)
    for f in functions:
        c_function = getattr(c.library, f"sirop_{f.name}")
        if f.gives[0].kind in ("nothing", "text"):
            expect(c_function(None) in (None, b"", 0) or f.gives[0].kind == "nothing", f.name, "of null")
            continue
        for place, (kind, name) in enumerate(f.parameters):
            if kind.endswith("*") and name != "table":
                raw, results = c.prepare(f.name, good(f), handles)
                needed = ctypes.c_size_t(7)
                if f.gives[0].kind == "written":
                    raw += [ctypes.create_string_buffer(9), ctypes.c_size_t(9), ctypes.byref(needed)]
                raw[place] = None
                expect(c_function(*raw) == NULL, f.name, name, "null")
                expect(needed.value == (0 if name != "needed_bytes" and f.gives[0].kind == "written" else 7), f.name, name)
                for other, result in results.items():
                    expect(other == name or not result.value or empty(result, NULL), f.name, "leaves", other)


def main():
    others = [f for f in c.FUNCTIONS.values()
              if any(one.kind in (*c.HANDLES, "json", "written") for one in f.takes + f.gives)]
    on_handles_and_texts(others)
    functions = [f for f in c.FUNCTIONS.values() if f not in others]
    for f in functions:
        if f.gives[0].kind == "text":
            for one in f.takes:
                if one.kind == "text":
                    expect(called(f, good(f), one.name)[0] is None, f.name, "of null")
                    expect(called(f, {**good(f), one.name: "charm"})[0] is None, f.name, "of charm")
                elif one.kind == "index" and f.name != "status_text":
                    for index in (-1, 2**31 - 1, -2**31):
                        expect(called(f, {**good(f), "index": index, one.name: index})[0] is None, f.name, "of", index)
            continue
        status, results = called(f, good(f)) if not any(one.kind == "index" for one in f.takes) else (0, {})
        expect(status >= 0, f.name, "refuses", good(f), status)
        for kind, name in f.parameters:
            if kind.endswith("*") and name not in ("table", "statuses"):
                refused(f, good(f), NULL, name, "null", nulled=name)
        of_many(f) if f.array else of_one(f)
    for line in wrong:
        print(line)
    print(f"{tried} things tried, {len(wrong)} do not hold")
    return 1 if wrong or tried < 1000 else 0


if __name__ == "__main__":
    sys.exit(main())
