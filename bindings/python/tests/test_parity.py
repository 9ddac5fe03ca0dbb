"""Every function of the header exists here and gives the same as C, on the cases that all bindings share."""

import dataclasses
import inspect
import json
import math
import unittest
import warnings

import sirop
import support
from sirop._table import FUNCTIONS as TABLE

NAMES = sirop.COMPONENTS
FUNCTIONS = {"sirop_" + name: row for name, row in TABLE.items()}

# Functions whose result in Python has another shape: what in Python is C's "out".
SHAPES = {
    "sirop_property_range": lambda found: {"celsius": plain(found[0]), "fitted_solids_percent": found[1]},
    "sirop_ingredient_grams": lambda found: masses(found),
    "sirop_glucose_syrup_grams": lambda found: masses(found),
    "sirop_growth_limit": lambda found: found.water_activity,
    "sirop_layers_at_equilibrium": lambda found: layers(found),
    "sirop_layers_at_equilibrium_n": lambda found: {
        "water_activity": plain(found.water_activity),
        "water_gained_grams": [one for dessert in found for one in layers(dessert)["water_gained_grams"]]},
    "sirop_glucose_syrup_grams_n": lambda found: {
        "statuses": list(found.status), "grams": [mass for one in found for mass in masses(one)]},
}

# What C writes to `statuses` and to the argument of that name.
SHAPES.update({name: lambda found, result=gives[0][1]: with_statuses(found, result)
               for name, (*_, gives) in FUNCTIONS.items() if gives[0][0] in ("values", "wholes", "ranges")})

# The handles: sirop_batch_x of C is Batch.x, but for these.
HANDLES = {"sirop_batch_": sirop.Batch, "sirop_question_": sirop.Question, "sirop_answer_": sirop.Answer}
METHODS = {"sirop_batch_new": sirop.Batch, "sirop_batch_free": sirop.Batch.close,
           "sirop_batch_predict": sirop.Batch.answer, "sirop_answer_free": sirop.Answer.close,
           "sirop_question_new": sirop.Question, "sirop_question_free": sirop.Question.close,
           "sirop_question_name": sirop.question_name}


# Their status in C is that of the whole answer.
SPEAK_OF_THE_ANSWER = ("sirop_answer_number", "sirop_answer_text", "sirop_answer_count", "sirop_answer_report")


def handle_of(name):
    """The start of the name that says on which handle the function works; None if it is on none."""
    return next((one for one in HANDLES if name.startswith(one) and name != "sirop_question_name"), None)


def python_function(name):
    """sirop_x of C is sirop.x."""
    if name in METHODS:
        return METHODS[name]
    prefix = handle_of(name)
    return getattr(HANDLES[prefix] if prefix else sirop, name[len(prefix or "sirop_"):], None)


def masses(found):
    return [found.get(name, 0.0) for name in NAMES]


def layers(found):
    return {"water_activity": plain(found.water_activity),
            "water_gained_grams": [dict(plain(one), status=one.status) for one in found.water_gained_grams]}


def with_statuses(found, result):
    return {"statuses": list(found.status), result: list(map(plain, found))}


def plain(found):
    """A result as the cases write it: an element of an array with its status."""
    if isinstance(found, (sirop.Estimates, sirop.StagePlaces, sirop.GrainingEstimates)):
        return [dict(plain(one), status=one.status) for one in found]
    if dataclasses.is_dataclass(found):
        left_out = ("status", "name")
        return {one.name: plain(getattr(found, one.name)) for one in dataclasses.fields(found)
                if one.name not in left_out}
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
    """The arguments in Python: a null in an array is NaN; lengths that Python does not take follow from the arrays."""
    taken = inspect.signature(python_function(case["call"])).parameters
    found = {name: value for name, value in case["in"].items()
             if name in taken or name not in ("n", "layers", "components")}
    for name, value in found.items():
        if isinstance(value, list):
            found[name] = [math.nan if x is None else x for x in value]
        elif value is None and name != "table":
            found[name] = math.nan
    return found


class Replay:
    """Calls on one batch, on one question, and on the last answer of either."""

    def __init__(self):
        self.made = {}

    def __call__(self, name, inside):
        function, kind = python_function(name), handle_of(name)
        if name in ("sirop_batch_new", "sirop_batch_read", "sirop_question_new"):
            found = function(**inside)
        else:
            if name == "sirop_question_set_batch":
                inside = {**inside, "batch": self.made["sirop_batch_"]}
            found = function(self.made[kind], **inside)
        if not isinstance(found, tuple(HANDLES.values())):
            return found
        self.made[next(one for one, what in HANDLES.items() if isinstance(found, what))] = found
        return None


def made(case):
    """The result in Python, after the calls that lead to it."""
    if handle_of(case["call"]) is None:
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
    if case["call"] in SPEAK_OF_THE_ANSWER and replay.made["sirop_answer_"].status == 1:
        warnings.warn("as the answer was", sirop.ExtrapolationWarning)  # which has warned when it was made
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
    errors = [status for status in found.status if status < 0] if case["call"].endswith("_n") else []
    return errors[0] if errors else int(extrapolated), SHAPES.get(case["call"], plain)(found)


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
        if status == -3 and case["call"].endswith("_n"):  # an unknown name fails for every element, masses first
            statuses = out["statuses"] if "statuses" in out else [one["status"] for one in out]
            return None if set(statuses) <= {-2, -3} else f"raised {found!r}"
        return None if status == expected else f"raised {found!r}"
    if status != expected:
        return f"status {status}"
    return None if same(readable(found), readable(out)) else f"gave {found!r}"


class Parity(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.cases = support.cases()
        cls.functions = FUNCTIONS

    def test_there_are_1000_cases(self):
        self.assertGreaterEqual(len(self.cases), 1000)

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
for _name in FUNCTIONS:
    setattr(Parity, "test_cases_of_" + _name, of_function(_name))
