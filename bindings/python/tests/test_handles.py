"""Batches and questions by calls, and their answers."""

import copy
import gc
import json
import math
import pickle
import resource
import unittest

import sirop
from support import Quiet, cases, in_threads

SAUCE = {"sirop_batch": 1, "pan": [{"ingredient": "white sugar", "grams": 250},
                                   {"ingredient": "glucose syrup 42 DE", "grams": 100},
                                   {"ingredient": "heavy cream 36 %", "grams": 300}],
         "off_heat": [{"ingredient": "butter, unsalted", "grams": 40, "celsius": 12}],
         "cook": {"to_celsius": 107, "pressure_hpa": 970}, "serve": {"celsius": 18}}


def sauce():
    return (sirop.Batch().add("white sugar", 250).add("glucose syrup 42 DE", 100).add("heavy cream 36 %", 300)
            .add("butter, unsalted", 40, 12, "off_heat").set("thermometer_celsius", 107)
            .set("pressure_hpa", 970).set("serve_celsius", 18))


class Handles(Quiet):
    def test_a_batch_by_calls_is_the_batch_of_the_file(self):
        expected = sirop.predict(SAUCE)
        self.assertEqual(sauce().predict(), expected)
        self.assertEqual(sirop.Batch.read(SAUCE).predict(), expected)
        self.assertEqual(sirop.Batch.read(json.dumps(SAUCE)).predict("us 1918"), sirop.predict(SAUCE, "us 1918"))

    def test_a_mixture_of_its_own(self):
        grams = {name: 2.5 * mass for name, mass in sirop.ingredient_grams("white sugar").items()}
        by_mixture = (sirop.Batch().add_mixture("white sugar", grams).add("water", 100)
                      .set("thermometer_celsius", 110).predict())
        by_name = sirop.Batch().add("white sugar", 250).add("water", 100).set("thermometer_celsius", 110).predict()
        self.assertAlmostEqual(by_mixture.cooked.water_percent.value, by_name.cooked.water_percent.value, delta=1e-9)

    def test_an_answer_is_asked_by_keys(self):
        answer = sauce().answer()
        raw = json.loads(answer.text())
        self.assertEqual(raw, sirop.predict(SAUCE).raw)
        self.assertEqual(answer.number("cooked.water_percent_low"), raw["cooked"]["water_percent_low"])
        self.assertEqual(answer.text("set.word"), raw["set"]["word"])
        self.assertEqual(answer.text("cautions.0"), raw["cautions"][0])
        self.assertEqual(json.loads(answer.text("stage")), raw["stage"])
        self.assertEqual((answer.status, raw["status"]), (0, "fine"))
        self.assertEqual(answer.count("cautions"), len(raw["cautions"]))
        self.assertEqual((answer.count("cooked"), answer.count()), (len(raw["cooked"]), len(raw)))
        self.assertEqual(answer.report(), sirop.report(SAUCE))

    def test_a_batch_is_written_as_its_file(self):
        batch = sauce()
        self.assertEqual(json.loads(batch.text()), SAUCE)
        batch.add_mixture("bench syrup", [20, 30.5, 22, 27.5]).add("sponge cake", 180, where="neighbours")
        for field, value in (("thermometer_error_kelvin", -0.7), ("thermometer_within_kelvin", 0.5),
                             ("store_celsius", 6), ("pour_celsius", 32.5)):
            batch.set(field, value)
        self.assertEqual(batch.refusal(), "")
        for again in (sirop.Batch.read(batch.text()).predict(), sirop.predict(batch.text())):
            self.assertEqual(differences(again.raw, batch.predict().raw, 1e-12), [])

    def test_an_answer_outlives_its_batch(self):
        batch = sauce()
        answer = batch.answer()
        batch.close()
        self.assertEqual(answer.number("set.celsius"), 18)

    def test_a_refusal_leaves_the_batch_as_it_was(self):
        batch = sauce()
        with self.assertRaises(sirop.UnknownNameError) as caught:
            batch.add("moon dust", 1)
        self.assertEqual(batch.refusal(), str(caught.exception))
        self.assertEqual(batch.predict(), sirop.predict(SAUCE))
        self.assertEqual(batch.refusal(), "")

    def test_what_is_closed_is_not_used(self):
        with sauce() as batch, batch.answer() as answer, sirop.Question("scale") as question:
            question.set("batch", batch)
        batch.close()
        answer.close()
        question.close()
        for call in (lambda: batch.add("honey", 1), lambda: batch.set("pressure_hpa", 1000), batch.predict,
                     batch.answer, batch.refusal, batch.text, lambda: answer.number("set.celsius"), answer.text,
                     answer.count, answer.report, lambda: question.set("yield.grams", 1), question.ask, question.reply,
                     question.refusal, lambda: question.set("title", "x"),
                     lambda: sirop.Question("scale").set("batch", batch)):
            with self.assertRaises(sirop.NullPointerError) as caught:
                call()
            self.assertIn("closed", str(caught.exception))

    def test_a_handle_is_not_copied(self):
        for thing in (sauce(), sauce().answer(), sirop.Question("scale")):
            for copier in (copy.copy, copy.deepcopy, pickle.dumps):
                with self.assertRaises(TypeError):
                    copier(thing)

    def test_forgotten_handles_are_freed(self):
        def peak():
            return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss

        def forget(times):
            for _ in range(times):
                batch = sirop.Batch().add_mixture("x" * 150_000, [1.0])
                question = sirop.Question("scale").set("batch", batch)
                self.assertEqual(batch.refusal() + question.refusal(), "")
            gc.collect()

        forget(20)
        before = peak()
        forget(1000)  # 300 MB if they were kept
        self.assertLess(peak() - before, 50_000, "kB more")

    def test_threads_may_share_a_batch(self):
        batch = sauce()
        expected = batch.predict()

        def work():
            for number in range(15):
                if number % 3 == 0:
                    with self.assertRaisesRegex(sirop.UnknownNameError, "moon dust"):
                        batch.add("moon dust", 1)
                else:
                    self.assertEqual(batch.predict(), expected)

        in_threads(self, [work] * 6)

    def test_threads_may_share_a_question_and_its_batch(self):
        batch = sauce()
        question = sirop.Question("scale").set("batch", batch).set("yield.grams", 500)

        def work():
            for _ in range(15):
                batch.set("serve_celsius", 18)
                with question.set("batch", batch).set("yield.grams", 500).ask() as answer:
                    self.assertAlmostEqual(answer.number("answer.finished_grams"), 500, delta=1e-9)

        in_threads(self, [work] * 6)


