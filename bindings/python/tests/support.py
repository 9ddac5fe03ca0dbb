"""What the tests share: where the source tree is, and the header's functions."""

import json
import os
import pathlib
import threading
import unittest
import warnings

import sirop

FOLDER = pathlib.Path(__file__).resolve().parent.parent
TREE = FOLDER.parent.parent
HEADER = TREE / "include" / "sirop" / "sirop.h"


def cases():
    """The shared cases, from the file that SIROP_PARITY_CASES names."""
    with open(os.environ["SIROP_PARITY_CASES"], encoding="utf-8") as lines:
        return [json.loads(line) for line in lines]


def in_threads(test, works):
    """Does each work in a thread of its own, all at once; the test fails if one fails, or does not end."""
    failures = []

    def guarded(work):
        try:
            work()
        except Exception as why:
            failures.append(why)

    threads = [threading.Thread(target=guarded, args=(work,), daemon=True) for work in works]
    for one in threads:
        one.start()
    for one in threads:
        one.join(60)
    test.assertEqual((failures, [one.is_alive() for one in threads]), ([], [False] * len(threads)))


SYRUP = {"sucrose": 60, "glucose": 20, "water": 20}


class Quiet(unittest.TestCase):
    """Tests that extrapolate, which is not warned of."""

    def setUp(self):
        catcher = warnings.catch_warnings()
        catcher.__enter__()
        self.addCleanup(catcher.__exit__, None, None, None)
        warnings.simplefilter("ignore", sirop.ExtrapolationWarning)
