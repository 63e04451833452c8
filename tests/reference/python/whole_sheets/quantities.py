"""Texts such as `350 +/- 15 hp`, `1 3/4 in` or `0.82..0.98 ms` to SI numbers.

Factors: NIST Special Publication 811 (2008), Appendix B; wire gauges: ASTM B258.
"""

import re
from math import pi

INCH = 0.0254
POUND = 0.45359237
GALLON = 231 * INCH**3
PSI = POUND * 9.80665 / INCH**2
HORSEPOWER = 550 * 0.3048 * POUND * 9.80665
TEST_FLUID = 720.0  # kg/m3, the trade's fluid behind `cc/min` of an injector

FACTORS = {
    "in": INCH, "ft": 12 * INCH, "mm": 1e-3, "cm": 1e-2, "m": 1.0, "um": 1e-6,
    "L": 1e-3, "cc": 1e-6, "cm^3": 1e-6, "in^3": INCH**3, "cid": INCH**3, "gal": GALLON,
    "psi": PSI, "kPa": 1e3, "bar": 1e5, "mbar": 100.0, "inHg": 3386.389, "Pa": 1.0,
    "hp": HORSEPOWER, "kW": 1e3, "rpm": 1 / 60,
    "ms": 1e-3, "us": 1e-6, "s": 1.0,
    "lb/h": POUND / 3600, "kg/h": 1 / 3600, "g/min": 1e-3 / 60, "g/s": 1e-3, "cc/min": TEST_FLUID * 1e-6 / 60,
    "L/h": 1e-3 / 3600, "L/min": 1e-3 / 60, "gal/h": GALLON / 3600, "cfm": (12 * INCH) ** 3 / 60,
    "V": 1.0, "A": 1.0, "ohm": 1.0, "mH": 1e-3, "deg": 1.0, "deg/psi": 1 / PSI, "lb": POUND, "kg": 1.0,
    "kg/m^3": 1.0, "MJ/kg": 1e6, "lb/(hp*h)": POUND / (HORSEPOWER * 3600), "g/(kW*h)": 1e-3 / 3.6e6,
    "%": 0.01, "mm^2": 1e-6, "": 1.0,
}  # fmt: skip

NUMBER = r"[-+]?(?:\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?|\.\d+)"
PLAIN = re.compile(rf"^({NUMBER})\s*(.*)$")
SPREAD = re.compile(rf"^({NUMBER})\s*(.*?)\s*\+/-\s*({NUMBER})\s*(.*)$")
RANGE = re.compile(rf"^({NUMBER})\.\.({NUMBER})\s*(.*)$")


class Quantity(float):
    """A value in SI with the bounds of its tolerance.

    `metric_wire` tells square millimeters from gauges, `is_vacuum` what is counted down from the air of the site.
    """

    low: float
    high: float
    metric_wire = False
    is_vacuum = False

    def __new__(cls, value, low=None, high=None, metric_wire=False):
        quantity = super().__new__(cls, value)
        quantity.low = value if low is None else low
        quantity.high = value if high is None else high
        quantity.metric_wire = metric_wire
        return quantity


def number(text):
    """A decimal, a fraction or a mixed number."""
    whole, _, part = text.rpartition(" ")
    if "/" in part:
        top, bottom = part.split("/")
        return float(whole or 0) + float(top) / float(bottom)
    return float(text)


def in_si(value, unit):
    if unit == "degC":
        return value + 273.15
    if unit == "degF":
        return (value + 459.67) / 1.8
    return value * FACTORS[unit]


def gauge_area(gauge):
    """Copper area of a wire gauge, ASTM B258; 1/0 counts as 0."""
    return pi / 4 * (0.127e-3 * 92 ** ((36 - gauge) / 39)) ** 2


def wire(text):
    size, unit = text.split()
    if unit == "AWG":
        return Quantity(gauge_area(0 if size == "1/0" else float(size)))
    return Quantity(float(size) * 1e-6, metric_wire=True)


def quantity(text):
    """The quantity in a scalar of a sheet, or None where it is a word."""
    if isinstance(text, bool) or text is None:
        return None
    if isinstance(text, (int, float)):
        return Quantity(text)
    if text.endswith(" vacuum"):
        reading = quantity(text.removesuffix(" vacuum"))
        reading.is_vacuum = True
        return reading
    text = text.removesuffix(" abs")
    if text.endswith(" AWG") or text.endswith(" mm^2"):
        return wire(text)
    if found := RANGE.match(text):
        low, high = (in_si(number(end), found[3]) for end in found.group(1, 2))
        return Quantity((low + high) / 2, low, high)
    if found := SPREAD.match(text):
        unit = found[2] or found[4]
        value = in_si(number(found[1]), unit)
        share = found[4] == "%" and unit != "%"
        spread = abs(value) * number(found[3]) / 100 if share else number(found[3]) * FACTORS[unit]
        return Quantity(value, value - spread, value + spread)
    if (found := PLAIN.match(text)) and (found[2] in FACTORS or found[2] in ("degC", "degF")):
        return Quantity(in_si(number(found[1]), found[2]))
    return None