def differences(a, b, tolerance, place=""):
    """Where two answers differ: numbers by more than the tolerance, relative or absolute."""
    if isinstance(a, dict) and isinstance(b, dict) and a.keys() == b.keys():
        return [one for key in a for one in differences(a[key], b[key], tolerance, f"{place}.{key}")]
    if isinstance(a, list) and isinstance(b, list) and len(a) == len(b):
        return [one for index, pair in enumerate(zip(a, b))
                for one in differences(*pair, tolerance, f"{place}.{index}")]
    if isinstance(a, float) and isinstance(b, float) and math.isclose(a, b, rel_tol=tolerance, abs_tol=tolerance):
        return []
    return [] if a == b and type(a) is type(b) else [f"{place}: {a!r} is not {b!r}"]


class Questions(Quiet):
    def test_a_question_by_calls_is_answered_as_its_text(self):
        keys = {"wanted": {"set_word": "ribbon"}, "with": ["water", "whole milk"],
                "now": {"thermometer_celsius": 117, "additions_in": True}}
        expected = sirop.ask({"sirop_question": 1, "ask": "rescue", "batch": SAUCE, **keys})
        with sirop.Question("rescue").set("batch", sauce()).set("wanted.set_word", "ribbon") as question:
            question.set("with.0", "water").set("with.1", "whole milk")
            question.set("now.thermometer_celsius", 117).set("now.additions_in", True)
            reply = question.reply()
            # A batch by calls keeps its pressure in other units, so but for its last bits.
            self.assertEqual(differences(reply.raw, expected.raw, 1e-12), [])
            with question.ask() as answer:
                self.assertEqual(json.loads(answer.text()), reply.raw)
                self.assertEqual(answer.text("answer.reason"), reply.answer["reason"])
                self.assertEqual(answer.status, int(reply.status == "extrapolated"))

    def test_a_key_may_be_set_again_and_the_question_asked_again(self):
        question = sirop.Question("cook_for").set("batch", sauce()).set("wanted.water_percent", 14)
        first = question.ask().number("answer.thermometer_celsius")
        second = question.set_number("wanted.water_percent", 16).ask().number("answer.thermometer_celsius")
        self.assertLess(second, first)
        self.assertEqual(question.refusal(), "")

    def test_a_question_keeps_a_copy_of_the_batch(self):
        with sauce() as batch:
            question = sirop.Question("cook_for").set("batch", batch).set("wanted.water_percent", 16)
            batch.add("water", 100).set("pressure_hpa", 800)
        expected = sirop.Question("cook_for").set("batch", sauce()).set("wanted.water_percent", 16)
        self.assertEqual(question.reply(), expected.reply())

    def test_a_refusal_leaves_the_question_as_it_was(self):
        question = sirop.Question("cook_for").set("wanted.water_percent", 16).set("batch", sauce())
        expected = question.reply()
        for call in (lambda: question.set("wanted.water_percent.x", 1), lambda: question.set("with.3", "water"),
                     lambda: question.set("wanted.within", math.inf)):
            with self.assertRaises(sirop.SiropError) as caught:
                call()
            self.assertEqual(question.refusal(), str(caught.exception))
        self.assertEqual(question.reply(), expected)
        self.assertEqual(question.refusal(), "")

    def test_set_chooses_by_the_type_of_the_value(self):
        def keys(way):
            question = sirop.Question("rescue").set_batch("batch", sauce()).set_text("wanted.set_word", "ribbon")
            return way(question).reply()
        by_type = keys(lambda one: one.set("now.thermometer_celsius", 117).set("now.additions_in", False))
        by_name = keys(lambda one: one.set_number("now.thermometer_celsius", 117).set_truth("now.additions_in", False))
        self.assertEqual(by_type, by_name)
        self.assertNotEqual(by_type, keys(lambda one: one.set("now.thermometer_celsius", 117)
                                          .set("now.additions_in", True)))

    def test_replies_are_typed(self):
        questions = [case["in"]["question"] for case in cases()
                     if case["call"] == "sirop_ask_json" and case["status"] >= 0]
        self.assertGreater(len(questions), 4)
        predictions = 0
        for question in questions:
            reply = sirop.ask(question)
            self.assertEqual(reply.raw, json.loads(sirop.ask_json(json.loads(question))))
            self.assertEqual((reply.ask, reply.answer, list(reply.cautions)),
                             (reply.raw["ask"], reply.raw["answer"], reply.raw["cautions"]))
            self.assertTrue(any("burn" in caution for caution in reply.cautions))
            self.assertIn(reply.title, sirop.ask_report(question))
            if reply.prediction is not None:
                predictions += 1
                self.assertEqual(reply.prediction.raw, reply.raw["prediction"])
                self.assertEqual(reply.prediction.set.word, reply.raw["prediction"]["set"]["word"])
            else:
                self.assertNotIn("prediction", reply.raw)
        self.assertGreater(predictions, 2)

    def test_the_temperature_for_a_water_content_gives_that_water(self):
        reply = sirop.ask({"sirop_question": 1, "ask": "cook_for", "batch": SAUCE, "wanted": {"water_percent": 16}})
        there = sirop.Batch.read(SAUCE).set("thermometer_celsius", reply.answer["thermometer_celsius"])
        self.assertAlmostEqual(there.predict().finished.water_percent.value, 16, delta=1e-6)


