"""Arrays, without numpy: the buffer protocol and plain sequences."""

import ctypes
import math
import unittest
import warnings
from array import array

import sirop
from support import SYRUP, Quiet

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
            found = sirop.boiling_point_celsius_n([{"sucrose": 98.5, "water": 1.5}, {"fat": 1}, {"water": -1}, {"water": 1}], 1013.25)
        self.assertEqual([status < 0 for status in found.status], [False, True, True, False])
        self.assertEqual(list(found.status[1:3]), [sirop.ImpossibleError.code, sirop.RangeError.code])
        self.assertTrue(all(map(math.isnan, (found.value[1], found.low[1], found.high[2]))))
        self.assertAlmostEqual(found.value[3], 100.0, delta=0.03)
        with self.assertRaises(sirop.ImpossibleError):
            found.raise_for_errors()


# Each twin, the other names of its scalar's arguments, and for each argument good values.
MIXTURES = [[30.0, 70.0], {"water": 20, "sucrose": 50, "glucose": 30}, [40.0, 60.0, 0.0, 5.0]]
HPA = [1013.25, 800.0, 950.0]
TWINS = {
    "pressure_at_altitude_hpa_n": {"altitude_metres": [0, 350.0, -20]},
    "pressure_from_boiling_water_hpa_n": {"water_boils_celsius": [99.5, 95.0, 100]},
    "water_boils_celsius_n": {"pressure_hpa": HPA},
    "boiling_point_celsius_n": {"grams": MIXTURES, "pressure_hpa": HPA},
    "water_at_boil_grams_n": {"grams": MIXTURES, "celsius": [115.0, 120, 125.0], "pressure_hpa": HPA},
    "water_activity_n": {"grams": MIXTURES, "celsius": [20.0, 60.0, -5.0]},
    "freezing_point_celsius_n": {"grams": [[90.0, 10.0], [80.0, 15.0, 5.0], [70.0, 30.0]]},
    "property_estimate_n": {"property": "viscosity_pa_s", "grams": MIXTURES, "celsius": [20.0, 60.0, 90.0],
                            "pressure_hpa": HPA},
    "convert_n": {"conversion": "brix_to_density_kg_m3", ("value", "values"): [0.0, 33.3, 60]},
    "glucose_syrup_grams_n": {"dextrose_equivalent": [28, 42.5, 60.0], "solids_percent": [70, 80, 81.5]},
    "stage_of_temperature_n": {"table": "us 1918", "celsius": [90, 113.0, 119.5], "pressure_hpa": HPA},
    "stage_of_mixture_n": {"table": None, "grams": [[12.0, 88.0], [60.0, 40.0], [17.0, 80.0, 3.0]]},
    "celsius_for_stage_n": {"table": "us 2004", "stage": "soft ball", "grams": MIXTURES, "pressure_hpa": HPA},
    "texture_word_of_n": {"firmness_pa_s": [0.001, 30, 1e12]},
    "graining_at_n": {"grams": MIXTURES, "celsius": [20.0, 4, -10.0]},
    "layers_at_equilibrium_n": {
        "grams": [[[30.0, 70.0], [50.0, 50.0]], [[25.0, 75.0], {"water": 40, "glucose": 60}], [SYRUP, [1.0, 1.0]]],
        "celsius": [20.0, 5.0, 30]},
}


class Twins(Quiet):
    """A function for n elements beside that for one."""

    def each(self, test):
        """Calls test(twin, scalar, same, others) for each twin: the arguments that are the same for all elements, and
        of each other argument (its name in the scalar, its name in the twin, values)."""
        for name, arguments in TWINS.items():
            same = {argument: value for argument, value in arguments.items() if not isinstance(value, list)}
            others = [(*(argument if isinstance(argument, tuple) else (argument, argument)), values)
                      for argument, values in arguments.items() if isinstance(values, list)]
            with self.subTest(function=name):
                test(getattr(sirop, name), getattr(sirop, name[:-len("_n")]), same, others)

    def test_none_is_left_out(self):
        self.assertEqual(set(TWINS), {name for name in sirop.__all__ if name.endswith("_n")})

    def test_they_give_what_the_scalars_give(self):
        def test(twin, scalar, same, others):
            found = twin(**same, **{argument: good for _, argument, good in others})
            rows = zip(*(good for *_, good in others))
            expected = [scalar(**same, **dict(zip([argument for argument, *_ in others], row))) for row in rows]
            self.assertEqual(len(found), 3)
            self.assertEqual(list(found), expected)
            self.assertEqual([found[index] for index in (0, 1, -1)], expected)
            self.assertTrue(all(status >= 0 for status in found.status))
            self.assertIs(found.raise_for_errors(), found)
            with self.assertRaises(IndexError):
                found[3]

        self.each(test)

    def test_one_number_stands_for_all(self):
        def test(twin, scalar, same, others):
            for _, alone, good in others:
                rest = {argument: values for _, argument, values in others if argument != alone}
                if isinstance(good[0], (int, float)):
                    found = twin(**same, **rest, **{alone: good[0]})
                    self.assertEqual(len(found), 3 if rest else 1)
                    self.assertEqual(list(found), list(twin(**same, **rest, **{alone: good[:1] * len(found)})))

        self.each(test)

    def test_nothing_gives_nothing(self):
        def test(twin, scalar, same, others):
            for empty in ([], (), array("d")):
                found = twin(**same, **{argument: empty for _, argument, *_ in others})
                self.assertEqual((len(found), list(found), len(found.status)), (0, [], 0))
                self.assertIs(found.raise_for_errors(), found)

        self.each(test)

    def test_none_is_no_array(self):
        def test(twin, scalar, same, others):
            for _, missing, *_ in others:
                with self.assertRaises(TypeError) as caught:
                    twin(**same, **{argument: None if argument == missing else values
                                    for _, argument, values in others})
                self.assertIn(f"{missing}: None", str(caught.exception))

        self.each(test)

    def test_an_extrapolation_warns_once(self):
        for call in (lambda: sirop.stage_of_mixture_n([[1.5, 98.5]] * 3), lambda: sirop.graining_at_n([SYRUP] * 3, -5),
                     lambda: sirop.celsius_for_stage_n("hard crack", [SYRUP] * 3),
                     lambda: sirop.layers_at_equilibrium_n([[[2.0, 98.0], [3.0, 97.0]]] * 3, 20)):
            with warnings.catch_warnings(record=True) as caught:
                warnings.simplefilter("always")
                found = call()
            self.assertEqual(list(found.status), [1, 1, 1])
            self.assertEqual([(one.category, one.filename) for one in caught], [(sirop.ExtrapolationWarning, __file__)])
            self.assertIn("(3 of 3)", str(caught[0].message))


