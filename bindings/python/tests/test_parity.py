"""Every function of the header exists here and gives the same as C, on the cases that all bindings share."""

import json
import math
import unittest
import warnings

import sirop
import support

NAMES = sirop.COMPONENTS

# Functions whose result in Python has another shape: what in Python is C's "out".
SHAPES = {
    "sirop_property_range": lambda found: {"celsius": plain(found[0]), "fitted_solids_percent": found[1]},
    "sirop_ingredient_grams": lambda found: [found.get(name, 0.0) for name in NAMES],
    "sirop_glucose_syrup_grams": lambda found: [found.get(name, 0.0) for name in NAMES],
    "sirop_growth_limit": lambda found: {"group": found and found.group, "water_activity":
                                         found and found.water_activity},
    "sirop_graining_at": lambda found: {name: plain(getattr(found, name)) for name in (
        "risk", "sucrose_supersaturation", "lactose_supersaturation", "crystallizable_percent",
        "hindering_percent")},
    "sirop_layers_at_equilibrium": lambda found: {
        "water_activity": plain(found.water_activity),
        "water_gained_grams": [dict(plain(one), status=one.status) for one in found.water_gained_grams]},
}

# Functions on handles are methods: sirop_batch_x is Batch.x, sirop_answer_x is Answer.x, but for these.
METHODS = {"sirop_batch_new": sirop.Batch, "sirop_batch_free": sirop.Batch.close,
           "sirop_batch_predict": sirop.Batch.answer, "sirop_answer_free": sirop.Answer.close}


def is_on_handle(name):
    return name.startswith(("sirop_batch_", "sirop_answer_"))


def python_function(name):
    """sirop_x of C is sirop.x."""
    if name in METHODS:
        return METHODS[name]
    for prefix, kind in (("sirop_batch_", sirop.Batch), ("sirop_answer_", sirop.Answer)):
        if name.startswith(prefix):
            return getattr(kind, name[len(prefix):], None)
    return getattr(sirop, name[len("sirop_"):], None)


def plain(found):
    """A result as the cases write it."""
    if isinstance(found, sirop.Estimate):
        return {"value": found.value, "low": found.low, "high": found.high}
    if isinstance(found, sirop.Range):
        return {"low": found.low, "high": found.high}
    if isinstance(found, sirop.Estimates):
        return [dict(plain(one), status=one.status) for one in found]
    return found


def same(a, b):
    """Equal, numbers to 1e-13 relative or 1e-12 absolute; NaN and null are the same."""
    if isinstance(a, dict) and isinstance(b, dict):
        return a.keys() == b.keys() and all(same(a[key], b[key]) for key in a)
    if isinstance(a, list) and isinstance(b, list):
        return len(a) == len(b) and all(map(same, a, b))
    if isinstance(a, (int, float)) and isinstance(b, (int, float)):
        if math.isnan(a) or math.isnan(b):
            return math.isnan(a) and math.isnan(b)
        return a == b or math.isclose(a, b, rel_tol=1e-13, abs_tol=1e-12)
    if a is None or b is None:
        return all(x is None or (isinstance(x, float) and math.isnan(x)) for x in (a, b))
    return type(a) is type(b) and a == b


def arguments(case):
    """The arguments in Python: a null in an array is NaN; lengths follow from the arrays."""
    found = dict(case["in"])
    lengths = {"n", "layers"} & found.keys()
    for name in lengths or {"components"}:
        found.pop(name, None)
    for name, value in found.items():
        if isinstance(value, list):
            found[name] = [math.nan if x is None else x for x in value]
        elif value is None and name != "table":
            found[name] = math.nan
    return found


class Replay:
    """Calls on one batch, and on the answer of its last prediction."""

    def __init__(self):
        self.batch = self.answer = None

    def __call__(self, name, inside):
        function = python_function(name)
        if name == "sirop_batch_new":
            self.batch, found = function(), None
        elif name == "sirop_batch_read":
            self.batch, found = function(**inside), None
        elif name == "sirop_batch_predict":
            self.answer, found = function(self.batch, **inside), None
        else:
            found = function(self.answer if name.startswith("sirop_answer_") else self.batch, **inside)
        return None if isinstance(found, sirop.Batch) else found


