"""Arrays, without numpy: the buffer protocol and plain sequences."""

import ctypes
import math
import unittest
import warnings
from array import array

import sirop
from support import SYRUP

COUNT = len(sirop.COMPONENTS)
PLAIN = [[30.0, 70.0], [20.0, 50.0, 30.0], [40.0, 60.0, 0.0, 5.0]]
FLAT = array("d", [mass for row in PLAIN for mass in row + [0.0] * (COUNT - len(row))])


class Arrays(unittest.TestCase):
    def setUp(self):
        self.expected = [sirop.water_activity(row, 25.0) for row in PLAIN]

    def same(self, estimates):
        self.assertEqual(list(estimates), self.expected)

    def test_every_form_of_mixtures_gives_the_same(self):
        by_name = [dict(zip(sirop.COMPONENTS, row)) for row in PLAIN]
        narrow = array("d", [mass for row in PLAIN for mass in row + [0.0] * (4 - len(row))])
        rows = memoryview(FLAT).cast("B").cast("d", (3, COUNT))
        spread = array("d", [mass for pair in zip(FLAT, [math.nan] * len(FLAT)) for mass in pair])
        forms = {
            "array": FLAT, "list of numbers": list(FLAT), "memoryview": memoryview(FLAT), "rows": rows,
            "read-only": memoryview(FLAT.tobytes()).cast("d"), "ctypes": (ctypes.c_double * len(FLAT))(*FLAT),
            "strided": memoryview(spread)[::2], "float32": array("f", FLAT),
            "whole numbers": array("l", map(int, FLAT)),
            "sequences": PLAIN, "mappings": by_name, "mixed": [by_name[0], PLAIN[1], array("d", PLAIN[2])],
            "tuple of tuples": tuple(map(tuple, PLAIN)),
        }
        for name, grams in forms.items():
            with self.subTest(form=name):
                self.same(sirop.water_activity_n(grams, 25.0))
        self.same(sirop.water_activity_n(narrow, 25.0, components=4))

    def test_every_form_of_numbers_gives_the_same(self):
        doubles = array("d", [25.0] * 3)
        for celsius in (25, 25.0, [25.0] * 3, (25, 25, 25), doubles, memoryview(doubles), array("f", [25.0] * 3),
                        array("i", [25] * 3)):
            with self.subTest(celsius=celsius):
                self.same(sirop.water_activity_n(PLAIN, celsius))

    def test_a_contiguous_array_is_not_copied(self):
        from sirop._arrays import Doubles
        self.assertEqual(ctypes.addressof(Doubles("grams", FLAT).memory), FLAT.buffer_info()[0])
        self.assertEqual(ctypes.addressof(Doubles("grams", memoryview(FLAT)[COUNT:]).memory),
                         FLAT.buffer_info()[0] + 8 * COUNT)

    def test_arrays_are_left_as_they_were(self):
        before = array("d", FLAT)
        sirop.water_activity_n(FLAT, 25.0)
        self.assertEqual(FLAT, before)

    def test_results_are_arrays(self):
        found = sirop.water_activity_n(PLAIN, 25.0)
        for one in (found.value, found.low, found.high):
            self.assertIs(type(one), array)
            self.assertEqual((one.typecode, len(one), memoryview(one).contiguous), ("d", 3, True))
        self.assertEqual((found.status.typecode, len(found)), ("i", 3))
        self.assertEqual(found[-1], self.expected[-1])
        with self.assertRaises(IndexError):
            found[3]
        self.assertIs(found.raise_for_errors(), found)

    def test_nothing_gives_nothing(self):
        for grams in ([], array("d"), memoryview(b"")):
            found = sirop.water_activity_n(grams, 25.0) if not isinstance(grams, memoryview) else (
                sirop.water_activity_n(grams.cast("d"), []))
            self.assertEqual((len(found), list(found)), (0, []))

    def test_one_bad_element_does_not_stop_the_others(self):
        with self.assertWarns(sirop.ExtrapolationWarning):
            found = sirop.boiling_point_celsius_n([SYRUP, {"fat": 1}, {"water": -1}, {"water": 1}], 1013.25)
        self.assertEqual([status < 0 for status in found.status], [False, True, True, False])
        self.assertEqual(list(found.status[1:3]), [sirop.ImpossibleError.code, sirop.RangeError.code])
        self.assertTrue(all(map(math.isnan, (found.value[1], found.low[1], found.high[2]))))
        self.assertAlmostEqual(found.value[3], 100.0, delta=0.03)
        with self.assertRaises(sirop.ImpossibleError):
            found.raise_for_errors()

    def test_twins_agree_with_the_scalars(self):
        rows = PLAIN[:2]
        celsius, hpa = [115.0, 120.0], [1013.25, 800.0]
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", sirop.ExtrapolationWarning)
            for twins, scalars in (
                    (sirop.boiling_point_celsius_n(rows, hpa),
                     map(sirop.boiling_point_celsius, rows, hpa)),
                    (sirop.water_at_boil_grams_n(rows, celsius, hpa),
                     map(sirop.water_at_boil_grams, rows, celsius, hpa)),
                    (sirop.property_estimate_n("viscosity_pa_s", rows, celsius, hpa),
                     map(sirop.viscosity_pa_s, rows, celsius, hpa))):
                self.assertEqual(list(twins), list(scalars))
        self.assertEqual(list(sirop.freezing_point_celsius_n([[90.0, 10.0]])),
                         [sirop.freezing_point_celsius([90.0, 10.0])])


if __name__ == "__main__":
    unittest.main()
