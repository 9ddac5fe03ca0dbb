"""What is generated is up to date, and the archives hold what they should."""

import ast
import inspect
import os
import pathlib
import re
import sys
import tarfile
import tempfile
import typing
import unittest
import zipfile
from unittest import mock

import sirop
from sirop import _properties
from sirop._library import FILE_NAME, c_type, library
from sirop._table import FUNCTIONS
from support import FOLDER, HEADER

sys.path.insert(0, str(FOLDER / "backend"))
import sirop_build  # noqa: E402

LIBRARY = pathlib.Path(library._name)


class Generated(unittest.TestCase):
    def test_the_header_s_functions_are_all_seen(self):
        text = re.sub(r"/\*.*?\*/", "", HEADER.read_text(encoding="utf-8"), flags=re.S)
        self.assertEqual(len(FUNCTIONS), len(re.findall(r"^SIROP_API\b", text, flags=re.M)))
        self.assertEqual([f"sirop_{name}" for name in FUNCTIONS], re.findall(r"\b(sirop_\w+)\(", text))
        for name, (result, parameters, *_) in FUNCTIONS.items():
            function = getattr(library, f"sirop_{name}")
            self.assertEqual((function.restype, function.argtypes), (c_type(result), list(map(c_type, parameters))))
        with self.assertRaises(ImportError):
            c_type("float")

    def test_the_typings_are_those_of_the_catalogue(self):
        stubs = ast.parse(pathlib.Path(_properties.__file__).with_suffix(".pyi").read_text(encoding="utf-8"))
        lists = {one.targets[0].id: ast.literal_eval(getattr(one.value, "slice", one.value))
                 for one in stubs.body if isinstance(one, ast.Assign)}
        self.assertEqual({name: tuple(names) for name, names in lists.items()},
                         {"ComponentName": sirop.COMPONENTS, "__all__": tuple(_properties.__all__),
                          "PropertyName": tuple(one.name for one in sirop.properties())})
        found = {one.name: one for one in stubs.body if isinstance(one, ast.FunctionDef)}
        self.assertEqual(list(found), _properties.__all__)
        for name, stub in found.items():
            parameters = inspect.signature(getattr(sirop, name)).parameters.values()
            self.assertEqual([(one.arg, ast.unparse(one.annotation)) for one in stub.args.args],
                             [(one.name, one.annotation) for one in parameters])
            self.assertEqual([one.value for one in stub.args.defaults],
                             [one.default for one in parameters if one.default is not one.empty])
            self.assertEqual(ast.unparse(stub.returns), "Estimate")
            self.assertEqual(ast.get_docstring(stub), inspect.getdoc(getattr(sirop, name)))

    def test_every_argument_and_result_has_its_type(self):
        public = {name: getattr(sirop, name) for name in sirop.__all__}
        methods = {f"{name}.{key}": getattr(thing, key) for name, thing in public.items() if inspect.isclass(thing)
                   for key in dir(thing) if not key.startswith("_")}
        functions = {name: thing for name, thing in {**public, **methods}.items()
                     if inspect.isroutine(thing) and str(getattr(thing, "__module__", "")).startswith("sirop")}
        self.assertGreater(len(functions), 100)
        for name, function in functions.items():
            signature = inspect.signature(function)
            untyped = [argument for argument, one in signature.parameters.items()
                       if one.annotation is one.empty and argument != "self"]
            self.assertEqual((untyped, signature.return_annotation is signature.empty), ([], False), name)

    def test_annotations_mean_something_at_run_time(self):
        for name in sirop.__all__:
            thing = getattr(sirop, name)
            if callable(thing) and not hasattr(thing, "raise_for_errors"):  # array[...] is for type checkers
                typing.get_type_hints(thing)

    def test_everything_public_has_a_docstring(self):
        for name in sirop.__all__:
            if callable(getattr(sirop, name)):
                self.assertTrue(getattr(sirop, name).__doc__, name)


