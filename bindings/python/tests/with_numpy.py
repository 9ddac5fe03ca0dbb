"""Run where numpy is present: its arrays go in, and results are looked at without a copy."""

import unittest
import warnings

import numpy

import sirop

GRAMS = numpy.zeros((50, len(sirop.COMPONENTS)))
GRAMS[:, 0] = numpy.linspace(40.0, 90.0, 50)
GRAMS[:, 1] = 100.0 - GRAMS[:, 0]
CELSIUS = numpy.linspace(15.0, 35.0, 50)


class WithNumpy(unittest.TestCase):
    def setUp(self):
        self.expected = [sirop.water_activity(list(row), float(t)) for row, t in zip(GRAMS, CELSIUS)]

    def test_arrays_of_every_layout(self):
        forms = {"rows": GRAMS, "flat": GRAMS.ravel(), "fortran": numpy.asfortranarray(GRAMS),
                 "narrow": numpy.ascontiguousarray(GRAMS[:, :2]), "sliced": GRAMS[:, :2], "list of rows": list(GRAMS)}
        frozen = GRAMS.copy()
        frozen.flags.writeable = False
        forms["read-only"] = frozen
        for name, grams in forms.items():
            with self.subTest(form=name):
                self.assertEqual(list(sirop.water_activity_n(grams, CELSIUS)), self.expected)
        self.assertEqual(list(sirop.water_activity_n(GRAMS[::-1], CELSIUS[::-1])), self.expected[::-1])

    def test_other_kinds_of_numbers(self):
        whole = numpy.array([[30, 70], [40, 60]])
        expected = [sirop.water_activity([30, 70], 20), sirop.water_activity([40, 60], 20)]
        for kind in ("int64", "int32", "float32", "float64", "uint8"):
            with self.subTest(kind=kind):
                self.assertEqual(list(sirop.water_activity_n(whole.astype(kind), numpy.float32(20))), expected)
        for kind in ("complex128", "bool", ">f8", "U3", "object"):
            with self.subTest(kind=kind), self.assertRaises(TypeError):
                sirop.water_activity_n(whole.astype(kind), 20.0)

    def test_scalars(self):
        self.assertEqual(sirop.water_activity(GRAMS[0], CELSIUS[0]), self.expected[0])
        self.assertEqual(sirop.water_activity(GRAMS[0], numpy.array(CELSIUS[0])), self.expected[0])
        self.assertEqual(sirop.water_activity_n(GRAMS, numpy.float64(25.0))[0], sirop.water_activity(GRAMS[0], 25.0))

    def test_results_are_looked_at_without_a_copy(self):
        found = sirop.water_activity_n(GRAMS, CELSIUS)
        view = numpy.asarray(found.value)
        self.assertEqual((view.dtype, view.shape), (numpy.float64, (50,)))
        self.assertEqual(view.__array_interface__["data"][0], found.value.buffer_info()[0])
        self.assertEqual(numpy.asarray(found.status).dtype, numpy.int32)
        self.assertTrue((numpy.asarray(found.low) <= view).all())

    def test_a_batch_of_numpy_numbers(self):
        batch = {"sirop_batch": 1, "pan": [{"ingredient": "honey", "grams": numpy.int64(100)}],
                 "cook": {"to_celsius": numpy.float32(118)}}
        plain = {"sirop_batch": 1, "pan": [{"ingredient": "honey", "grams": 100}], "cook": {"to_celsius": 118}}
        self.assertEqual(sirop.predict_json(batch), sirop.predict_json(plain))

    def test_numbers_of_every_kind(self):
        hpa = numpy.linspace(950.0, 1030.0, 9)
        expected = [sirop.water_boils_celsius(float(one)) for one in hpa]
        frozen = hpa.copy()
        frozen.flags.writeable = False
        for form in (hpa, frozen, list(hpa), numpy.repeat(hpa, 2)[::2]):
            self.assertEqual(list(sirop.water_boils_celsius_n(form)), expected)
        for kind in ("int64", "int32", "float32", "uint16"):
            self.assertEqual(list(sirop.water_boils_celsius_n(numpy.array([950, 1000]).astype(kind))),
                             [sirop.water_boils_celsius(950), sirop.water_boils_celsius(1000)])
        for bad in (hpa.reshape(3, 3), hpa.astype("complex128"), hpa.astype("U9")):
            with self.assertRaises((TypeError, sirop.RangeError)):
                sirop.water_boils_celsius_n(bad)

    def test_twins_take_and_give_arrays(self):
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", sirop.ExtrapolationWarning)
            stages = sirop.stage_of_mixture_n(GRAMS)
            self.assertEqual([str(one) for one in stages], [str(sirop.stage_of_mixture(row)) for row in GRAMS])
            graining = sirop.graining_at_n(GRAMS, CELSIUS)
            self.assertEqual(list(graining), [sirop.graining_at(row, t) for row, t in zip(GRAMS, CELSIUS)])
        self.assertEqual(numpy.asarray(stages.lower).dtype, numpy.int32)
        self.assertEqual(numpy.asarray(graining.sucrose_supersaturation.value).shape, (50,))
        words = sirop.texture_word_of_n(numpy.logspace(-3, 12, 40))
        self.assertTrue((numpy.diff(numpy.asarray(words.value)) >= 0).all())
        syrups = numpy.asarray(sirop.glucose_syrup_grams_n(numpy.arange(28.0, 60.0), 80.0).grams)
        self.assertTrue(numpy.allclose(syrups.reshape(32, -1).sum(axis=1), 100.0, rtol=1e-12))

    def test_desserts_of_every_layout(self):
        desserts = GRAMS.reshape(25, 2, -1)
        expected = [sirop.layers_at_equilibrium(layers, 20.0) for layers in desserts]
        for name, (grams, lengths) in {
                "three dimensions": (desserts, {}), "narrow": (desserts[:, :, :2], {}),
                "rows": (GRAMS, {"layers": 2}), "numbers": (GRAMS.ravel(), {"layers": 2}),
                "list of arrays": (list(desserts), {}), "fortran": (numpy.asfortranarray(desserts), {})}.items():
            with self.subTest(form=name):
                self.assertEqual(list(sirop.layers_at_equilibrium_n(grams, 20.0, **lengths)), expected)
        self.assertEqual(len(sirop.layers_at_equilibrium_n(desserts[:0].astype("float32"), 20.0)), 0)
        for grams, lengths in ((desserts, {"layers": 3}), (GRAMS, {}), (GRAMS[:3], {"layers": 2}),
                               (desserts[None], {})):
            with self.assertRaises((TypeError, sirop.RangeError)):
                sirop.layers_at_equilibrium_n(grams, 20.0, **lengths)

    def test_questions_take_numpy_numbers(self):
        batch = sirop.Batch().add("honey", numpy.float32(100)).add("water", numpy.int64(50))
        plain = sirop.Batch().add("honey", 100).add("water", 50)
        replies = [sirop.Question("cook_for").set("batch", one).set("wanted.water_percent", number).reply()
                   for one, number in ((batch, numpy.float64(20)), (plain, 20))]
        self.assertEqual(*replies)

    def test_wrong_shapes(self):
        for grams in (GRAMS.reshape(5, 10, -1), numpy.ones((2, 40))):
            with self.assertRaises((TypeError, sirop.RangeError)):
                sirop.water_activity_n(grams, 20.0)
        with self.assertRaises(sirop.RangeError):
            sirop.water_activity_n(GRAMS, CELSIUS[:10])
