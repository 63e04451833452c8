"""Outside values for interpolation and root finding: scipy's PchipInterpolator and brentq over random cases.

Writes tests/reference/values/numerics.json. Run with Debian's Python, packages python3-scipy and python3-numpy:

    /usr/bin/python3 tests/reference/python/generate_numerics.py
"""

import json
import random
from pathlib import Path

import numpy
import scipy
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

CURVES = 120
READINGS = 9
CUBICS = 60
EXPONENTIALS = 40


def rounded(value):
    return float(f"{value:.15g}")


def curves(chance):
    """Random curves of 2 to 9 points: falling, wavy or with level pieces, each read at random places and at its ends."""
    cases = []
    for case in range(CURVES):
        count = chance.randint(2, 9)
        x = [chance.uniform(-5, 5)]
        for _ in range(count - 1):
            x.append(x[-1] + chance.choice([0.01, 0.3, 1, 7]) * chance.uniform(0.2, 1))
        if case % 3 == 0:
            y = sorted((chance.uniform(0, 100) for _ in range(count)), reverse=True)
        elif case % 3 == 1:
            y = [chance.uniform(-100, 100) for _ in range(count)]
        else:
            y = [float(chance.randint(0, 3)) for _ in range(count)]
        x = [rounded(value) for value in x]
        y = [rounded(value) for value in y]
        at = [x[0], x[-1]] + [rounded(chance.uniform(x[0], x[-1])) for _ in range(READINGS)]
        read = PchipInterpolator(numpy.array(x), numpy.array(y))
        cases.append({"x": x, "y": y, "at": at, "value": [rounded(float(read(place))) for place in at]})
    return cases


def cubics(chance):
    """Roots of x^3 + b x^2 + c x + d between two places of opposite sign."""
    cases = []
    while len(cases) < CUBICS:
        b, c, d = (rounded(chance.uniform(-10, 10)) for _ in range(3))
        low, high = rounded(chance.uniform(-20, 0)), rounded(chance.uniform(0, 20))

        def cubic(x):
            return ((x + b) * x + c) * x + d

        if cubic(low) * cubic(high) < 0 and len([r for r in numpy.roots([1, b, c, d]) if abs(r.imag) < 1e-9]) == 1:
            cases.append([b, c, d, low, high, rounded(brentq(cubic, low, high, xtol=1e-13))])
    return cases


def exponentials(chance):
    """Roots of exp(k x) - level, flat on one side and steep on the other."""
    cases = []
    for _ in range(EXPONENTIALS):
        k = rounded(chance.uniform(0.1, 3))
        level = rounded(10 ** chance.uniform(-3, 3))
        root = brentq(lambda x: numpy.exp(k * x) - level, -80, 80, xtol=1e-13, maxiter=500)
        cases.append([k, level, -80, 80, rounded(root)])
    return cases


def main():
    chance = random.Random(20240607)
    grids = {
        "made with": f"scipy {scipy.__version__}, numpy {numpy.__version__}",
        "pchip": {"call": "scipy.interpolate.PchipInterpolator(x, y)(at)", "cases": curves(chance)},
        "cubics": {
            "call": "scipy.optimize.brentq",
            "columns": ["b", "c", "d", "low", "high", "root"],
            "rows": cubics(chance),
        },
        "exponentials": {
            "call": "scipy.optimize.brentq",
            "columns": ["k", "level", "low", "high", "root"],
            "rows": exponentials(chance),
        },
    }
    target = Path(__file__).parent.parent / "values" / "numerics.json"
    target.write_text(json.dumps(grids, indent=1) + "\n")


if __name__ == "__main__":
    main()