def made(case):
    """The result in Python, after the calls that lead to it."""
    if not is_on_handle(case["call"]):
        return python_function(case["call"])(**arguments(case))
    replay = Replay()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        for step in case.get("before", []):
            try:
                replay(step["call"], arguments(step))
            except sirop.SiropError:
                pass  # a step that was refused in C, too; its own case says so
    found = replay(case["call"], arguments(case))
    if case["call"] in ("sirop_answer_number", "sirop_answer_text") and replay.answer.status == 1:
        warnings.warn("as the prediction was", sirop.ExtrapolationWarning)  # which has warned when it was made
    return found


def call(case):
    """Status and result in Python's words, as C would give them."""
    with warnings.catch_warnings(record=True) as caught:
        warnings.simplefilter("always")
        try:
            found = made(case)
        except sirop.SiropError as why:
            return why.code, why
    extrapolated = any(issubclass(one.category, sirop.ExtrapolationWarning) for one in caught)
    if isinstance(found, sirop.Estimates):
        errors = [status for status in found.status if status < 0]
        return errors[0] if errors else int(extrapolated), plain(found)
    return int(extrapolated), SHAPES.get(case["call"], plain)(found)


def readable(text):
    """A JSON text is compared by its values."""
    return json.loads(text) if isinstance(text, str) and text.startswith(("{", "[")) else text


def difference(case):
    """What is not as in C, or None."""
    status, found = call(case)
    expected, out = case["status"], case["out"]
    if isinstance(found, sirop.SiropError):
        if type(found) is not sirop.error_class(status):
            return f"{type(found).__name__} has the code {status}"
        if expected == 0 and out is None:  # a text that is null in C, because of an unknown name
            return None if status == -3 else f"raised {found!r}"
        if status == -5 and out is not None and str(found) != out:
            return f"the reason is {found}"
        if status == -3 and isinstance(out, list):  # an unknown name fails for every element, masses first
            return None if all(one["status"] in (-2, -3) for one in out) else f"raised {found!r}"
        return None if status == expected else f"raised {found!r}"
    if status != expected:
        return f"status {status}"
    return None if same(readable(found), readable(out)) else f"gave {found!r}"


class Parity(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.cases = support.cases()
        cls.functions = support.header_functions()

    def test_there_are_1000_cases(self):
        self.assertEqual(len(self.cases), 1000)

    def test_every_function_of_the_header_is_bound(self):
        self.assertGreater(len(self.functions), 50)
        for name in self.functions:
            with self.subTest(function=name):
                self.assertTrue(callable(python_function(name)), f"{name} has no function in Python")

    def test_every_function_of_the_header_has_cases(self):
        named = {case["call"] for case in self.cases}
        self.assertEqual(sorted(set(self.functions) - named), [])
        self.assertEqual(sorted(named - set(self.functions)), [])

    def test_comparison_sees_differences(self):
        self.assertTrue(same({"a": [1.0, None]}, {"a": [1.0 + 1e-14, math.nan]}))
        for a, b in ((100.0, 100.0 + 1e-10), (1e-3, 1e-3 + 2e-12), (1.0, None), (math.nan, 1.0), ("a", "b"),
                     ([1.0], [1.0, 2.0]), ({"a": 1.0}, {"b": 1.0}), ("1", 1), (1e300, math.inf)):
            self.assertFalse(same(a, b), (a, b))


def of_function(name):
    def test(self):
        bad = [f"{json.dumps(case, ensure_ascii=False)[:1500]}\n  -> {reason}"
               for case in self.cases if case["call"] == name
               for reason in [difference(case)] if reason is not None]
        if bad:
            self.fail(f"{len(bad)} cases differ, the first: {bad[0]}")
    return test


# One test for each function of the header.
for _name in support.header_functions():
    setattr(Parity, "test_cases_of_" + _name, of_function(_name))


if __name__ == "__main__":
    unittest.main()
