#!/usr/bin/env python3
"""The cases that each binding must repeat: at least 1000 calls of the C API with what they gave, as JSON Lines.

    make_cases.py LIBSIROP.so

What a function takes and gives is that of the header (bindings/doors/doors.py); a new one gets its cases by itself if its
arguments have known names. The same on every machine, but for the last bits of the results:

    {"call": "sirop_...", "in": {argument: value, ...}, "status": n, "out": ...}

"in" holds the arguments by their names in sirop.h, without the pointers that receive the result, and without the bytes
of a text and of its buffer, which follow from the text. A mixture is an array of `components` numbers; that of a function
for n mixtures holds n * components, and its other arrays n numbers. NaN and a null pointer are null, infinity is 1e999.
"status" is what the function returned; 0 for a function that returns a text or nothing. "out" is a number, a text, an
array of numbers, a struct by its fields (of n results with its status), an object of several results by their names
("statuses" too), or null: of a handle, of nothing, and of a text call with an error other than SIROP_E_BATCH.
A call on a handle has before "in" the calls that led to it, made on one batch, one question and the last answer of
either, in this order, also those that were refused; sirop_question_set_batch takes the batch:
    "before": [{"call": "sirop_batch_new", "in": {}}, {"call": "sirop_batch_add", "in": {...}}, ...]"""

import ctypes
import itertools
import json
import math
import pathlib
import random
import sys

FOLDER = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(FOLDER.parent.parent / "bindings" / "doors"))
import doors  # noqa: E402

WANTED = 1000
TEXTS = json.loads((FOLDER / "texts.json").read_text(encoding="utf-8"))
FUNCTIONS = {one.name: one for one in doors.functions()}
PLAIN = {"double": ctypes.c_double, "int32_t": ctypes.c_int32, "uint32_t": ctypes.c_uint32, "size_t": ctypes.c_size_t,
         "const char*": ctypes.c_char_p, "void": None}
STRUCTS = {}
for name, members in doors.STRUCTS.items():
    STRUCTS[f"sirop_{name}"] = type(name, (ctypes.Structure,), {
        "_fields_": [(member, PLAIN.get(kind) or STRUCTS[kind]) for kind, member in members]})
HANDLES = ("batch", "question", "answer")
dice = random.Random(20240229)
library = ctypes.CDLL(sys.argv[1])
for name, f in FUNCTIONS.items():
    getattr(library, f"sirop_{name}").restype = PLAIN[f.result]
printed = 0


# --- a call ---------------------------------------------------------------------------------------------------------


def number(x):
    return None if isinstance(x, float) and math.isnan(x) else x


def plain(found, with_status=False):
    """A result as a case has it."""
    if isinstance(found, ctypes.Array):
        return [plain(one, True) for one in found]
    if isinstance(found, ctypes.Structure):
        left_out = {"reserved", "struct_bytes"} | (set() if with_status else {"status"})
        return {name: plain(getattr(found, name)) for name, _ in found._fields_ if name not in left_out}
    return number(getattr(found, "value", found))


def prepare(name, given, handles=()):
    """What C gets for arguments by their names, one for each parameter, and the room for results, by their names: full
    of sevens, and with room for one more behind it."""
    raw, results, handles = [], {}, dict(handles)
    n, layers, components = (given.get(one) for one in ("n", "layers", "components"))
    for kind, argument in FUNCTIONS[name].parameters:
        whole = kind.replace("const ", "")
        if argument in given and kind == "const char*":
            raw.append(None if given[argument] is None else given[argument].encode())
        elif argument in given:
            value = given[argument]
            raw.append((ctypes.c_double * len(value))(*(math.nan if x is None else x for x in value))
                       if isinstance(value, list) else PLAIN[kind](math.nan if value is None else value))
        elif argument.endswith("_bytes") and argument[:-6] in given:
            raw.append(ctypes.c_size_t(len(given[argument[:-6]].encode())))
        elif whole[len("sirop_"):-1] in HANDLES:
            raw.append(handles.get(whole[len("sirop_"):-1]))
        elif whole.endswith("**"):
            results[argument] = ctypes.c_void_p()
            raw.append(ctypes.byref(results[argument]))
        elif argument not in ("out", "out_bytes", "needed_bytes"):
            kind = STRUCTS.get(whole[:-1]) or PLAIN[whole[:-1]]
            count = n
            if argument.endswith("gained_grams"):
                count = layers * (1 if n is None else n)
            elif argument == "grams":
                count = components * (1 if n is None else n)
            store = bytearray(b"\7" * ctypes.sizeof(kind) * ((1 if count is None else count) + 1))
            room = (kind if count is None else kind * count).from_buffer(store)
            if "struct_bytes" in dict(getattr(kind, "_fields_", ())) and count != 0:
                (room if count is None else room[0]).struct_bytes = ctypes.sizeof(kind)
            results[argument] = room
            raw.append(ctypes.byref(room))
    return raw, results


