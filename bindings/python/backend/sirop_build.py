"""Builds the wheel of sirop's Python binding (PEP 517), with nothing but the standard library.

The wheel holds the shared library, so it belongs to one platform.  The library comes from the first of:
  1. the environment variable SIROP_LIBRARY, the path of libsirop.so;
  2. build/release/lib of the source tree that this folder is a part of;
  3. where pkg-config finds sirop;
  4. a build with cmake of that source tree.
"""

from __future__ import annotations

import base64
import ctypes
import gzip
import hashlib
import io
import os
import pathlib
import shutil
import subprocess
import sys
import sysconfig
import tarfile
import tempfile
import zipfile

FOLDER = pathlib.Path(__file__).resolve().parent.parent
PACKAGE = FOLDER / "src" / "sirop"
TREE = FOLDER.parent.parent
DOORS = FOLDER.parent / "doors" / "doors.py"  # makes a part of the package from the C header; an sdist has it made
LIBRARY = {"darwin": "libsirop.dylib", "win32": "sirop.dll"}.get(sys.platform, "libsirop.so")
SUMMARY = "Water, texture stage and set of a syrup, caramel or sauce from its ingredients and cook temperature"


class LibraryMissing(Exception):
    """No usable libsirop; the message says where it was looked for."""


def get_requires_for_build_wheel(config_settings=None):
    return []


get_requires_for_build_sdist = get_requires_for_build_wheel


def prepare_metadata_for_build_wheel(metadata_directory, config_settings=None):
    with tempfile.TemporaryDirectory() as scratch:
        _, version = find_library(pathlib.Path(scratch))
    name = f"sirop-{version}.dist-info"
    folder = pathlib.Path(metadata_directory, name)
    folder.mkdir(parents=True)
    for path, content in info_files(version).items():
        (folder / path).write_bytes(content)
    return name


def build_wheel(wheel_directory, config_settings=None, metadata_directory=None):
    with tempfile.TemporaryDirectory() as scratch:
        library, version = find_library(pathlib.Path(scratch))
        files = {f"sirop/{name}": content for name, content in package().items()}
        files["sirop/_properties.pyi"] = stubs(library, pathlib.Path(scratch), files)
        files[f"sirop/{LIBRARY}"] = library.read_bytes()
    info = f"sirop-{version}.dist-info"
    files.update({f"{info}/{path}": content for path, content in info_files(version).items()})
    rows = [f"{path},sha256={digest(content)},{len(content)}" for path, content in files.items()]
    files[f"{info}/RECORD"] = ("\n".join([*rows, f"{info}/RECORD,,"]) + "\n").encode()

    name = f"sirop-{version}-{tag()}.whl"
    with zipfile.ZipFile(pathlib.Path(wheel_directory, name), "w", zipfile.ZIP_DEFLATED) as wheel:
        for path, content in files.items():
            entry = zipfile.ZipInfo(path, (1980, 1, 1, 0, 0, 0))
            entry.external_attr = (0o100755 if path.endswith(LIBRARY) else 0o100644) << 16
            entry.compress_type = zipfile.ZIP_DEFLATED
            wheel.writestr(entry, content)
    return name


def build_sdist(sdist_directory, config_settings=None):
    """The Python sources alone; whoever installs from it needs the library (1 or 3 above)."""
    with tempfile.TemporaryDirectory() as scratch:
        _, version = find_library(pathlib.Path(scratch))
    stem = f"sirop-{version}"
    sources = [FOLDER / "pyproject.toml", *filter(is_source, FOLDER.glob("backend/*"))]
    files = {path.relative_to(FOLDER).as_posix(): path.read_bytes() for path in sorted(sources)}
    files.update({f"src/sirop/{name}": content for name, content in package().items()})
    files["PKG-INFO"] = metadata(version)
    if licence():
        files["LICENSE"] = licence()
    content = io.BytesIO()
    with tarfile.open(fileobj=content, mode="w", format=tarfile.PAX_FORMAT) as archive:
        for path, data in files.items():
            entry = tarfile.TarInfo(f"{stem}/{path}")
            entry.size = len(data)
            archive.addfile(entry, io.BytesIO(data))
    name = f"{stem}.tar.gz"
    pathlib.Path(sdist_directory, name).write_bytes(gzip.compress(content.getvalue(), mtime=0))
    return name


# --- what stands in the archive -------------------------------------------------------------------------------------


def package():
    """The files of the package, by their names: its sources, and what is made from the C header."""
    with tempfile.TemporaryDirectory() as made:
        for what in ("python", "schemas") if DOORS.is_file() else ():
            subprocess.run([sys.executable, "-B", str(DOORS), what, made], check=True)
        paths = [*filter(is_source, PACKAGE.iterdir()), *pathlib.Path(made).iterdir()]
        return {path.name: path.read_bytes() for path in sorted(paths, key=lambda path: path.name)}


