"""Grids of outside values for lines: friction factors, pressure losses and wire gauges of python3-fluids.

Writes tests/reference/values/flow.json. Run with Debian's Python, packages python3-fluids and python3-numpy:

    /usr/bin/python3 tests/reference/python/generate_flow.py
"""

import json
from math import pi
from pathlib import Path

import fluids
import numpy
from fluids.friction import Colebrook, Swamee_Jain_1976, friction_factor, one_phase_dP

LITER_PER_HOUR = 1e-3 / 3600
ROUGHNESS = [0, 1e-6, 1e-5, 1e-4, 2e-4, 1e-3, 5e-3, 1e-2, 5e-2]
LIQUIDS = [("gasoline", 745, 0.5e-3), ("E85", 782, 1.1e-3), ("methanol", 792, 0.59e-3), ("cold ethanol", 806, 1.8e-3)]


def rounded(value):
    return float(f"{value:.12g}")


def turbulent(call):
    """Friction factors from Re 4000 to 1e8."""
    rows = []
    for re in numpy.geomspace(4000, 1e8, 23):
        re = rounded(re)
        for relative in ROUGHNESS:
            rows.append([re, relative, rounded(call(re, relative))])
    return rows


def laminar():
    return [[float(re), rounded(friction_factor(Re=re, eD=1e-4))] for re in (1, 10, 100, 500, 1000, 1500, 1999)]


def losses():
    """Straight losses of fuel lines, clear of the transition between Re 2000 and 4000."""
    rows = []
    for _, density, viscosity in LIQUIDS:
        for flow in (20, 80, 150, 255, 340, 450, 900):
            for diameter in (0.004, 0.0065151, 0.0079375, 0.009525, 0.0127):
                for length, roughness in ((0.3, 1.5e-6), (5.5, 1e-5)):
                    mass = flow * LITER_PER_HOUR * density
                    re = 4 * mass / (pi * diameter * viscosity)
                    if 2000 <= re <= 4000:
                        continue
                    loss = one_phase_dP(m=mass, rho=density, mu=viscosity, D=diameter, roughness=roughness, L=length)
                    rows.append([flow, density, viscosity, diameter, length, roughness, rounded(loss)])
    return rows


def fittings():
    """Loss coefficients of equivalent lengths, at friction factors of fuel lines."""
    rows = []
    for re in (6000, 12000, 25000, 50000):
        for relative in (1e-4, 1e-3):
            factor = Colebrook(re, relative)
            rows.append(
                [re, relative, rounded(fluids.K_from_L_equiv(30, factor)), rounded(fluids.K_from_L_equiv(16, factor))]
            )
    return rows


def gauges():
    """Diameters of the AWG sizes in the library's table, printed to 0.0001 in."""
    return [[gauge, rounded(fluids.t_from_gauge(gauge, schedule="AWG"))] for gauge in range(0, 37)]


def main():
    grids = {
        "made with": f"fluids {fluids.__version__}",
        "colebrook": {
            "call": "fluids.friction.Colebrook",
            "columns": ["Re", "e/D", "f"],
            "rows": turbulent(Colebrook),
        },
        "swamee-jain": {
            "call": "fluids.friction.Swamee_Jain_1976",
            "columns": ["Re", "e/D", "f"],
            "rows": turbulent(Swamee_Jain_1976),
        },
        "laminar": {"call": "fluids.friction.friction_factor", "columns": ["Re", "f"], "rows": laminar()},
        "losses": {
            "call": "fluids.friction.one_phase_dP",
            "columns": ["flow L/h", "density", "viscosity Pa s", "diameter", "length", "roughness", "loss Pa"],
            "rows": losses(),
        },
        "fittings": {
            "call": "fluids.K_from_L_equiv(30 or 16, fluids.friction.Colebrook)",
            "columns": ["Re", "e/D", "K 90", "K 45"],
            "rows": fittings(),
        },
        "gauges": {"call": "fluids.t_from_gauge AWG", "columns": ["gauge", "diameter"], "rows": gauges()},
    }
    target = Path(__file__).parent.parent / "values" / "flow.json"
    target.write_text(json.dumps(grids, indent=1) + "\n")


if __name__ == "__main__":
    main()
