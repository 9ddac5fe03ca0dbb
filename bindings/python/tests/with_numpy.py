"""Run where numpy is present: its arrays go in, and results are looked at without a copy."""

import unittest

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

    def test_wrong_shapes(self):
        for grams in (GRAMS.reshape(5, 10, -1), numpy.ones((2, 40))):
            with self.assertRaises((TypeError, sirop.RangeError)):
                sirop.water_activity_n(grams, 20.0)
        with self.assertRaises(sirop.RangeError):
            sirop.water_activity_n(GRAMS, CELSIUS[:10])


if __name__ == "__main__":
    unittest.main()
