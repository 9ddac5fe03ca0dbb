"""Warnings, threads, batches in every form, and what the catalogue says."""

import ctypes
import dataclasses
import functools
import json
import math
import pathlib
import random
import tempfile
import types
import unittest
import warnings

import sirop
from sirop._calls import text_call
from support import SYRUP, TREE, Quiet, cases, in_threads

BATCH_FILE = TREE / "examples" / "batches" / "miso_caramel.json"
DILUTE = {"sucrose": 10, "water": 90}
DRY = {"sucrose": 98.5, "water": 1.5}  # beyond what any measurement reaches
SWEETS = BATCH_FILE.with_name("boiled_sweets.json")


def question():
    return sirop.Question("scale").set("batch", sirop.Batch.read(SWEETS)).set("yield.grams", 500)


class Warnings(unittest.TestCase):
    def caught(self, function, *arguments):
        with warnings.catch_warnings(record=True) as caught:
            warnings.simplefilter("always")
            function(*arguments)
        return caught

    def test_an_extrapolation_warns_once_at_the_line_that_called(self):
        for function, arguments in ((sirop.boiling_point_celsius, (DRY,)), (sirop.viscosity_pa_s, (DRY, 20)),
                                    (sirop.property_estimate, ("viscosity_pa_s", DRY, 20)),
                                    (sirop.boiling_point_celsius_n, ([DRY, DRY],)),
                                    (sirop.stage_of_mixture, (DRY,)),
                                    (sirop.Batch.read(SWEETS).answer, ()), (question().ask, ()),
                                    (question().reply, ()),
                                    (sirop.predict, (SWEETS,)), (sirop.report, (SWEETS,)),
                                    (sirop.predict_json, (SWEETS,))):
            with self.subTest(function=function.__name__):
                caught = self.caught(function, *arguments)
                self.assertEqual([one.category for one in caught], [sirop.ExtrapolationWarning])
                self.assertEqual(pathlib.Path(caught[0].filename).name, pathlib.Path(__file__).name)

    def test_no_extrapolation_no_warning(self):
        self.assertEqual(self.caught(sirop.water_activity, DILUTE, 25), [])
        self.assertEqual(self.caught(sirop.water_activity_n, [DILUTE], 25), [])
        self.assertIs(sirop.water_activity(DILUTE, 25).extrapolated, False)

    def test_a_warning_can_be_made_an_error(self):
        with warnings.catch_warnings():
            warnings.simplefilter("error", sirop.ExtrapolationWarning)
            with self.assertRaises(sirop.ExtrapolationWarning):
                sirop.boiling_point_celsius(DRY)


class Threads(unittest.TestCase):
    def test_the_interpreter_is_released_during_calls(self):
        from sirop._library import library
        self.assertIsInstance(library, ctypes.CDLL)
        self.assertNotIsInstance(library, ctypes.PyDLL)

    def test_eight_threads_get_what_one_gets(self):
        draw = random.Random(7)
        mixtures = [[draw.uniform(20, 90), draw.uniform(1, 60), draw.uniform(0, 30)] for _ in range(300)]
        text = BATCH_FILE.read_text(encoding="utf-8")

        def work(order):
            found = {}
            for index in order:
                found[index] = (sirop.boiling_point_celsius(mixtures[index]),
                                sirop.density_g_per_ml(mixtures[index], 20),
                                list(sirop.water_activity_n(mixtures[index:index + 5], 25.0)))
                if index % 60 == 0:
                    found[index] += (sirop.predict(text), sirop.report(text))
                try:
                    sirop.water_boils_celsius(-index)
                except sirop.RangeError as why:
                    found[index] += (str(why),)
            return found

        with warnings.catch_warnings():
            warnings.simplefilter("ignore", sirop.ExtrapolationWarning)
            expected = work(range(300))
            results = [None] * 8

            def run(number):
                results[number] = work(random.Random(number).sample(range(300), 300))

            in_threads(self, [functools.partial(run, number) for number in range(8)])
        for found in results:
            self.assertEqual(found, expected)


