"""The boiling point of syrups by general tools, beside this library: scipy's brentq on the same laws, with the
steam pressure of iapws. Prints one JSON object: seconds for each way, and by how much the answers differ.

usage: general_tools.py LIBSIROP      with an interpreter that has scipy (Debian's python3-scipy)

What is compared is the best value alone; the library finds its interval too. Without the package iapws, region 4 of
IAPWS-IF97 is written here in a few lines, and the answer says so."""

import json
import math
import os
import pathlib
import sys
import time

import numpy
import scipy
from scipy.optimize import brentq, newton

PRESSURE_HPA, GAS, WATER = 955.0, 8.314462618, 18.015268


def saturation_mpa(kelvin):
    """IAPWS-IF97, region 4 (IAPWS R7-97)."""
    n = (1167.0521452767, -724213.16703206, -17.073846940092, 12020.82470247, -3232555.0322333, 14.91510861353,
         -4823.2657361591, 405113.40542057, -0.23855557567849, 650.17534844798)
    t = kelvin + n[8] / (kelvin - n[9])
    a, b, c = t * t + n[0] * t + n[1], n[2] * t * t + n[3] * t + n[4], n[5] * t * t + n[6] * t + n[7]
    return (2.0 * c / (-b + (b * b - 4.0 * a * c) ** 0.5)) ** 4


def sucrose(x, kelvin):
    """ln aw, Starzak & Peacock 1997: as in formula/isotherm.hpp."""
    return numpy.log1p(-x) - 17638.0 / (GAS * kelvin) * (1.0 - 1.0038 * x - 0.24653 * x * x) * x * x


def norrish(k):
    return lambda x, kelvin: math.log1p(-x) + k * x * x


def salt(x, kelvin):
    """Pitzer & Mayorga 1973, by mole fraction of the salt."""
    m = 1000.0 / WATER * x / (1.0 - x)
    root = math.sqrt(m)
    phi = 1.0 - 0.392 * root / (1.0 + 1.2 * root) + m * (0.0765 + 0.2664 * math.exp(-2.0 * root)) + 0.00127 * m * m
    return -2.0e-3 * WATER * m * phi


def glycerol(x, kelvin):
    share = x / (1.0 + 1.02 * x)
    return math.log1p(-x) + (784.6 / kelvin - 3.98) * share * share


def water_held(law, molar_mass, ln_aw, kelvin):
    """Grams of water that a gram holds at an activity."""
    x = brentq(lambda x: law(x, kelvin) - ln_aw, 1e-12, 0.8, xtol=1e-13)
    return WATER / molar_mass * (1.0 - x) / x


def boils_of_one(water_per_gram, pressure):
    """A binary needs one solve: at its composition the activity is explicit."""
    x = 1.0 / (1.0 + water_per_gram * 342.297 / WATER)
    return brentq(lambda t: math.log(pressure(t)) + sucrose(x, t) - math.log(1e-4 * PRESSURE_HPA), 360.0, 480.0,
                  xtol=1e-10) - 273.15


def activity_of_four(grams, water, laws, kelvin):
    """A mixture needs a solve in a solve, by the additive-water rule."""
    def off(ln_aw):
        return sum(g * water_held(law, mass, ln_aw, kelvin) for g, (law, mass) in zip(grams, laws)) - water
    return math.exp(brentq(off, -0.28, -1e-3, xtol=1e-12))  # salt's law ends at -0.28


def timed(call):
    """The least of five, each of enough calls for a tenth of a second."""
    answer, calls = call(), 1
    while True:
        start = time.process_time()
        for _ in range(calls):
            call()
        if time.process_time() - start > 0.1:
            break
        calls *= 2
    best = math.inf
    for _ in range(5):
        start = time.process_time()
        for _ in range(calls):
            call()
        best = min(best, (time.process_time() - start) / calls)
    return answer, best


def main(library):
    os.environ["SIROP_LIBRARY"] = library
    sys.path.insert(0, str(pathlib.Path(__file__).parents[2] / "bindings" / "python" / "src"))
    import sirop
    try:
        from iapws import iapws97
        pressure, steam = iapws97._PSat_T, "iapws " + __import__("iapws").__version__
    except ImportError:
        pressure, steam = saturation_mpa, "region 4 written in the script (no package iapws here)"
    rows = []

    def compare(what, ours, theirs, n=1):
        (a, fast), (b, slow) = timed(ours), timed(theirs)
        rows.append({"what": what, "sirop_seconds": fast / n, "general_seconds": slow / n,
                     "differ": float(numpy.max(numpy.abs(numpy.asarray(a) - numpy.asarray(b))))})

    one = {"sucrose": 80.0, "water": 20.0}
    compare("boiling point of 80 % sucrose, one call",
            lambda: sirop.boiling_point_celsius(one, PRESSURE_HPA).value,
            lambda: boils_of_one(0.25, pressure))
    laws = {"sucrose": (sucrose, 342.297), "sorbitol": (norrish(-1.65), 182.172), "glycerol": (glycerol, 92.094),
            "salt": (salt, 58.443)}
    four = {"sucrose": 40.0, "sorbitol": 12.0, "glycerol": 7.0, "salt": 1.0, "water": 40.0}
    grams = [four[name] for name in laws]
    compare("water activity at 25 °C of sucrose, sorbitol, glycerol and salt, one call",
            lambda: sirop.water_activity(four, 25.0).value,
            lambda: activity_of_four(grams, four["water"], laws.values(), 298.15))

    n = 10000
    solids = numpy.linspace(60.0, 92.0, n)
    rows_of_grams = numpy.zeros((n, len(sirop.COMPONENTS)))
    rows_of_grams[:, sirop.COMPONENTS.index("sucrose")] = solids
    rows_of_grams[:, sirop.COMPONENTS.index("water")] = 100.0 - solids
    x = 1.0 / (1.0 + (100.0 - solids) / solids * 342.297 / WATER)
    ln_p = math.log(1e-4 * PRESSURE_HPA)
    compare(f"boiling point of {n} sucrose syrups, an array, per point",
            lambda: numpy.asarray(sirop.boiling_point_celsius_n(rows_of_grams, PRESSURE_HPA).value),
            lambda: newton(lambda t: numpy.log(saturation_mpa(t)) + sucrose(x, t) - ln_p, numpy.full(n, 385.0),
                           tol=1e-10) - 273.15, n)
    _, call = timed(lambda: sirop.water_boils_celsius(PRESSURE_HPA))
    _, call_of_mixture = timed(lambda: sirop.water_at_boil_grams(one, 105.0, PRESSURE_HPA))
    json.dump({"rows": rows, "steam": steam, "versions": f"Python {sys.version.split()[0]}, numpy "
               f"{numpy.__version__}, scipy {scipy.__version__}", "python_call_seconds": call,
               "python_mixture_call_seconds": call_of_mixture}, sys.stdout, indent=1)


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    main(sys.argv[1])