class Results(unittest.TestCase):
    def test_their_arrays(self):
        boils = sirop.water_boils_celsius_n([1013.25, 12.0])
        self.assertEqual([(one.typecode, len(one)) for one in (boils.value, boils.status)], [("d", 2), ("i", 2)])
        words = sirop.texture_word_of_n([0.0, 50.0])
        self.assertEqual((words.value.typecode, words.value.itemsize, words.status.typecode), ("i", 4, "i"))
        stage = sirop.celsius_for_stage_n("thread", [[20.0, 80.0]] * 2)
        self.assertEqual([(one.typecode, len(one)) for one in (stage.low, stage.high)], [("d", 2)] * 2)
        self.assertIn(stage.low[0], stage[0])

    def test_places_have_the_names_of_their_table(self):
        celsius = [80.0, 112.0, 112.9, 250.0]
        for table in sirop.stage_tables():
            places = sirop.stage_of_temperature_n(celsius, table=table)
            self.assertEqual(places.table, table)
            count = len(sirop.stages(table))
            self.assertEqual((places.lower[0], places.upper[0]), (-1, 0))
            self.assertEqual((places.lower[3], places.upper[3]), (count - 1, count))
            self.assertEqual(str(places[0]), f"below {sirop.stage_name(0, table)}")
            self.assertEqual(f"{places[3]}", f"above {sirop.stage_name(count - 1, table)}")
            for place in places:
                self.assertEqual(place.name, sirop.stage_place_text(place.lower, place.upper, table))

    def test_compositions_are_mixtures(self):
        syrups = sirop.glucose_syrup_grams_n([28.0, 42.0, 60.0], [80.0, 78.0, 81.0])
        self.assertEqual((syrups.grams.typecode, len(syrups.grams)), ("d", 3 * COUNT))
        self.assertEqual(list(sirop.water_activity_n(syrups.grams, 25.0)),
                         [sirop.water_activity(sirop.glucose_syrup_grams(*row), 25.0)
                          for row in ((28, 80), (42, 78), (60, 81))])

    def test_graining_has_a_column_for_each_number(self):
        found = sirop.graining_at_n([[60.0, 40.0], [15.0, 85.0]], 20.0)
        self.assertEqual(list(found.risk), [0, 3])
        self.assertEqual(found.sucrose_supersaturation[1], found[1].sucrose_supersaturation)
        self.assertGreater(found.sucrose_supersaturation.value[1], 1.0)
        self.assertIsInstance(found.crystallizable_percent, sirop.Estimates)

    def test_desserts_in_every_form(self):
        layers = [[30.0, 70.0], [50.0, 50.0], [25.0, 75.0], [40.0, 60.0]]
        flat = array("d", sum(layers, []))
        expected = [sirop.layers_at_equilibrium(layers[:2], 20.0), sirop.layers_at_equilibrium(layers[2:], 20.0)]
        forms = {
            "nested": ([layers[:2], layers[2:]], {}),
            "nested, both lengths told": ([layers[:2], layers[2:]], {"layers": 2, "components": 2}),
            "tuples": (tuple((tuple(a), tuple(b)) for a, b in (layers[:2], layers[2:])), {}),
            "by name": ([[dict(zip(sirop.COMPONENTS, one)) for one in pair] for pair in (layers[:2], layers[2:])], {}),
            "array": (memoryview(flat).cast("B").cast("d", (2, 2, 2)), {}),
            "array of whole numbers": (memoryview(array("i", map(int, flat))).cast("B").cast("i", (2, 2, 2)), {}),
            "array of layers": (memoryview(flat).cast("B").cast("d", (4, 2)), {"layers": 2}),
            "arrays of layers": ([memoryview(flat[i:i + 4]).cast("B").cast("d", (2, 2)) for i in (0, 4)], {}),
            "list of layers": (layers, {"layers": 2}),
            "numbers": (flat, {"layers": 2, "components": 2}),
            "list of numbers": (list(flat), {"layers": 2, "components": 2}),
        }
        for name, (grams, lengths) in forms.items():
            with self.subTest(form=name):
                found = sirop.layers_at_equilibrium_n(grams, 20.0, **lengths)
                self.assertEqual(list(found), expected)
        self.assertEqual(len(found.water_gained_grams), 2)
        self.assertEqual(list(found.water_gained_grams[1]), [one.water_gained_grams[1] for one in expected])
