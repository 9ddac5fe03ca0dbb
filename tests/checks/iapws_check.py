"""Water against a general-purpose reference library, iapws (Debian: python3-iapws): an independent transcription of
IAPWS-IF97.  usage: iapws_check.py path/to/libsirop.so.  Exits 1 on a difference, 2 if iapws is missing."""
import ctypes
import sys

try:
    from iapws import IAPWS97
    from iapws.iapws97 import _PSat_T, _TSat_P
except ImportError:
    print("iapws is not installed for this python3")
    sys.exit(2)

sirop = ctypes.CDLL(sys.argv[1])
number = ctypes.c_double()


class Estimate(ctypes.Structure):
    _fields_ = [("value", ctypes.c_double), ("low", ctypes.c_double), ("high", ctypes.c_double),
                ("status", ctypes.c_int32), ("reserved", ctypes.c_int32)]


def call(name, x):
    if getattr(sirop, name)(ctypes.c_double(x), ctypes.byref(number)) != 0:
        raise SystemExit(f"{name}({x}) was refused")
    return number.value


worst = {"saturation pressure": 0.0, "saturation temperature": 0.0, "density": 0.0}
for i in range(321):
    celsius = 70.0 + 0.1 * i
    ours, theirs = call("sirop_pressure_from_boiling_water_hpa", celsius), 1.0e4 * _PSat_T(celsius + 273.15)
    worst["saturation pressure"] = max(worst["saturation pressure"], abs(ours / theirs - 1.0))
for i in range(801):
    hpa = 300.0 + i
    ours, theirs = call("sirop_water_boils_celsius", hpa), _TSat_P(1.0e-4 * hpa) - 273.15
    worst["saturation temperature"] = max(worst["saturation temperature"], abs(ours - theirs))
grams = (ctypes.c_double * 1)(100.0)
for i in range(1, 20):
    celsius, result = 5.0 * i, Estimate()
    status = sirop.sirop_property_estimate(b"density_g_per_ml", grams, ctypes.c_size_t(1), ctypes.c_double(celsius),
                                           ctypes.c_double(1013.25), ctypes.byref(result))
    if status < 0:
        raise SystemExit(f"density at {celsius} was refused")
    theirs = 1.0e-3 * IAPWS97(T=celsius + 273.15, P=0.101325).rho
    worst["density"] = max(worst["density"], abs(result.value / theirs - 1.0))

# The same equation transcribed twice: rounding only.  Density is another equation (Kell): 3e-5 is 0.03 kg/m3, a tenth
# of what is asked of syrups.
allowed = {"saturation pressure": 1e-12, "saturation temperature": 1e-10, "density": 3e-5}
for name, value in worst.items():
    print(f"{name}: worst {value:.2g}, allowed {allowed[name]:.2g}")
sys.exit(any(worst[name] > allowed[name] for name in worst))
