"""Grids of outside values for air: standard atmosphere, flow through bores, compressors.

Writes tests/reference/values/gas.json. Run with Debian's Python, packages python3-fluids and python3-scipy:

    /usr/bin/python3 tests/reference/python/generate_gas.py
"""

import json
import math
from pathlib import Path

import fluids
import scipy
from fluids.flow_meter import nozzle_expansibility
from scipy.optimize import brentq

GAS_CONSTANT = 287.05287
HEAT_RATIO = 1.4


def rounded(value):
    return float(f"{value:.10g}")


def atmosphere():
    """Pressure, temperature and density at geopotential altitudes, from the geometric altitude fluids asks for."""
    earth = 6356766.0
    rows = []
    for altitude in range(-500, 5001, 250):
        air = fluids.ATMOSPHERE_1976(earth * altitude / (earth - altitude))
        rows.append([altitude, rounded(air.P), rounded(air.T), rounded(air.rho)])
    return rows


def mass_flux(pressure, temperature, depression):
    """Incompressible flux times the expansibility of an ISO 5167 nozzle in a very large pipe."""
    density = pressure / (GAS_CONSTANT * temperature)
    expansibility = nozzle_expansibility(
        D=1, Do=1e-6, P1=pressure, P2=pressure - depression, k=HEAT_RATIO
    )
    return expansibility * math.sqrt(2 * density * depression)


def bores():
    rows = []
    for pressure in (60e3, 84556.0, 101325.0, 180e3):
        for temperature in (253.15, 288.15, 323.15):
            for share in (0.001, 0.005, 0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.46):
                depression = share * pressure
                flux = mass_flux(pressure, temperature, depression)
                rows.append([pressure, temperature, rounded(depression), rounded(flux)])
    return rows


def depressions():
    """Depression that drives a mass flux, found by scipy's brentq."""
    rows = []
    for pressure in (70e3, 101325.0):
        for temperature in (268.15, 313.15):
            for flux in (2.0, 10.0, 40.0, 80.0, 120.0, 150.0):
                root = brentq(
                    lambda depression: mass_flux(pressure, temperature, depression) - flux,
                    1e-6,
                    0.47 * pressure,
                    xtol=1e-9,
                )
                rows.append([pressure, temperature, flux, rounded(root)])
    return rows


def critical():
    """Pressure ratio and temperature ratio where the flow chokes."""
    return [rounded(fluids.P_critical_flow(1.0, HEAT_RATIO)), rounded(fluids.T_critical_flow(1.0, HEAT_RATIO))]


def compressors():
    rows = []
    for inlet in (268.15, 298.15, 318.15):
        for ratio in (1.05, 1.2, 1.5, 1.8, 2.2, 3.0):
            for efficiency in (0.5, 0.6, 0.7, 0.8):
                rise = fluids.isentropic_T_rise_compression(inlet, 1e5, ratio * 1e5, HEAT_RATIO, efficiency)
                rows.append([inlet, ratio, efficiency, rounded(rise)])
    return rows


def main():
    grids = {
        "made with": f"fluids {fluids.__version__}, scipy {scipy.__version__}",
        "atmosphere": {
            "columns": ["altitude m", "pressure Pa", "temperature K", "density kg/m3"],
            "call": "fluids.ATMOSPHERE_1976",
            "rows": atmosphere(),
        },
        "bores": {
            "columns": ["pressure Pa", "temperature K", "depression Pa", "ideal mass flux kg/(s m2)"],
            "call": "fluids.flow_meter.nozzle_expansibility * sqrt(2 rho dP)",
            "rows": bores(),
        },
        "depressions": {
            "columns": ["pressure Pa", "temperature K", "ideal mass flux kg/(s m2)", "depression Pa"],
            "call": "scipy.optimize.brentq over fluids.flow_meter.nozzle_expansibility",
            "rows": depressions(),
        },
        "critical": {
            "columns": ["pressure ratio", "temperature ratio"],
            "call": "fluids.P_critical_flow, fluids.T_critical_flow",
            "rows": [critical()],
        },
        "compressors": {
            "columns": ["inlet K", "pressure ratio", "efficiency", "outlet K"],
            "call": "fluids.isentropic_T_rise_compression",
            "rows": compressors(),
        },
    }
    target = Path(__file__).parent.parent / "values" / "gas.json"
    target.write_text(json.dumps(grids, indent=1) + "\n")


if __name__ == "__main__":
    main()