def perform(name, given, handles):
    """Calls sirop_NAME with arguments by their names; the status, and the result as a case has it."""
    f, (raw, results) = FUNCTIONS[name], prepare(name, given, handles)
    c_function = getattr(library, f"sirop_{name}")
    if f.gives[0].kind == "written":
        needed, out = ctypes.c_size_t(), ctypes.create_string_buffer(16)
        for _ in range(2):  # a small buffer, and then one of the size asked for
            status = c_function(*raw, out, ctypes.c_size_t(len(out)), ctypes.byref(needed))
            if status != -4:
                break
            out = ctypes.create_string_buffer(needed.value)
        return status, out.value.decode() if status >= 0 or status == -5 else None
    found = c_function(*raw)
    if f.gives[0].kind == "text":
        return 0, None if found is None else found.decode()
    if f.gives[0].kind in HANDLES:
        made = next(iter(results.values()))
        handles[f.gives[0].kind] = made if made.value else None
        if name != "batch_read" or found >= 0:
            return found, None
        reason = library.sirop_batch_refusal(made).decode()  # the handle holds nothing else
        library.sirop_batch_free(handles.pop("batch"))
        return found, reason
    given_back = {argument: plain(one) for argument, one in results.items()}
    return found or 0, given_back if len(given_back) > 1 else next(iter(given_back.values()), None)


def case(name, given, handles=None, before=None):
    """Prints a call as a case; gives its result."""
    global printed
    given = {key: [number(x) for x in value] if isinstance(value, list) else number(value)
             for key, value in given.items()}
    status, out = perform(name, given, {} if handles is None else handles)
    row = {"call": f"sirop_{name}", **({} if before is None else {"before": before}), "in": given, "status": status,
           "out": out}
    print(json.dumps(row, ensure_ascii=False).replace("Infinity", "1e999"))
    printed += 1
    return out


# --- arguments ------------------------------------------------------------------------------------------------------


def mostly(low, high):
    """A number between two bounds; one in thirty is beyond them, or not a number."""
    kind = dice.randrange(60)
    return math.nan if kind == 0 else high + dice.uniform(1.0, 1000.0) if kind == 1 else dice.uniform(low, high)


def mixture(components):
    """Water and one to eight other components.  Now and then one that must be refused."""
    grams, kind = [0.0] * components, dice.randrange(40)
    if kind == 0:
        return grams
    grams[0] = 0.0 if kind == 1 else dice.uniform(1.0, 100.0)
    for _ in range(dice.randint(1, 8)):
        grams[dice.randrange(components)] = dice.uniform(0.0, 60.0)
    if kind in (2, 3, 4):
        grams[dice.randrange(components)] = {2: -1.0, 3: math.nan, 4: 2.0e9}[kind]
    return grams


def mixtures(n):
    """In as many components as a program passes: mostly all, sometimes fewer, as one compiled earlier would."""
    components = dice.randint(1, len(doors.COMPONENTS)) if dice.randrange(4) == 0 else len(doors.COMPONENTS)
    return {"grams": list(itertools.chain(*(mixture(components) for _ in range(n)))), "components": components}