def stubs(library, scratch, files):
    """The typings that sirop_stubs.py makes from the catalogue of that library."""
    (scratch / "sirop").mkdir()
    for name, content in files.items():
        (scratch / name).write_bytes(content)
    made = subprocess.run([sys.executable, "-B", str(FOLDER / "backend" / "sirop_stubs.py")], capture_output=True,
                          env={**os.environ, "PYTHONPATH": str(scratch), "SIROP_LIBRARY": str(library)})
    if made.returncode != 0:
        raise RuntimeError("the typings could not be made: " + made.stderr.decode(errors="replace"))
    return made.stdout


def is_source(path):
    return path.suffix in (".py", ".json") or path.name == "py.typed"


def digest(content):
    return base64.urlsafe_b64encode(hashlib.sha256(content).digest()).rstrip(b"=").decode()


def tag():
    """Any Python 3 of this platform: the package loads the library by ctypes, not as an extension module."""
    return "py3-none-" + sysconfig.get_platform().replace("-", "_").replace(".", "_")


def licence():
    """The licence's text, from the source tree or, in an unpacked sdist, beside pyproject.toml."""
    for path in (FOLDER / "LICENSE", TREE / "LICENSE"):
        if path.is_file():
            return path.read_bytes()
    return b""


def metadata(version):
    lines = ["Metadata-Version: 2.1", "Name: sirop", f"Version: {version}", f"Summary: {SUMMARY}", "License: MIT",
             "Requires-Python: >=3.9", "Classifier: License :: OSI Approved :: MIT License",
             "Classifier: Typing :: Typed", "Description-Content-Type: text/plain", "",
             "The Python binding of sirop, over its C library.",
             "Hot sugar burns and steam bursts: follow the cautions of every answer."]
    return ("\n".join(lines) + "\n").encode()


def info_files(version):
    wheel = f"Wheel-Version: 1.0\nGenerator: sirop_build ({version})\nRoot-Is-Purelib: false\nTag: {tag()}\n"
    files = {"METADATA": metadata(version), "WHEEL": wheel.encode()}
    if licence():
        files["LICENSE"] = licence()
    return files


# --- the library ----------------------------------------------------------------------------------------------------


def find_library(scratch):
    """Path and version of a library that this Python can load and that has every function of the binding."""
    given = os.environ.get("SIROP_LIBRARY")
    if given:
        path = pathlib.Path(given).expanduser().resolve()
        try:
            return path, version_of(path)
        except LibraryMissing as why:
            raise LibraryMissing(f"SIROP_LIBRARY: {why}") from None
    reasons = []
    for candidate in (in_the_tree, by_pkg_config, by_cmake):
        try:
            path = candidate(scratch).resolve()
            return path, version_of(path)
        except LibraryMissing as why:
            reasons.append(str(why))
    raise LibraryMissing("libsirop is needed and was not found: " + "; ".join(reasons) +
                         ".  Set SIROP_LIBRARY to the path of " + LIBRARY)


def version_of(path):
    if not path.is_file():
        raise LibraryMissing(f"there is no file {path}")
    try:
        library = ctypes.CDLL(str(path))
    except OSError as why:
        raise LibraryMissing(f"this Python cannot load it: {why}") from None
    missing = [f"sirop_{name}" for name in functions() if not hasattr(library, f"sirop_{name}")]
    if missing:
        raise LibraryMissing(f"{path} lacks {', '.join(missing)}: it is not the library of this version")
    library.sirop_version.restype = ctypes.c_char_p
    return library.sirop_version().decode()


def functions():
    """The names of the C functions that the package calls."""
    table = {}
    exec(package()["_table.py"], table)
    return table["FUNCTIONS"]


def in_the_tree(scratch):
    return TREE / "build" / "release" / "lib" / LIBRARY


def by_pkg_config(scratch):
    if not shutil.which("pkg-config"):
        raise LibraryMissing("there is no pkg-config to ask")
    asked = subprocess.run(["pkg-config", "--variable=libdir", "sirop"], capture_output=True, text=True)
    if asked.returncode != 0 or not asked.stdout.strip():
        raise LibraryMissing("pkg-config does not know sirop")
    return pathlib.Path(asked.stdout.strip(), LIBRARY)


def by_cmake(scratch):
    if not (TREE / "include" / "sirop" / "sirop.h").is_file() or not (TREE / "CMakeLists.txt").is_file():
        raise LibraryMissing("this is not a source tree of sirop, so it cannot be built")
    if not shutil.which("cmake"):
        raise LibraryMissing("there is no cmake to build it")
    configure = ["cmake", "-S", str(TREE), "-B", str(scratch), "-DCMAKE_BUILD_TYPE=Release", "-DSIROP_BUILD_TESTS=OFF",
                 "-DSIROP_BUILD_EXAMPLES=OFF", "-DSIROP_INSTALL=OFF"]
    if shutil.which("ninja") and "CMAKE_GENERATOR" not in os.environ:
        configure += ["-G", "Ninja"]
    build = ["cmake", "--build", str(scratch), "--config", "Release", "--target", "sirop_c",
             "--parallel", os.environ.get("SIROP_JOBS", "1")]
    for command in (configure, build):
        ran = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
        if ran.returncode != 0:
            raise LibraryMissing("cmake could not build it: " + " ".join(ran.stdout.split()[-60:]))
    for path in sorted(scratch.rglob(LIBRARY)):
        return path
    raise LibraryMissing("cmake built no " + LIBRARY)
