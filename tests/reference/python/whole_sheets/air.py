"""Air of the site and what a blower makes of it.

ISO 2533:1975 (pressure, standard temperature); ideal gas; compressor and intercooler by their definitions of efficiency
and effectiveness (Heywood, section 6.8); end of compression by a polytrope of 1.3 (Heywood, section 9.2.2).
"""

from .figures import figure, get
from .sheet import Missing

SEA_LEVEL = 101325.0
AIR_GAS = 287.05287
HEAT_RATIO = 1.4
AIR_HEAT = 1005.0  # J/(kg K)
USUAL_EFFICIENCY = {"roots": 0.55, "centrifugal": 0.70, "turbo": 0.70}  # common practice, as hover says


def induction(s):
    return s.word("stage.induction", "natural")


def is_boosted(s):
    return induction(s) != "natural"


def is_blow_through(s):
    usual = "draw-through" if induction(s) == "roots" else "blow-through"
    return is_boosted(s) and s.word("stage.path", usual) == "blow-through"


@figure("site-pressure")
def site_pressure(s):
    return SEA_LEVEL * (1 - 0.0065 * s.number("site.altitude") / 288.15) ** 5.25588


@figure("site-density")
def site_density(s):
    standard = 288.15 - 0.0065 * s.number("site.altitude")
    return get(s, "site-pressure") / (AIR_GAS * standard)


@figure("hot-day-density")
def hot_day_density(s):
    return get(s, "site-pressure") / (AIR_GAS * s.number("site.hottest"))


@figure("_boost")
def boost(s):
    return float(s.number("stage.boost")) if is_boosted(s) else 0.0


@figure("sensor-pressure")
def sensor_pressure(s):
    return SEA_LEVEL + get(s, "_boost")


@figure("manifold-pressure")
def manifold_pressure(s):
    if not is_boosted(s):
        raise Missing("boost")
    return get(s, "site-pressure") + get(s, "_boost")


@figure("pressure-ratio")
def pressure_ratio(s):
    return get(s, "manifold-pressure") / get(s, "site-pressure")


@figure("blower-outlet-temperature")
def outlet_temperature(s):
    efficiency = s.number("stage.compressor-efficiency", USUAL_EFFICIENCY.get(induction(s)))
    ideal_rise = get(s, "pressure-ratio") ** ((HEAT_RATIO - 1) / HEAT_RATIO) - 1
    return s.number("site.hottest") * (1 + ideal_rise / efficiency)


@figure("charge-temperature")
def charge_temperature(s):
    behind, day = get(s, "blower-outlet-temperature"), s.number("site.hottest")
    return behind - s.number("stage.intercooler-effectiveness", 0.0) * (behind - day)


@figure("density-ratio")
def density_ratio(s):
    return get(s, "pressure-ratio") * s.number("site.hottest") / get(s, "charge-temperature")


@figure("charge-density")
def charge_density(s):
    return get(s, "site-density") * get(s, "density-ratio")


def manifold_density(s):
    return get(s, "charge-density" if is_boosted(s) else "site-density")


def absolute_manifold(s):
    return get(s, "site-pressure") + get(s, "_boost")


def charge_heat(s):
    return get(s, "charge-temperature") if is_boosted(s) else s.number("site.hottest")


@figure("effective-compression")
def effective_compression(s):
    """Counts pressure over that of sea level; thin air does not make the engine's own ratio smaller."""
    return s.number("engine.compression-ratio") * max(1.0, absolute_manifold(s) / SEA_LEVEL)


@figure("compression-end-pressure")
def end_pressure(s):
    return absolute_manifold(s) * s.number("engine.compression-ratio") ** 1.3


@figure("compression-end-temperature")
def end_temperature(s):
    return charge_heat(s) * s.number("engine.compression-ratio") ** 0.3


@figure("idle-vacuum")
def idle_vacuum(s):
    s.number("engine.idle-manifold-pressure")
    return get(s, "site-pressure") - idle_manifold(s)


def idle_manifold(s):
    reading = s.number("engine.idle-manifold-pressure", 40e3)
    return get(s, "site-pressure") - reading if getattr(reading, "is_vacuum", False) else reading
