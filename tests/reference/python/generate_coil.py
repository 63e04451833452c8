"""Heat in a running ignition coil by numerical integration of the current squared.

Writes tests/reference/values/coil.json. Needs scipy:

    python3 -m venv venv && venv/bin/pip install scipy
    venv/bin/python tests/reference/python/generate_coil.py
"""

import json
import math
from itertools import product
from pathlib import Path

import scipy
from scipy.integrate import quad

SPARK_DURATION = 1e-3


def heat(voltage, resistance, inductance, ballast, sparks, rpm):
    """Mean of R i^2 over the time between sparks, the coil charging all of it but the spark's own."""
    interval = 120 / (sparks * rpm)
    total = resistance + ballast

    def square(time):
        return (voltage / total * (1 - math.exp(-time * total / inductance))) ** 2

    return quad(square, 0, interval - SPARK_DURATION)[0] / interval * resistance


def main():
    coils = [(1.5, 8e-3, 1.5), (0.5, 3.5e-3, 0.0), (3.0, 10e-3, 0.0)]
    rows = [
        [voltage, *coil, sparks, rpm, float(f"{heat(voltage, *coil, sparks, rpm):.8g}")]
        for voltage, coil, (sparks, rpm) in product((12.75, 14.0), coils, ((8, 1000), (8, 4000), (2, 6000)))
    ]
    grid = {
        "made with": f"scipy {scipy.__version__}",
        "call": "scipy.integrate.quad of the current squared",
        "columns": ["V", "ohm", "H", "ballast ohm", "sparks a cycle", "rpm", "coil heat W"],
        "rows": rows,
    }
    target = Path(__file__).parent.parent / "values" / "coil.json"
    target.write_text(json.dumps(grid, indent=1) + "\n")


if __name__ == "__main__":
    main()
