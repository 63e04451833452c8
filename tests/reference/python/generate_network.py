"""Operating points of random fuel systems, solved apart from the project: scipy's PCHIP and brentq over fluids' losses.

Writes tests/reference/values/network.json. Run with Debian's Python, packages python3-fluids and python3-scipy:

    /usr/bin/python3 tests/reference/python/generate_network.py

Elbows of 30 diameters at the friction factor of the flow; ahead of the pump of 30 times the factor of commercial steel in
full turbulence, where that is more (Crane TP-410). Here the flow is the unknown, not the pump's pressure. Only systems are kept whose lines are clear of the transition
between Re 2000 and 4000 and whose pump works inside its points.
"""

import json
import random
from math import log10, pi
from pathlib import Path

import fluids
import scipy
from fluids.friction import friction_factor, one_phase_dP
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

GRAVITY = 9.80665
LITER_PER_HOUR = 1e-3 / 3600
MINIMUM_DROP = 10e3
SYSTEMS = 80


class InTransition(Exception):
    pass


def rounded(value):
    return float(f"{value:.10g}")


def line_loss(line, density, viscosity, flow):
    """Friction and head of a line (diameter, length, roughness, 90 degree elbows, rise)."""
    diameter, length, roughness, elbows, rise = line
    head = density * GRAVITY * rise
    if flow <= 0:
        return head
    mass = flow * density
    re = 4 * mass / (pi * diameter * viscosity)
    if 2000 <= re <= 4000:
        raise InTransition
    whole = length + 30 * elbows * diameter
    return head + one_phase_dP(m=mass, rho=density, mu=viscosity, D=diameter, roughness=roughness, L=whole)


def suction_loss(line, density, viscosity, flow):
    """As `line_loss`, elbows at no less than the fully turbulent factor of commercial steel, 45 um."""
    diameter, _, roughness, elbows, _ = line
    lost = line_loss(line, density, viscosity, flow)
    if flow <= 0:
        return lost
    re = 4 * flow * density / (pi * diameter * viscosity)
    rough = 0.25 / log10(45e-6 / (3.7 * diameter)) ** 2
    more = max(0.0, rough - friction_factor(Re=re, eD=roughness / diameter))
    speed = flow / (pi * diameter**2 / 4)
    return lost + 30 * elbows * more * density * speed**2 / 2


def draw(chance):
    bore = [0.0065151, 0.0079375, 0.009525, 0.0127]
    pressures = [0.0, 100e3, 200e3, 300e3, 400e3, 500e3, 600e3]
    flow = chance.uniform(180, 420)
    flows = [flow]
    for _ in pressures[1:]:
        flow -= chance.uniform(4, 28)
        flows.append(flow)
    density, viscosity = chance.choice([(745, 0.5e-3), (782, 1.1e-3), (792, 0.59e-3)])
    return {
        "density": density,
        "viscosity": viscosity,
        "pressures": pressures,
        "flows": [rounded(value) for value in flows],
        "voltage share": rounded(chance.uniform(0.85, 1.05)),
        "suction": [chance.choice(bore[1:]), rounded(chance.uniform(0.2, 1.5)), 1e-5, 1, rounded(chance.uniform(-0.3, 0.4))],
        "feed": [chance.choice(bore), rounded(chance.uniform(2, 7)), 1.5e-6, chance.randint(0, 6), rounded(chance.uniform(0, 0.8))],
        "return": [chance.choice([0.0035, 0.0045, *bore]), rounded(chance.uniform(2, 7)), 1.5e-6, chance.randint(0, 6), rounded(chance.uniform(-0.8, 0))],
        "filter": [300, rounded(chance.uniform(2e3, 25e3))],
        "setting": rounded(chance.uniform(90e3, 480e3)),
        "consumption": rounded(chance.uniform(0, 320)),
    }


def solve(system):
    density, viscosity = system["density"], system["viscosity"]
    curve = PchipInterpolator(system["pressures"], system["flows"])
    highest = system["pressures"][-1]
    consumption = system["consumption"] * LITER_PER_HOUR

    def delivered(rise):
        return float(curve(rise)) * system["voltage share"] * LITER_PER_HOUR

    def rise_at(flow):
        return brentq(lambda rise: delivered(rise) - flow, 0, highest, xtol=1e-6)

    def losses(flow):
        filter_loss = system["filter"][1] * flow / (system["filter"][0] * LITER_PER_HOUR)
        feed = line_loss(system["feed"], density, viscosity, flow)
        return feed + filter_loss + suction_loss(system["suction"], density, viscosity, flow)

    def rail_held(flow):
        back = line_loss(system["return"], density, viscosity, flow - consumption)
        return max(system["setting"], back + MINIMUM_DROP)

    if not delivered(highest) < consumption < delivered(0):
        consumption = min(consumption, delivered(highest) * 0.8)
        system["consumption"] = rounded(consumption / LITER_PER_HOUR)
        consumption = system["consumption"] * LITER_PER_HOUR
    slowest = max(consumption, delivered(highest) * (1 + 1e-9))

    def excess(flow):
        return rise_at(flow) - losses(flow) - rail_held(flow)

    if excess(slowest) > 0:
        flow = brentq(excess, slowest, delivered(0) * (1 - 1e-9), xtol=1e-14)
        rail = rail_held(flow)
    elif slowest > consumption:
        return None
    else:
        flow = consumption
        rail = rise_at(flow) - losses(flow)
        if rail < 1e3:
            return None
    return [rounded(flow / LITER_PER_HOUR), rounded(rail), rounded(rise_at(flow))]


def main():
    chance = random.Random(71)
    systems = []
    while len(systems) < SYSTEMS:
        system = draw(chance)
        try:
            point = solve(system)
        except InTransition:
            continue
        if point:
            system["delivered"], system["rail"], system["rise"] = point
            systems.append(system)
    grids = {
        "made with": f"fluids {fluids.__version__}, scipy {scipy.__version__}",
        "units": "L/h, Pa, kg/m3, Pa s, m; lines: diameter, length, roughness, elbows, rise; filter: flow, loss",
        "systems": systems,
    }
    target = Path(__file__).parent.parent / "values" / "network.json"
    target.write_text(json.dumps(grids, indent=1) + "\n")


if __name__ == "__main__":
    main()