class Batches(Quiet):
    def test_every_form_of_a_batch_gives_the_same(self):
        text = BATCH_FILE.read_text(encoding="utf-8")
        batch = json.loads(text)
        expected = sirop.predict(text)
        forms = {"path": BATCH_FILE, "name of a file": str(BATCH_FILE), "bytes": text.encode(), "mapping": batch,
                 "other mapping": types.MappingProxyType({**batch, "pan": tuple(batch["pan"])}),
                 "nested mappings": {**batch, "cook": types.MappingProxyType(batch["cook"])}}
        for name, form in forms.items():
            with self.subTest(form=name):
                self.assertEqual(sirop.predict(form), expected)

    def test_text_that_is_not_ascii_arrives(self):
        batch = json.loads(BATCH_FILE.read_text(encoding="utf-8"))
        batch["title"] = 'Crème brûlée "à la" 糖 (invented)'
        self.assertEqual(sirop.predict(batch).title, batch["title"])
        self.assertIn(batch["title"], sirop.report(batch))
        with tempfile.TemporaryDirectory() as folder:
            path = pathlib.Path(folder, "crème.json")
            path.write_text(json.dumps(batch, ensure_ascii=False), encoding="utf-8")
            self.assertEqual(sirop.predict(path).title, batch["title"])

    def test_the_typed_answer_is_the_json_answer(self):
        batches = [case["in"]["batch"] for case in cases()
                   if case["call"] == "sirop_predict_json" and case["status"] >= 0]
        self.assertGreater(len(batches), 5)
        seen = 0
        for batch in [BATCH_FILE, *batches]:
            answer = sirop.predict(batch)
            self.assertEqual(answer.raw, json.loads(sirop.predict_json(batch)))
            seen += self.compare(answer, answer.raw, "answer")
            self.assertTrue(any("burn" in caution for caution in answer.cautions))
        self.assertGreater(seen, 300)

    def compare(self, part, raw, place):
        """Compares a dataclass with its JSON object, key by key; gives back how many values were compared."""
        names = {field.name for field in dataclasses.fields(part)} - {"raw"}
        keys = {name for name in raw if not name.endswith(("_low", "_high"))} - {"sirop_answer"}
        self.assertEqual(keys - names, set(), f"keys of {place} that {type(part).__name__} does not have")
        names -= {"neighbours", "key"} - keys  # an answer may be without
        self.assertEqual(names - keys, set(), f"fields of {type(part).__name__} that {place} does not have")
        seen = 0
        for name in names:
            found, expected = getattr(part, name), raw[name]
            if isinstance(found, sirop.Estimate):
                self.assertEqual([None if math.isnan(x) else x for x in (found.value, found.low, found.high)],
                                 [raw[name + end] for end in ("", "_low", "_high")])
                self.assertIsNone(found.extrapolated)
            elif name + "_low" in raw:
                self.assertIsNone(found, f"{place}.{name} should be an Estimate")
                self.assertEqual([raw[name + end] for end in ("", "_low", "_high")], [None] * 3)
            elif dataclasses.is_dataclass(found):
                seen += self.compare(found, expected, f"{place}.{name}")
            elif isinstance(found, tuple):
                self.assertEqual(len(found), len(expected))
                for one, other in zip(found, expected):
                    if dataclasses.is_dataclass(one):
                        seen += self.compare(one, other, f"{place}.{name}[]")
                    else:
                        self.assertEqual(one, other)
            else:
                self.assertNotIsInstance(expected, (dict, list), f"{place}.{name}")
                self.assertEqual(found, expected)
            seen += 1
        return seen

    def test_an_answer_with_other_keys_is_taken_too(self):
        from sirop._batch import Prediction, typed
        raw = json.loads(sirop.predict_json(BATCH_FILE))
        raw["colour"] = "amber"
        raw["set"]["bounce"] = {"height_m": 1}
        del raw["stage"]["by_consistency"]
        answer = typed(Prediction, raw)
        self.assertEqual(answer.raw["set"]["bounce"], {"height_m": 1})
        self.assertIsNone(answer.stage.by_consistency)
        self.assertEqual(answer.set.word, raw["set"]["word"])

    def test_another_table(self):
        self.assertEqual(sirop.predict(BATCH_FILE, table="us 1918").stage.table, "us 1918")
        self.assertNotEqual(sirop.report(BATCH_FILE, table="us 1918"), sirop.report(BATCH_FILE))

    def test_a_text_larger_than_the_first_buffer(self):
        title = "x" * 200_000
        batch = {**json.loads(BATCH_FILE.read_text(encoding="utf-8")), "title": title}
        self.assertEqual(sirop.predict(batch).title, title)

    def test_a_text_that_never_fits_is_an_error(self):
        def sirop_grows(out, size, needed):
            needed._obj.value = size + 1
            return sirop.BufferTooSmallError.code
        with self.assertRaises(sirop.BufferTooSmallError):
            text_call(sirop_grows)

    def test_answers_cannot_be_changed(self):
        answer = sirop.predict(BATCH_FILE)
        for thing, name in ((answer, "title"), (answer.set, "word"), (answer.finished.grams, "value")):
            with self.assertRaises(dataclasses.FrozenInstanceError):
                setattr(thing, name, None)


class Catalogue(unittest.TestCase):
    def test_every_property_is_a_function_with_a_docstring(self):
        records = sirop.properties()
        self.assertGreater(len(records), 15)
        self.assertEqual(len({one.name for one in records}), len(records))
        for one in records:
            with self.subTest(property=one.name):
                function = getattr(sirop, one.name)
                self.assertEqual(function.__name__, one.name)
                self.assertIn(one.name, sirop.__all__)
                for text in (one.unit, one.source, one.uncertainty, f"{one.fitted_solids_percent:g} %"):
                    self.assertTrue(text)
                    self.assertIn(text, function.__doc__)
                if one.depends_on_temperature:
                    self.assertIn(f"{one.celsius.low:g} to {one.celsius.high:g} °C", function.__doc__)

    def test_functions_of_properties_give_the_property(self):
        for one in sirop.properties():
            if one.name in ("boiling_point_celsius", "freezing_point_celsius", "water_activity",
                            "sucrose_saturation_celsius"):
                continue  # C functions of their own, which test_parity compares; or none of so dilute a syrup
            with self.subTest(property=one.name):
                self.assertEqual(getattr(sirop, one.name)(DILUTE, *([20.0] if one.depends_on_temperature else [])),
                                 sirop.property_estimate(one.name, DILUTE, 20.0))

    def test_the_range_is_where_it_is_answered(self):
        for one in sirop.properties():
            if one.depends_on_temperature:
                for bad in (one.celsius.low - 0.001, one.celsius.high + 0.001):
                    with self.subTest(property=one.name, celsius=bad), self.assertRaises(sirop.RangeError):
                        sirop.property_estimate(one.name, DILUTE, bad)

    def test_ranges(self):
        allowed = sirop.accepted_range("pressure_hpa")
        self.assertEqual(allowed, sirop.Range(300.0, 1100.0))
        for value, inside in ((1013.25, True), (1100.1, False), (float("nan"), False)):
            self.assertEqual(value in allowed, inside)

    def test_components(self):
        masses = [1.0 + index for index in range(len(sirop.COMPONENTS))]
        self.assertEqual(sirop.water_activity(masses, 25),
                         sirop.water_activity(dict(zip(sirop.COMPONENTS, masses)), 25))
