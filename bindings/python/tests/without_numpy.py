"""Run where numpy is absent: the package neither has it nor asks for it."""

import importlib.util
import sys
import unittest

import sirop


class WithoutNumpy(unittest.TestCase):
    def test_numpy_is_absent_and_not_missed(self):
        self.assertIsNone(importlib.util.find_spec("numpy"))
        self.assertNotIn("numpy", sys.modules)
        self.assertEqual(len(sirop.water_activity_n([[30.0, 70.0]], 25.0)), 1)
