"""Bad calls: each raises the class of its code, and the message names the argument, the value and what is accepted."""

import ctypes
import inspect
import math
import random
import unittest
import warnings
from array import array
from decimal import Decimal
from fractions import Fraction

import sirop
from sirop import BatchError, ImpossibleError, RangeError, UnknownNameError
from sirop._table import CODES
from support import SYRUP

COUNT = len(sirop.COMPONENTS)
BATCH = {"sirop_batch": 1, "pan": [{"ingredient": "honey", "grams": 100}], "cook": {"to_celsius": 118}}


def batch(**changes):
    return {**BATCH, **changes}


def pan(**row):
    return batch(pan=[{"ingredient": "honey", "grams": 100, **row}])


# what is called, the class, and what the message must hold
CALLS = [
    (lambda: sirop.pressure_at_altitude_hpa(9000.5), RangeError, "altitude_metres: 9000.5", "-500 to 9000"),
    (lambda: sirop.pressure_at_altitude_hpa(math.nan), RangeError, "altitude_metres: nan", "-500 to 9000"),
    (lambda: sirop.pressure_from_boiling_water_hpa(math.inf), RangeError, "water_boils_celsius: inf", "70 to 102"),
    (lambda: sirop.water_boils_celsius(299), RangeError, "pressure_hpa: 299.0", "300 to 1100"),
    (lambda: sirop.water_boils_celsius(10**400), RangeError, "pressure_hpa: 1000", "too large"),
    (lambda: sirop.water_boils_celsius("1013"), TypeError, "pressure_hpa: '1013'", "not a number"),
    (lambda: sirop.water_boils_celsius(memoryview(b"1013")), TypeError, "pressure_hpa: <memory", "not a number"),
    (lambda: sirop.water_boils_celsius(None), TypeError, "pressure_hpa: None", "not a number"),
    (lambda: sirop.boiling_point_celsius(SYRUP, 1200), RangeError, "pressure_hpa: 1200.0", "300 to 1100"),
    (lambda: sirop.boiling_point_celsius({"sugar": 10}), UnknownNameError, 'grams: there is no "sugar"', "accepted: "),
    (lambda: sirop.boiling_point_celsius({"water": 5, "sucrose": -1}), RangeError, "grams[sucrose]: -1.0",
     "0 to 1e+09"),
    (lambda: sirop.boiling_point_celsius({"water": math.nan}), RangeError, "grams[water]: nan", "0 to 1e+09"),
    (lambda: sirop.boiling_point_celsius({}), RangeError, "grams: all are 0", "at least one"),
    (lambda: sirop.boiling_point_celsius([]), RangeError, "grams: 0 masses", f"1 to {COUNT}"),
    (lambda: sirop.boiling_point_celsius([1.0] * (COUNT + 1)), RangeError, f"grams: {COUNT + 1} masses",
     f"1 to {COUNT}"),
    (lambda: sirop.boiling_point_celsius({"sucrose": 10}), ImpossibleError, "boiling_point_celsius",
     "grams sucrose 10"),
    (lambda: sirop.boiling_point_celsius("sucrose"), TypeError, "grams: 'sucrose'", "mapping"),
    (lambda: sirop.boiling_point_celsius(7), TypeError, "grams: 7", "mapping"),
    (lambda: sirop.boiling_point_celsius({"water": "a cup"}), TypeError, "grams[water]: 'a cup'", "not a number"),
    (lambda: sirop.boiling_point_celsius({0: 5}), TypeError, "grams: 0 is not", "component"),
    (lambda: sirop.water_at_boil_grams(SYRUP, 251), RangeError, "celsius: 251.0", "-30 to 250"),
    (lambda: sirop.water_at_boil_grams(SYRUP, 90), ImpossibleError, "water_at_boil_grams", "celsius 90.0"),
    (lambda: sirop.water_activity(SYRUP, -31), RangeError, "celsius: -31.0", "-30 to 250"),
    (lambda: sirop.freezing_point_celsius({"water": 1, "sucrose": 9}), ImpossibleError, "freezing_point_celsius",
     "sucrose 9"),
    (lambda: sirop.property_estimate("densty", SYRUP), UnknownNameError, 'there is no "densty"', "density_g_per_ml"),
    (lambda: sirop.property_estimate("density_g_per_ml\0x", SYRUP), UnknownNameError, "property: ", "NUL"),
    (lambda: sirop.property_estimate(None, SYRUP), TypeError, "property: None", "not a text"),
    (lambda: sirop.property_estimate("density_g_per_ml", SYRUP, 171), RangeError, "celsius: 171.0", "-30 to 170"),
    (lambda: sirop.viscosity_pa_s(SYRUP, 20, 12), RangeError, "pressure_hpa: 12.0", "300 to 1100"),
    (lambda: sirop.baume_cold({"fat": 1}), ImpossibleError, "baume_cold", "fat 1"),
    (lambda: sirop.property_unit("weight"), UnknownNameError, 'there is no "weight"', "accepted: "),
    (lambda: sirop.property_range(""), UnknownNameError, 'there is no ""', "accepted: "),
    (lambda: sirop.accepted_range("mood"), UnknownNameError, '"mood"', "temperature_celsius"),
    (lambda: sirop.component_name(2**31), RangeError, "component: 2147483648", "2147483647"),
    (lambda: sirop.component_name(1.5), TypeError, "component: 1.5", "whole number"),
    (lambda: sirop.predict("{"), BatchError, "line 1", "a JSON object"),
    (lambda: sirop.predict(batch(pan=[])), BatchError, "pan", ""),
    (lambda: sirop.predict(batch(extra=1)), BatchError, "extra: unknown key", "accepted"),
    (lambda: sirop.predict(pan(grams=-5)), BatchError, "pan[0].grams: -5", "0 to 1e+09"),
    (lambda: sirop.predict(pan(grams=math.nan)), BatchError, "pan[0].grams: nan", "finite"),
    (lambda: sirop.predict(pan(grams=-math.inf)), BatchError, "pan[0].grams: -inf", "finite"),
    (lambda: sirop.predict(pan(ingredient="silver syrup")), BatchError, "pan[0].ingredient", "silver syrup"),
    (lambda: sirop.predict(pan(ingredient="\ud800")), BatchError, "line 1", "UTF-8"),
    (lambda: sirop.predict(batch(cook={"to_celsius": 101})), BatchError, "cook.to_celsius: 101", "starts to boil"),
    (lambda: sirop.predict(b"\xff"), BatchError, "line 1", "UTF-8"),
    (lambda: sirop.predict(BATCH, table="us 1066"), UnknownNameError, "us 1066", "table"),
    (lambda: sirop.predict(BATCH, table="us 2004\0"), UnknownNameError, "table: ", "us 2004\\x00"),
    (lambda: sirop.predict(12), TypeError, "batch: ", "int"),
    (lambda: sirop.predict(batch(title=object())), TypeError, "batch: ", "JSON"),
    (lambda: sirop.predict("no-such-file.json"), FileNotFoundError, "no-such-file.json", ""),
    (lambda: sirop.report(batch(sirop_batch=2)), BatchError, "sirop_batch: is 2", "version 1"),
    (lambda: sirop.ask("{"), BatchError, "line 1", "JSON"),
    (lambda: sirop.ask({"sirop_question": 1, "ask": "why", "batch": BATCH}), BatchError, "ask: ", '"why"'),
    (lambda: sirop.ask({"sirop_question": 1, "ask": "cook_for", "batch": BATCH}), BatchError, "wanted", ""),
    (lambda: sirop.ask_report(7), TypeError, "int", "JSON text"),
    (lambda: sirop.convert("cups_to_spoons", 1), UnknownNameError, '"cups_to_spoons"', "accepted: "),
    (lambda: sirop.convert("brix_to_density_kg_m3", math.nan), RangeError, "value: nan", "brix_to_density"),
    (lambda: sirop.convert("brix_to_density_kg_m3", 1e6), RangeError, "value: 1000000.0", "brix_to_density"),
    (lambda: sirop.ingredient_grams("moon dust"), UnknownNameError, '"moon dust"', "accepted: "),
    (lambda: sirop.ingredient_source("hony"), UnknownNameError, '"hony"', "honey"),
    (lambda: sirop.ingredient_estimate(None), TypeError, "ingredient: None", "not a text"),
    (lambda: sirop.glucose_syrup_grams(200), RangeError, "dextrose_equivalent: 200.0", "10 to 60"),
    (lambda: sirop.glucose_syrup_grams(42, 0.5), RangeError, "solids_percent: 0.5", "1 to 100"),
    (lambda: sirop.stage_table_source("us 1066"), UnknownNameError, 'table: there is no "us 1066"', "us 2004"),
    (lambda: sirop.stages("us 1066"), UnknownNameError, 'table: there is no "us 1066"', "us 2004"),
    (lambda: sirop.stage_range_celsius("soft bal"), UnknownNameError, 'stage: there is no "soft bal"', "soft ball"),
    (lambda: sirop.stage_range_celsius("soft ball", "us 1066"), UnknownNameError, "table: ", '"us 1066"'),
    (lambda: sirop.stage_of_temperature(251), RangeError, "celsius: 251.0", "-30 to 250"),
    (lambda: sirop.stage_of_temperature(110, 12), RangeError, "pressure_hpa: 12.0", "300 to 1100"),
    (lambda: sirop.stage_of_mixture({"water": -1}), RangeError, "grams[water]: -1.0", "0 to 1e+09"),
    (lambda: sirop.celsius_for_stage("soft bal", SYRUP), UnknownNameError, '"soft bal"', "soft ball"),
    (lambda: sirop.celsius_for_stage("soft ball", {"fat": 5}), ImpossibleError, "celsius_for_stage", "fat 5"),
    (lambda: sirop.texture_word_firmness_pa_s(99), RangeError, "index: 99", f"0 to {len(sirop.texture_words()) - 1}"),
    (lambda: sirop.texture_word_of(-1), RangeError, "firmness_pa_s: -1.0", "0 or more"),
    (lambda: sirop.graining_at(SYRUP, 101), RangeError, "celsius: 101.0", "-30 to 100"),
    (lambda: sirop.graining_at({"sucrose": 1}, 20), ImpossibleError, "graining_at", "sucrose 1"),
    (lambda: sirop.layers_at_equilibrium([SYRUP, {"water": -1}], 20), RangeError, "layers_at_equilibrium", "layers 2"),
    (lambda: sirop.layers_at_equilibrium([], 20), RangeError, "layers_at_equilibrium", "layers 0"),
    (lambda: sirop.layers_at_equilibrium([SYRUP], -1), RangeError, "celsius: -1.0", "0 to 100"),
    (lambda: sirop.stage_of_temperature(110, table="us 1066"), UnknownNameError, 'table: there is no "us 1066"',
     "us 2004"),
    (lambda: sirop.stage_of_mixture({"fat": 5}), ImpossibleError, "stage_of_mixture", "fat 5"),
    (lambda: sirop.stage_place_text(3, 1), RangeError, "lower, upper: 3, 1", "0 to 10"),
    (lambda: sirop.stage_place_text(0, 2, "us 1066"), UnknownNameError, 'table: there is no "us 1066"', "us 2004"),
    (lambda: sirop.stage_place_text(0.5, 2), TypeError, "lower: 0.5", "whole number"),
    (lambda: sirop.growth_limit(99), RangeError, "index: 99", f"0 to {len(sirop.growth_limits()) - 1}"),
    (lambda: sirop.growth_limit(-1), RangeError, "index: -1", f"0 to {len(sirop.growth_limits()) - 1}"),
    (lambda: sirop.argument_name("x"), TypeError, "index: 'x'", "whole number"),
    (lambda: sirop.accepted_range("presure_hpa"), UnknownNameError, '"presure_hpa"', "pressure_hpa"),
    (lambda: sirop.Batch().add("moon dust", 5), UnknownNameError, "ingredient: ", "moon dust"),
    (lambda: sirop.Batch().add("honey", -5), RangeError, "grams: -5", "0 to 1e+09"),
    (lambda: sirop.Batch().add("honey", 5, 500, "off_heat"), RangeError, "celsius: 500", "-30 to 120"),
    (lambda: sirop.Batch().add("honey", 5, where="table"), UnknownNameError, '"table"', "off_heat"),
    (lambda: sirop.Batch().add("honey", 5, where=7), RangeError, "where: 7", ""),
    (lambda: sirop.Batch().add_mixture("mine", {"water": 0}), RangeError, "grams: ", "at least 0"),
    (lambda: sirop.Batch().set("mood", 1), UnknownNameError, 'field: "mood"', "serve_celsius"),
    (lambda: sirop.Batch().set("pressure_hpa", 12), RangeError, "pressure_hpa: 12", "300 to 1100"),
    (lambda: sirop.Batch().set("\ud800", 1), UnknownNameError, "field: ", "serve_celsius"),
    (lambda: sirop.Batch().set("pressure_hpa", "low"), TypeError, "value: 'low'", "not a number"),
    (lambda: sirop.Batch().predict(), BatchError, "pan", ""),
    (lambda: sirop.Batch.read(BATCH).predict("us 1066"), UnknownNameError, "us 1066", "table"),
    (lambda: sirop.Batch.read({"sirop_batch": 1}), BatchError, "pan", ""),
    (lambda: sirop.Batch.read(BATCH).answer().number("set.word"), UnknownNameError, '"set.word"', "accepted"),
    (lambda: sirop.Batch.read(BATCH).answer().text("x.y"), UnknownNameError, '"x.y"', "accepted"),
    (lambda: sirop.Batch.read(BATCH).answer().number("finished.freezing_celsius"), ImpossibleError,
     "finished.freezing_celsius", "notes"),
    (lambda: sirop.Batch.read(BATCH).answer().count("set.word"), UnknownNameError, '"set.word"', "list or object"),
    (lambda: sirop.Question("why"), UnknownNameError, 'kind: there is no "why"', "cook_for"),
    (lambda: sirop.Question(None), TypeError, "kind: None", "not a text"),
    (lambda: sirop.Question("scale").ask(), BatchError, "batch", "missing"),
    (lambda: sirop.Question("cook_for").set("batch", sirop.Batch().add("honey", 9)).ask(), BatchError, "wanted",
     "missing"),
    (lambda: sirop.Question("cook_for").set("batch", sirop.Batch().add("honey", 9)).set("mood", 1).reply(), BatchError,
     "mood: unknown key", "wanted"),
    (lambda: sirop.Question("rescue").set("with.1", "water"), UnknownNameError, 'key: "with.1"', "without a gap"),
    (lambda: sirop.Question("rescue").set("", 1), UnknownNameError, 'key: ""', "joined by dots"),
    (lambda: sirop.Question("rescue").set(None, 1), TypeError, "key: None", "not a text"),
    (lambda: sirop.Question("rescue").set("now.brix", math.nan), RangeError, "value: not a number", "finite"),
    (lambda: sirop.Question("rescue").set("now.brix", [80]), TypeError, "value: [80]", "not a number"),
    (lambda: sirop.Question("rescue").set_truth("now.additions_in", "no"), TypeError, "yes: 'no'", "True"),
    (lambda: sirop.Question("rescue").set_text("wanted.set_word", 7), TypeError, "text: 7", "not a text"),
    (lambda: sirop.Question("rescue").set_text("wanted.set_word", "thin\0"), UnknownNameError, "text: 'thin", "NUL"),
    (lambda: sirop.Question("rescue").set_batch("batch", BATCH), TypeError, "batch: {", "Batch.read"),
    (lambda: sirop.water_activity_n([SYRUP, SYRUP], [20.0]), RangeError, "celsius: 1 numbers", "2 mixtures"),
    (lambda: sirop.water_boils_celsius_n([1000, "low"]), TypeError, "pressure_hpa[1]: 'low'", "not a number"),
    (lambda: sirop.water_boils_celsius_n([1000, 12]).raise_for_errors(), RangeError, "element 1", "1 of 2"),
    (lambda: sirop.water_boils_celsius_n(memoryview(array("d", range(4))).cast("B").cast("d", (2, 2))), RangeError,
     "pressure_hpa: an array of 2 dimensions", "one number for each"),
    (lambda: sirop.stage_of_temperature_n([110, 120], [1000]), RangeError, "pressure_hpa: 1 numbers", "2 elements"),
    (lambda: sirop.stage_of_temperature_n([110, 120], table="us 1066"), UnknownNameError, 'no "us 1066"', "us 2004"),
    (lambda: sirop.stage_of_mixture_n([], "us 1066"), UnknownNameError, 'no "us 1066"', "us 2004"),
    (lambda: sirop.celsius_for_stage_n("soft bal", [SYRUP]), UnknownNameError, 'no "soft bal"', "soft ball"),
    (lambda: sirop.convert_n("cups_to_spoons", [1]), UnknownNameError, '"cups_to_spoons"', "accepted: "),
    (lambda: sirop.glucose_syrup_grams_n([42, 60], [80, 80, 80]), RangeError, "solids_percent: 3 numbers",
     "2 elements"),
    (lambda: sirop.layers_at_equilibrium_n([[SYRUP, SYRUP], [SYRUP]], 20), RangeError, "grams: desserts of 1 and",
     "same number"),
    (lambda: sirop.layers_at_equilibrium_n([SYRUP, SYRUP], 20), TypeError, "layers: is missing", "not nested"),
    (lambda: sirop.layers_at_equilibrium_n([SYRUP] * 3, 20, layers=2), RangeError, "grams: 3 mixtures", "2 layers"),
    (lambda: sirop.layers_at_equilibrium_n([SYRUP], 20, layers=0), RangeError, "layers: 0", "1 or more"),
    (lambda: sirop.layers_at_equilibrium_n([[SYRUP]], 20, layers=2), RangeError, "layers: 2", "1"),
    (lambda: sirop.layers_at_equilibrium_n([[SYRUP]], [20, 30]), RangeError, "celsius: 2 numbers", "1 desserts"),
    (lambda: sirop.water_activity_n([1.0] * (COUNT + 1), 20.0), RangeError, f"grams: {COUNT + 1} masses",
     f"{COUNT} components"),
    (lambda: sirop.water_activity_n([1.0] * (COUNT + 1), 20.0, components=COUNT + 1), RangeError,
     f"components: {COUNT + 1}", f"1 to {COUNT}"),
    (lambda: sirop.water_activity_n([1.0], 20.0, components=0), RangeError, "components: 0", f"1 to {COUNT}"),
    (lambda: sirop.water_activity_n([[1.0, 2.0]], 20.0, components=3), RangeError, "components: 3", "2"),
    (lambda: sirop.water_activity_n([{"sugar": 1}], 20.0), UnknownNameError, '"sugar"', "accepted: "),
    (lambda: sirop.water_activity_n(b"12345678", 20.0), TypeError, "grams: bytes", "array of numbers"),
    (lambda: sirop.property_estimate_n("mood", [SYRUP]), UnknownNameError, '"mood"', "accepted: "),
    (lambda: sirop.water_activity_n([SYRUP, {"fat": 1}], 20.0).raise_for_errors(), ImpossibleError, "element 1",
     "1 of 2"),
]