def listed(name, given=()):
    """All that a function of an index gives."""
    of = lambda index: perform(name, {**dict(given), ("component" if "component" in name else "index"): index}, {})[1]
    return list(itertools.takewhile(lambda one: one is not None, map(of, itertools.count())))


# Between which bounds numbers are drawn where their range is not what is of interest.
BOUNDS = {"value": (0.0, 100.0), "values": (0.0, 90.0), "firmness_pa_s": (0.0, 1.0e4)}


def bounds(f, argument):
    if argument.name == "celsius":
        return ((100.0, 150.0) if "water_at_boil" in f.name else (95.0, 190.0) if "stage" in f.name else
                (-30.0, 180.0) if f.name == "water_activity" else (0.0, 40.0) if argument.range != "celsius" else
                (0.0, 100.0))
    return BOUNDS.get(argument.name) or doors.LIMITS[argument.range][:2]


def drawn(f, n, texts):
    """Arguments of a function: its texts as given, all else drawn."""
    given = {"n": n} if f.array else {}
    for one in f.takes:
        if one.kind.startswith("text"):
            given[one.name] = texts[one.name]
        elif one.kind in ("masses", "rows", "desserts"):
            layers = 2 if one.kind == "desserts" else dice.randint(1, 4)
            if "layers" in f.name:
                given["layers"] = layers
            given.update(mixtures((n if f.array else 1) * (layers if "layers" in f.name else 1)))
        elif one.kind == "number":
            given[one.name] = 1013.25 if one.name == "pressure_hpa" and dice.randrange(3) == 0 else \
                mostly(*bounds(f, one))
        else:
            given[one.name] = [mostly(*bounds(f, one)) for _ in range(n)]
            if one.kind == "many" and n > 1:
                given[one.name][1] = math.nan
    if f.gives[0].kind in ("masses", "syrups"):
        given["components"] = len(doors.COMPONENTS)
    return given


def texts_of(f):
    """Names for the texts of a function, from the lists of the library, with some that do not exist."""
    names = {"property": ("property_name", 1, "no_such_property"), "argument": ("argument_name", 1, "mood"),
             "conversion": ("conversion_name", 1, "cups_to_spoons"), "ingredient": ("ingredient_name", 8, "moon dust")}
    for one in f.takes:
        if one.name in names:
            list_of, step, unknown = names[one.name]
            # An array of each property would be a case too many.
            all_names = listed(list_of)[::9 if f.array else step]
            return [{one.name: name} for name in [*all_names, unknown, *([" Honey "] if step == 8 else [])]]
    if any(one.name == "table" for one in f.takes):
        tables = [None, "us 1918", "fr pastry", "no such table"]
        if all(one.name != "stage" for one in f.takes):
            return [{"table": table} for table in tables]
        return [{"table": table, "stage": stage} for table in tables
                for stage in [*listed("stage_name", {"table": table}.items())[:5:2], "no such stage"]]
    return [{}]


