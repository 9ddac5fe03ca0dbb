#!/usr/bin/env python3
"""Runs test modules and prints one line for each test: "python NAME: passed" or "python NAME: FAILED".

    run.py [MODULE ...]      without names, every test_*.py of this folder

The exit status is 0 if all passed, and 3 if a line says FAILED."""

import pathlib
import sys
import unittest

FOLDER = pathlib.Path(__file__).resolve().parent


class Lines(unittest.TestResult):
    """A test that did not pass has failed, also one that was skipped."""

    def __init__(self):
        super().__init__()
        self.passed = self.failed = 0

    def stopTest(self, test):
        super().stopTest(test)
        name = ".".join(test.id().split(".")[-3:])
        reasons = [text for kind in (self.failures, self.errors) for other, text in kind
                   if other is test or getattr(other, "test_case", None) is test]
        reasons += [f"skipped: {why}" for other, why in self.skipped if other is test]
        reasons += ["succeeded unexpectedly" for other in self.unexpectedSuccesses if other is test]
        if reasons:
            self.failed += 1
            print(f"python {name}: FAILED")
            for reason in reasons[:3]:
                print("    " + reason[-3000:].strip().replace("\n", "\n    "))
        else:
            self.passed += 1
            print(f"python {name}: passed")


def main(names):
    sys.path.insert(0, str(FOLDER))
    names = names or sorted(path.stem for path in FOLDER.glob("test_*.py"))
    suite = unittest.defaultTestLoader.loadTestsFromNames(names)
    result = Lines()
    suite.run(result)
    # What failed outside of a test, such as a module that could not set itself up.
    outside = [text for kind in (result.failures, result.errors) for other, text in kind
               if isinstance(other, unittest.suite._ErrorHolder)]
    if result.passed + result.failed == 0:
        outside.append("no test ran")
    for text in outside:
        print("python set-up: FAILED\n    " + text.strip().replace("\n", "\n    "))
    return 3 if result.failed or outside else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
