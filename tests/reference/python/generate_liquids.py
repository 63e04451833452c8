"""Grids of outside values from equations of state: ethanol, methanol, and real air expanding and being compressed.

Writes tests/reference/values/liquids.json. Needs the CoolProp package from PyPI:

    python3 -m venv venv && venv/bin/pip install CoolProp
    venv/bin/python tests/reference/python/generate_liquids.py
"""

import json
from pathlib import Path

import CoolProp
from CoolProp.CoolProp import PropsSI

ATMOSPHERE = 101325.0
ABOVE_BOILING = 500e3


def rounded(value):
    return float(f"{value:.8g}")


def liquid(name):
    """Temperature, density, kinematic viscosity and vapor pressure of the liquid, kept from boiling by 5 bar."""
    rows = []
    for celsius in range(-40, 81, 10):
        temperature = 273.15 + celsius
        density = PropsSI("D", "T", temperature, "P", ABOVE_BOILING, name)
        viscosity = PropsSI("V", "T", temperature, "P", ABOVE_BOILING, name) / density
        vapor = PropsSI("P", "T", temperature, "Q", 0, name)
        rows.append([temperature, rounded(density), rounded(viscosity), rounded(vapor)])
    return rows


def expansion():
    """Mass flux of real air expanding without loss from rest: rho * sqrt(2 (h0 - h)) along an isentrope."""
    rows = []
    for pressure in (84556.0, 101325.0, 180e3):
        for temperature in (273.15, 288.15, 313.15):
            entropy = PropsSI("S", "T", temperature, "P", pressure, "Air")
            at_rest = PropsSI("H", "T", temperature, "P", pressure, "Air")
            for share in (0.01, 0.05, 0.1, 0.2, 0.4):
                throat = pressure * (1 - share)
                enthalpy = PropsSI("H", "S", entropy, "P", throat, "Air")
                density = PropsSI("D", "S", entropy, "P", throat, "Air")
                flux = density * (2 * (at_rest - enthalpy)) ** 0.5
                rows.append([pressure, temperature, rounded(share * pressure), rounded(flux)])
    return rows


def compression():
    """Outlet temperature and work of real air through a compressor of given adiabatic efficiency."""
    rows = []
    for inlet in (283.15, 298.15, 318.15):
        entropy = PropsSI("S", "T", inlet, "P", ATMOSPHERE, "Air")
        before = PropsSI("H", "T", inlet, "P", ATMOSPHERE, "Air")
        for ratio in (1.3, 1.6, 2.0, 2.5):
            ideal = PropsSI("H", "S", entropy, "P", ratio * ATMOSPHERE, "Air") - before
            for efficiency in (0.55, 0.7):
                after = before + ideal / efficiency
                outlet = PropsSI("T", "H", after, "P", ratio * ATMOSPHERE, "Air")
                rows.append([inlet, ratio, efficiency, rounded(outlet), rounded(after - before)])
    return rows


def main():
    columns = ["temperature K", "density kg/m3", "kinematic viscosity m2/s", "vapor pressure Pa"]
    grids = {
        "made with": f"CoolProp {CoolProp.__version__}",
        "ethanol": {"columns": columns, "rows": liquid("Ethanol")},
        "methanol": {"columns": columns, "rows": liquid("Methanol")},
        "expansion": {
            "columns": ["pressure Pa", "temperature K", "depression Pa", "mass flux kg/(s m2)"],
            "rows": expansion(),
        },
        "compression": {
            "columns": ["inlet K", "pressure ratio", "efficiency", "outlet K", "work J/kg"],
            "rows": compression(),
        },
    }
    target = Path(__file__).parent.parent / "values" / "liquids.json"
    target.write_text(json.dumps(grids, indent=1) + "\n")


if __name__ == "__main__":
    main()
