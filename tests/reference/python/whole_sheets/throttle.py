"""Throttle body: compressible flow through the bores and the stack above the flange.

Mass flux of an ideal nozzle from rest, NACA Report 1135 (heat ratio 1.4). Test depressions 1.5 and 3.0 inHg and the
square root of two between them are common practice.
"""

from math import pi, sqrt

from scipy.optimize import brentq

from .air import AIR_GAS, HEAT_RATIO, SEA_LEVEL, air_ratio_on, charge_on, is_blow_through
from .figures import figure, get
from .quantities import FACTORS

USUAL_DISCHARGE = 0.75
CRITICAL = (2 / (HEAT_RATIO + 1)) ** (HEAT_RATIO / (HEAT_RATIO - 1))
STANDARD_DAY = 288.15


def flux(pressure, temperature, ratio):
    """Mass per area and time from rest at a pressure and temperature to a share of the pressure."""
    expansion = ratio ** (2 / HEAT_RATIO) - ratio ** ((HEAT_RATIO + 1) / HEAT_RATIO)
    return pressure / sqrt(AIR_GAS * temperature) * sqrt(2 * HEAT_RATIO / (HEAT_RATIO - 1) * expansion)


@figure("effective-area")
def area(s):
    bores = s.number("throttle-body.quantity") * s.number("throttle-body.bores.quantity")
    if s.at("throttle-body.rated-airflow"):
        return s.number("throttle-body.quantity") * rated_area(s)
    discharge = s.number("throttle-body.bores.discharge-coefficient", USUAL_DISCHARGE)
    return bores * discharge * pi * s.number("throttle-body.bores.diameter") ** 2 / 4


def rated_area(s):
    """The area that passes the maker's airflow at the maker's depression, sea-level standard air ahead of it."""
    ratio = 1 - s.number("throttle-body.rated-pressure-drop") / SEA_LEVEL
    mass = s.number("throttle-body.rated-airflow") * SEA_LEVEL / (AIR_GAS * STANDARD_DAY)
    return mass / flux(SEA_LEVEL, STANDARD_DAY, ratio)


def upstream(s, day):
    """Pressure and temperature ahead of the plates on a day; boosted and cooled in a blow-through."""
    return charge_on(s, day) if is_blow_through(s) else (day.pressure, day.temperature)


def air_on(s, day):
    """Air the engine takes on a day: that of the claim, by the share of the day."""
    return get(s, "air-demand") * air_ratio_on(s, day)


def drop(s, day):
    pressure, temperature = upstream(s, day)
    wanted = air_on(s, day) / get(s, "effective-area")
    ratio = brentq(lambda r: flux(pressure, temperature, r) - wanted, CRITICAL, 1, xtol=1e-15)
    return pressure * (1 - ratio)


@figure("depression")
def depression(s):
    return drop(s, get(s, "_hottest"))


@figure("depression-coldest-day")
def depression_cold(s):
    return drop(s, get(s, "_coldest"))


def rating(s, inches):
    ratio = 1 - inches * FACTORS["inHg"] / SEA_LEVEL
    return get(s, "effective-area") * flux(SEA_LEVEL, STANDARD_DAY, ratio) / (SEA_LEVEL / (AIR_GAS * STANDARD_DAY))


@figure("airflow-four-bore")
def four_bore(s):
    return rating(s, 1.5)


@figure("airflow-two-bore")
def two_bore(s):
    return rating(s, 3.0)


@figure("airflow-two-bore-trade")
def two_bore_trade(s):
    return rating(s, 1.5) * sqrt(3.0 / 1.5)


@figure("airflow-needed")
def airflow_needed(s):
    pressure, temperature = upstream(s, get(s, "_hottest"))
    return air_on(s, get(s, "_hottest")) * AIR_GAS * temperature / pressure


@figure("airflow-share")
def airflow_share(s):
    return get(s, "airflow-needed") / get(s, "airflow-four-bore")


@figure("stack-height")
def stack_height(s):
    below = s.number("stack.adapter.thickness", 0.0) + s.number("stack.spacer", 0.0)
    return below + s.number("throttle-body.height") + s.number("stack.air-cleaner")


@figure("hood-gap")
def hood_gap(s):
    return s.number("vehicle.hood-clearance") - get(s, "stack-height")