class Archives(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)
        patch = mock.patch.dict("os.environ", {"SIROP_LIBRARY": str(LIBRARY)})
        patch.start()
        self.addCleanup(patch.stop)

    def test_the_wheel(self):
        name = sirop_build.build_wheel(str(self.folder))
        self.assertRegex(name, rf"^sirop-{re.escape(sirop.version())}-py3-none-\w+\.whl$")
        self.assertNotIn("-any", name)
        with zipfile.ZipFile(self.folder / name) as wheel:
            names = wheel.namelist()
            info = f"sirop-{sirop.version()}.dist-info"
            for wanted in ("sirop/__init__.py", "sirop/_properties.pyi", "sirop/py.typed", f"sirop/{FILE_NAME}",
                           f"{info}/METADATA", f"{info}/WHEEL", f"{info}/RECORD"):
                self.assertIn(wanted, names)
            self.assertEqual({one for one in names if not one.startswith(("sirop/", info))}, set())
            self.assertEqual(wheel.read(f"sirop/{FILE_NAME}"), LIBRARY.read_bytes())
            self.assertIn(b"Root-Is-Purelib: false", wheel.read(f"{info}/WHEEL"))
            self.assertIn(b"Requires-Python: >=3.9", wheel.read(f"{info}/METADATA"))
            rows = [row.split(",") for row in wheel.read(f"{info}/RECORD").decode().split()]
            self.assertEqual([row[0] for row in rows], names)
            for path, hashed, size in rows[:-1]:
                content = wheel.read(path)
                self.assertEqual((hashed, size), ("sha256=" + sirop_build.digest(content), str(len(content))))

    def test_the_same_wheel_twice(self):
        contents = []
        for part in ("a", "b"):
            (self.folder / part).mkdir()
            contents.append((self.folder / part / sirop_build.build_wheel(str(self.folder / part))).read_bytes())
        self.assertEqual(*contents)

    def test_the_metadata_is_that_of_the_wheel(self):
        info = sirop_build.prepare_metadata_for_build_wheel(str(self.folder))
        with zipfile.ZipFile(self.folder / sirop_build.build_wheel(str(self.folder))) as wheel:
            for path in (self.folder / info).iterdir():
                self.assertEqual(wheel.read(f"{info}/{path.name}"), path.read_bytes())

    def test_the_sdist(self):
        name = sirop_build.build_sdist(str(self.folder))
        with tarfile.open(self.folder / name) as archive:
            names = archive.getnames()
        stem = f"sirop-{sirop.version()}"
        for wanted in ("pyproject.toml", "PKG-INFO", "backend/sirop_build.py", "backend/sirop_stubs.py",
                       "src/sirop/__init__.py", "src/sirop/_doors.py", "src/sirop/batch.schema.json", "src/sirop/py.typed"):
            self.assertIn(f"{stem}/{wanted}", names)

    def test_a_library_that_cannot_be_used_is_refused_with_the_reason(self):
        junk = self.folder / "junk.so"
        junk.write_bytes(b"not a library")
        for path, reason in ((self.folder / "absent.so", "there is no file"), (junk, "cannot load it")):
            with self.subTest(path=path.name), mock.patch.dict("os.environ", {"SIROP_LIBRARY": str(path)}):
                with self.assertRaises(sirop_build.LibraryMissing) as caught:
                    sirop_build.build_wheel(str(self.folder))
                self.assertIn("SIROP_LIBRARY: ", str(caught.exception))
                self.assertIn(reason, str(caught.exception))

    def test_a_library_of_another_version_is_refused(self):
        with mock.patch.object(sirop_build, "functions", lambda: ["version", "of_tomorrow"]):
            with self.assertRaises(sirop_build.LibraryMissing) as caught:
                sirop_build.build_wheel(str(self.folder))
        self.assertIn("lacks sirop_of_tomorrow", str(caught.exception))

    def test_without_any_library_it_says_where_it_looked(self):
        with mock.patch.object(sirop_build, "TREE", self.folder), mock.patch.dict("os.environ"):
            del os.environ["SIROP_LIBRARY"]
            os.environ["PATH"] = str(self.folder)
            with self.assertRaises(sirop_build.LibraryMissing) as caught:
                sirop_build.build_wheel(str(self.folder))
        for word in ("build/release/lib", "pkg-config", "source tree", "SIROP_LIBRARY"):
            self.assertIn(word, str(caught.exception).replace(os.sep, "/"))