def without_handle(f):
    """The cases of one function that works on no handle."""
    index = next((one for one in f.takes if one.kind == "index"), None)
    if f.name == "status_text":
        for status in (0, 1, 2, -1, -2, -3, -4, -5, -6, -7, -8, -9, -1000):
            case(f.name, {"status": status})
    elif any(one.kind == "json" for one in f.takes):
        all_texts = TEXTS["batches" if f.takes[0].name == "batch" else "questions"]
        tables = [None, "us 1918"] * len(all_texts)
        tables[len(all_texts):] = ["no such table", "fr pastry"]
        for text, table in zip([*all_texts, *all_texts[:2]], tables if len(f.takes) > 1 else [None] * len(all_texts)):
            if isinstance(text, dict):
                asked = f.takes[0].name == "question" and "sirop_question" not in text
                text = json.dumps({"sirop_question": 1, "batch": TEXTS["batch"], **text} if asked else text,
                                  ensure_ascii=False)
            # the columns at which a card wraps: those of a narrow screen, or too few
            columns = {index.name: 23 if table == "fr pastry" else 32} if index else {}
            case(f.name, {f.takes[0].name: text, **({"table": table} if len(f.takes) > 1 else {}), **columns})
    elif index is not None:
        of = {"stage_name": "stage_name", "texture_word_meaning": "texture_word", "growth_limit": "growth_group",
              "texture_word_firmness_pa_s": "texture_word"}.get(f.name, f.name)
        for texts in texts_of(f):
            count = len(listed(of, texts.items()))
            for i in [*range(-1, count, 5 if f.name == "ingredient_name" or texts else 1), count]:
                case(f.name, {**texts, index.name: i})
    else:
        numbers = [one for one in f.takes if one.kind == "number"]
        if len(f.takes) == len(numbers) == 1 and numbers[0].range in doors.LIMITS:  # the bounds, and beyond them
            low, high = doors.LIMITS[numbers[0].range][:2]
            for x in (low, high, math.nextafter(low, -1e9), math.nextafter(high, 1e9)):
                case(f.name, {numbers[0].name: x})
        if f.name == "texture_word_of":
            for x in (-1.0, math.nan, *(10.0 ** dice.uniform(-3.0, 13.0) for _ in range(8))):
                case(f.name, {"firmness_pa_s": x})
        for texts in texts_of(f):
            nothing_drawn = all(one.kind.startswith("text") for one in f.takes)
            times = 1 if nothing_drawn or "stage" in texts else 10 if not texts else 4 if "table" in texts else 2
            if f.array and texts.get("stage") in (None, "thread", "no such stage"):
                for n in (3,) if texts else (0, 1, 5, 20):
                    case(f.name, drawn(f, n, texts))
            for _ in range(0 if f.array else times):
                case(f.name, drawn(f, 1, texts))
                if f.name == "stage_of_temperature":
                    for lower, upper in ((2, 2), (2, 3 + printed % 2)):
                        case("stage_place_text", {**texts, "lower": lower, "upper": upper})


# --- calls on handles -----------------------------------------------------------------------------------------------


def session(steps):
    """Each call is a case, led to by all before it; at the end what is left is freed."""
    handles, before = {}, []
    for name, *values in [*steps, ("answer_free",), ("question_free",), ("batch_free",)]:
        f = FUNCTIONS[name]
        if name.endswith("_free") and handles.get(f.takes[0].kind) is None:
            continue
        given = {}
        for one, value in zip((one for one in f.takes if one.kind not in HANDLES), values):
            given.update(value if one.kind == "masses" else {one.name: value})
        kind = f.gives[0].kind
        if kind in HANDLES and handles.get(kind) is not None:  # the new one takes its place
            getattr(library, f"sirop_{kind}_free")(handles[kind])
            handles[kind] = None
        case(name, given, handles, list(before))
        if kind in (*HANDLES, "done", "nothing"):
            before.append({"call": f"sirop_{name}", "in": {key: number(value) for key, value in given.items()}})


def sessions():
    for steps in TEXTS["sessions"]:
        session([[{"grams": value, "components": len(value)} if isinstance(value, list) else
                  math.nan if value == "NaN" else json.dumps(value) if isinstance(value, dict) else value
                  for value in step] for step in steps])


def main():
    on_handles = [name for name, f in FUNCTIONS.items()
                  if any(one.kind in HANDLES for one in f.takes + f.gives) and not name.endswith("_refusal")]
    for name, f in FUNCTIONS.items():
        if name not in on_handles and name != "stage_place_text" and not name.endswith("_refusal"):
            without_handle(f)
    sessions()
    rest = printed
    fill = [f for name, f in FUNCTIONS.items() if [one.kind for one in f.takes][:1] == ["masses"]]
    while printed < WANTED:
        f = fill[printed % len(fill)]
        case(f.name, drawn(f, 1, {}))
    sys.stderr.write(f"{printed} cases, {printed - rest} of them to fill up\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