class BadCalls(unittest.TestCase):
    def test_there_are_enough(self):
        self.assertGreaterEqual(len(CALLS), 20)

    def test_the_good_batch_is_answered(self):
        self.assertEqual(sirop.predict(BATCH).cooked.celsius, 118)

    def test_nonsense_never_gets_another_exception(self):
        class Evil:
            def __float__(self):
                return "x"

            def __len__(self):
                return -5

        numbers = array("d", [1, 2])
        things = [None, True, 0, -1, 1, 2**31, 2**70, 10**400, 1.5, math.nan, math.inf, 1j, "", "x", "water",
                  "density_g_per_ml", "a.json", "\ud800", "\0", b"", b"12", bytearray(8), [], [1], [1] * COUNT,
                  [1] * (COUNT + 1),
                  [[1]], [[1, 2], [3]], [None], ["1"], {}, {"water": 1}, {"water": "1"}, {1: 2}, {"pan": object()},
                  (1, 2), {1, 2}, range(3), numbers, array("b", b"12"), memoryview(b"12345678"), object(),
                  Evil(), int, Decimal("1.5"), Fraction(1, 3), [{"water": 1}], [{"water": 1}, {"water": 2}],
                  (ctypes.c_double * 3)(1, 2, 3), ctypes.c_double(4),
                  memoryview(array("d", range(8))).cast("B").cast("d", (2, 2, 2))]
        functions = [kind for kind in map(vars(sirop).get, sirop.__all__)
                     if inspect.isfunction(kind) and kind is not sirop.error_class]
        with sirop.Batch.read(BATCH) as batch, batch.answer() as answer, sirop.Question("scale") as question:
            functions += [sirop.Question, *(getattr(one, name) for one in (batch, answer, question) for name in dir(one)
                                            if not name.startswith("_") and name not in ("close", "status"))]
            self.call_with_nonsense(functions, things)

    def call_with_nonsense(self, functions, things):
        draw, raised = random.Random(1), set()
        for _ in range(9000):
            function = draw.choice(functions)
            arguments = [draw.choice(things) for _ in inspect.signature(function).parameters]
            try:
                with warnings.catch_warnings():
                    warnings.simplefilter("ignore", sirop.ExtrapolationWarning)
                    function(*arguments)
            except (sirop.SiropError, TypeError, OSError) as why:
                raised.add(type(why))
            except Exception as why:
                self.fail(f"{function.__name__}{tuple(arguments)!r:.300} raised {why!r}")
        self.assertGreaterEqual(len(raised), 4)

    def test_a_refusal_has_a_place_and_a_reason(self):
        with self.assertRaises(BatchError) as caught:
            sirop.predict(batch(serve={"celsius": 300}))
        self.assertEqual(caught.exception.place, "serve.celsius")
        self.assertRegex(caught.exception.reason, "^300 is outside")
        bare = BatchError("no")
        self.assertEqual((bare.place, bare.reason), ("", "no"))

    def test_classes_are_those_of_the_codes(self):
        errors = {code for code in CODES.values() if code < 0}
        self.assertGreaterEqual(len(errors), 8)
        for code in errors:
            self.assertEqual(sirop.error_class(code).code, code)
            self.assertTrue(issubclass(sirop.error_class(code), sirop.SiropError))
        self.assertEqual(len({sirop.error_class(code) for code in errors}), len(errors))
        self.assertIs(sirop.error_class(-999), sirop.GeneralError)

    def test_classes_are_python_s_own_too(self):
        for kind, own in ((sirop.RangeError, ValueError), (sirop.UnknownNameError, KeyError),
                          (sirop.BatchError, ValueError), (sirop.ImpossibleError, ValueError),
                          (sirop.OutOfMemoryError, MemoryError), (sirop.BufferTooSmallError, BufferError),
                          (sirop.ExtrapolationWarning, UserWarning)):
            self.assertTrue(issubclass(kind, own), kind)


def of_call(call, kind, words):
    def test(self):
        with self.assertRaises(kind) as caught, warnings.catch_warnings():
            warnings.simplefilter("ignore", sirop.ExtrapolationWarning)
            call()
        self.assertIs(type(caught.exception), kind)
        for word in words:
            self.assertIn(word, str(caught.exception))
        self.assertNotIn("\n", str(caught.exception))
    return test


for _number, (_call, _kind, *_words) in enumerate(CALLS):
    setattr(BadCalls, f"test_call_{_number:02d}_{_kind.__name__}", of_call(_call, _kind, _words))
