"""Batches by calls and their answers; questions."""

import copy
import gc
import json
import pickle
import resource
import threading
import unittest
import warnings

import sirop
from support import cases

SAUCE = {"sirop_batch": 1, "pan": [{"ingredient": "white sugar", "grams": 250},
                                   {"ingredient": "glucose syrup 42 DE", "grams": 100},
                                   {"ingredient": "heavy cream 36 %", "grams": 300}],
         "off_heat": [{"ingredient": "butter, unsalted", "grams": 40, "celsius": 12}],
         "cook": {"to_celsius": 107, "pressure_hpa": 970}, "serve": {"celsius": 18}}


def sauce():
    return (sirop.Batch().add("white sugar", 250).add("glucose syrup 42 DE", 100).add("heavy cream 36 %", 300)
            .add("butter, unsalted", 40, 12, "off_heat").set("thermometer_celsius", 107)
            .set("pressure_hpa", 970).set("serve_celsius", 18))


class Quiet(unittest.TestCase):
    def setUp(self):
        catcher = warnings.catch_warnings()
        catcher.__enter__()
        self.addCleanup(catcher.__exit__, None, None, None)
        warnings.simplefilter("ignore", sirop.ExtrapolationWarning)


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
        self.assertEqual(answer.status, 1)

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
        with sauce() as batch:
            answer = batch.answer()
        batch.close()
        answer.close()
        for call in (lambda: batch.add("honey", 1), lambda: batch.set("pressure_hpa", 1000), batch.predict,
                     batch.answer, batch.refusal, lambda: answer.number("set.celsius"), answer.text):
            with self.assertRaises(sirop.NullPointerError) as caught:
                call()
            self.assertIn("closed", str(caught.exception))

    def test_a_handle_is_not_copied(self):
        for thing in (sauce(), sauce().answer()):
            for copier in (copy.copy, copy.deepcopy, pickle.dumps):
                with self.assertRaises(TypeError):
                    copier(thing)

    def test_forgotten_handles_are_freed(self):
        def peak():
            return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss

        def forget(times):
            for _ in range(times):
                batch = sirop.Batch().add_mixture("x" * 300_000, [1.0])
                self.assertEqual(batch.refusal(), "")
            gc.collect()

        forget(20)
        before = peak()
        forget(1000)  # 300 MB if they were kept
        self.assertLess(peak() - before, 50_000, "kB more")

    def test_threads_may_share_a_batch(self):
        batch, failures = sauce(), []
        expected = batch.predict()

        def work():
            for number in range(15):
                try:
                    if number % 3 == 0:
                        batch.add("moon dust", 1)
                    elif batch.predict() != expected:
                        failures.append("another answer")
                except sirop.UnknownNameError as why:
                    if "moon dust" not in str(why):
                        failures.append(why)
                except Exception as why:
                    failures.append(why)

        threads = [threading.Thread(target=work) for _ in range(6)]
        for one in threads:
            one.start()
        for one in threads:
            one.join()
        self.assertEqual(failures, [])


class Questions(Quiet):
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
    def test_the_pantry(self):
        pantry = sirop.ingredients()
        self.assertGreater(len(pantry), 50)
        for one in pantry:
            self.assertTrue(one.source)
            self.assertAlmostEqual(sum(one.per_100_g.values()), 100, delta=1e-9, msg=one.name)
            self.assertTrue(set(one.per_100_g) <= set(sirop.COMPONENTS))
        self.assertIn("honey", {one.name for one in pantry})
        self.assertAlmostEqual(sum(sirop.glucose_syrup_grams(42, 78).values()), 100, delta=1e-9)
        self.assertAlmostEqual(sirop.glucose_syrup_grams(42, 78)["water"], 22, delta=1e-9)

    def test_stage_tables(self):
        self.assertEqual(sirop.stage_tables()[0], "us 2004")
        for table in sirop.stage_tables():
            rows = sirop.stages(table)
            self.assertGreater(len(rows), 2)
            for row in rows:
                self.assertLessEqual(row.celsius.low, row.celsius.high)
        soft_ball = sirop.stage_range_celsius("soft ball")
        self.assertEqual(sirop.stage_of_temperature((soft_ball.low + soft_ball.high) / 2), "soft ball")
        plain = sirop.celsius_for_stage("soft ball", {"sucrose": 80, "water": 20})
        self.assertAlmostEqual(plain.low, soft_ball.low, delta=1e-6)

    def test_words_of_the_set(self):
        words = sirop.set_words()
        self.assertEqual(words[0].firmness_pa_s.low, 0)
        for index, (one, following) in enumerate(zip(words, words[1:])):
            self.assertEqual(one.firmness_pa_s.high, following.firmness_pa_s.low)
            self.assertEqual(sirop.set_word_of(following.firmness_pa_s.low), index + 1)
        self.assertEqual(words[-1].firmness_pa_s.high, float("inf"))

    def test_conversions(self):
        self.assertGreater(len(sirop.conversions()), 5)
        self.assertEqual(len(set(sirop.conversions())), len(sirop.conversions()))
        self.assertAlmostEqual(sirop.convert("brix_to_density_kg_m3", 60), 1286.6, delta=0.3)  # ICUMSA SPS-4

    def test_growth_limits(self):
        limits = sirop.growth_limits()
        self.assertGreater(len(limits), 3)
        self.assertEqual(sorted(limits, key=lambda one: -one.water_activity), list(limits))
        raw = sirop.predict(SAUCE).raw["keeping"]["limits"]
        self.assertEqual([(one.water_activity, one.group) for one in limits],
                         [(one["water_activity"], one["group"]) for one in raw])

    def test_layers_keep_their_water(self):
        layers = sirop.layers_at_equilibrium([{"water": 30, "sucrose": 70}, {"water": 50, "sucrose": 50}], 20)
        self.assertAlmostEqual(sum(one.value for one in layers.water_gained_grams), 0, delta=1e-6)
        self.assertGreater(layers.water_gained_grams[0].value, 0)

    def test_graining_follows_the_supersaturation(self):
        none, much = ({"sucrose": sucrose, "water": 100 - sucrose} for sucrose in (40, 85))
        self.assertEqual(sirop.graining_at(none, 20).risk, 0)
        self.assertEqual(sirop.graining_at(much, 20).risk, 3)
        self.assertGreater(sirop.graining_at(much, 20).sucrose_supersaturation.value, 1)


if __name__ == "__main__":
    unittest.main()
