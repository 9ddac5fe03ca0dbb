"""Every snippet of docs/python.md runs and prints what the page says; the example prints the README's line."""

import builtins
import contextlib
import io
import re
import unittest
import warnings

import sirop
from support import TREE

PAGE = (TREE / "docs" / "python.md").read_text(encoding="utf-8")
README = (TREE / "README.md").read_text(encoding="utf-8")


def blocks():
    """(code, what it prints) of each snippet; "" if the page shows no output."""
    found = re.findall(r"^```(\w+)\n(.*?)^```$", PAGE, flags=re.M | re.S)
    for (kind, text), (next_kind, next_text) in zip(found, [*found[1:], ("", "")]):
        if kind == "python":
            yield text, next_text if next_kind == "text" else ""


class Docs(unittest.TestCase):
    def test_every_snippet_prints_what_the_page_says(self):
        self.assertGreater(len(list(blocks())), 4)
        self.assertEqual(len(list(blocks())), PAGE.count("```python"))
        names = {"__builtins__": builtins}
        for code, expected in blocks():
            with self.subTest(code=code):
                printed = io.StringIO()
                with warnings.catch_warnings(), contextlib.redirect_stdout(printed):
                    warnings.simplefilter("ignore", sirop.ExtrapolationWarning)
                    exec(compile(code, "docs/python.md", "exec"), names)
                self.assertEqual(printed.getvalue(), expected)

    def test_the_example_prints_the_readme_s_line(self):
        line = next(blocks())[1].strip()
        self.assertIn("% water", line)
        self.assertIn(f"`{line}`", README)

    def test_the_table_of_errors_is_complete(self):
        rows = dict(re.findall(r"^\| `(\w+)` \| `\w+` \| −(\d)", PAGE, flags=re.M))
        classes = [kind for kind in vars(sirop).values() if isinstance(kind, type)
                   and issubclass(kind, sirop.SiropError) and kind is not sirop.SiropError]
        self.assertEqual(rows, {kind.__name__: str(-kind.code) for kind in classes})
        for name, base in re.findall(r"^\| `(\w+)` \| `(\w+)` \|", PAGE, flags=re.M):
            self.assertTrue(issubclass(getattr(sirop, name), getattr(builtins, base)))

    def test_the_page_warns_of_hot_sugar(self):
        self.assertIn("burns", PAGE)
        self.assertIn("steam", PAGE)