class Lists(Quiet):
    def test_each_list_is_what_the_functions_of_one_give(self):
        for found, name, made in (
                (sirop.ingredients(), sirop.ingredient_name, lambda name: sirop.Ingredient(
                    name, sirop.ingredient_source(name), sirop.ingredient_estimate(name), sirop.ingredient_grams(name))),
                (sirop.properties(), sirop.property_name, lambda name: sirop.Property(
                    name, sirop.property_unit(name), sirop.property_source(name), sirop.property_uncertainty(name),
                    *sirop.property_range(name))),
                (sirop.stages("us 1918"), lambda index: sirop.stage_name(index, "us 1918"), lambda name:
                    sirop.TableStage(name, sirop.stage_range_celsius(name, "us 1918"))),
                (sirop.conversions(), sirop.conversion_name, str), (sirop.stage_tables(), sirop.stage_table_name, str),
                (sirop.argument_names(), sirop.argument_name, str), (sirop.question_names(), sirop.question_name, str),
                (sirop.COMPONENTS, sirop.component_name, str), (sirop.texture_words(), sirop.texture_word, None),
                (sirop.growth_limits(), sirop.growth_group, None)):
            names = [name(index) for index in range(len(found) + 1)]
            self.assertGreater(len(found), 5)
            self.assertIsNone(names.pop())
            if made is not None:
                self.assertEqual(list(found), list(map(made, names)))
        for index, one in enumerate(sirop.texture_words()):
            self.assertEqual(one, sirop.TextureWord(sirop.texture_word(index), sirop.texture_word_meaning(index),
                                                    sirop.texture_word_firmness_pa_s(index)))
            self.assertEqual(sirop.texture_word_of(one.firmness_pa_s.low), index)
        self.assertEqual(sirop.predict(SAUCE).keeping.limits, sirop.growth_limits())
        self.assertEqual(sirop.growth_limits_source(), sirop.predict(SAUCE).keeping.limits_source)

    def test_a_place_has_its_name(self):
        between = sirop.stage_of_temperature(sirop.stage_range_celsius("soft ball").high + 0.1)
        self.assertEqual((between.upper, between.status), (between.lower + 1, 0))
        self.assertEqual(str(between), f"between soft ball and {sirop.stage_name(between.upper)}")
        self.assertEqual(str(sirop.stage_of_mixture({"sucrose": 50, "water": 50})), sirop.stage_place_text(-1, 0))
