"""Knock-limited spark by an independent integration: pressure as an ordinary differential equation, adaptive steps.

Writes tests/reference/values/knock.json. Needs scipy:

    python3 -m venv venv && venv/bin/pip install scipy
    venv/bin/python tests/reference/python/generate_knock.py
"""

import json
import math
from itertools import product
from pathlib import Path

import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

R = 287.05287
ATM = 101325.0
ROD = 3.5
DURATION = 60.0
WIEBE_A, WIEBE_M = 5.0, 2.0
HEAT = 1.9e6
GAMMA, END_GAS = 1.30, 1.32
CLOSING = 50.0


def integral(compression, pressure, temperature, octane, spark, speed=50.0):
    """dp/dtheta from the first law with constant exponent, and the Livengood-Wu integral beside it, by LSODA."""

    def volume(theta):
        s = math.cos(theta) + math.sqrt(ROD**2 - math.sin(theta) ** 2)
        return 1 / (compression - 1) + (ROD + 1 - s) / 2

    def volume_slope(theta):
        return math.sin(theta) / 2 * (1 + math.cos(theta) / math.sqrt(ROD**2 - math.sin(theta) ** 2))

    start, fire = math.radians(CLOSING - 180), math.radians(-spark)
    width = math.radians(DURATION)
    heat = HEAT * pressure * volume(start) / (R * temperature)

    def slopes(theta, state):
        p, _ = state
        y = (theta - fire) / width
        burning = 0.0
        if 0 < y < 1:
            burning = WIEBE_A * (WIEBE_M + 1) / width * y**WIEBE_M * math.exp(-WIEBE_A * y ** (WIEBE_M + 1))
        dp = ((GAMMA - 1) * heat * burning - GAMMA * p * volume_slope(theta)) / volume(theta)
        end_gas = temperature * (p / pressure) ** ((END_GAS - 1) / END_GAS)
        delay = 17.68e-3 * (octane / 100) ** 3.402 * (p / ATM) ** -1.7 * math.exp(3800 / end_gas)
        return [dp, 1 / delay / (2 * math.pi * speed)]

    state = [pressure, 0.0]
    for begin, end in ((start, fire), (fire, fire + width)):
        solved = solve_ivp(slopes, (begin, end), state, method="LSODA", rtol=1e-7, atol=[1e-2, 1e-10])
        state = solved.y[:, -1]
    return state[1]


def main():
    reference = integral(9.5, ATM, 330.0, 91.0, 34.0)
    rows = []
    for compression, boost, temperature, octane in product(
        (8.0, 9.0, 10.0, 11.0, 12.0), (0.0, 0.3, 0.6), (330.0, 360.0, 390.0), (85.0, 91.0, 98.0)
    ):
        pressure = (1 + boost) * ATM

        def excess(spark):
            return integral(compression, pressure, temperature, octane, spark) / reference - 1

        if excess(-10) >= 0 or excess(50) <= 0:
            continue
        spark = brentq(excess, -10, 50, xtol=1e-3)
        rows.append([compression, pressure, temperature, octane, float(f"{spark:.4g}")])
    indices = [
        [compression, float(f"{integral(compression, ATM, 330.0, 91.0, 34.0) / reference:.5g}")]
        for compression in (8.0, 9.0, 10.0, 10.5, 11.0, 11.8, 12.6)
    ]
    grid = {
        "made with": f"scipy {scipy.__version__}",
        "call": "scipy.integrate.solve_ivp (LSODA) of pressure and integral, scipy.optimize.brentq",
        "columns": ["compression", "pressure Pa", "temperature K", "octane AKI", "limited spark deg"],
        "rows": rows,
        "indices": {"columns": ["compression", "index at 34 deg"], "rows": indices},
    }
    target = Path(__file__).parent.parent / "values" / "knock.json"
    target.write_text(json.dumps(grid, indent=1) + "\n")


if __name__ == "__main__":
    main()
