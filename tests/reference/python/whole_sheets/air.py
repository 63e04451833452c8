"""Air of the site and what a blower makes of it.

ISO 2533:1975 (pressure, standard temperature); ideal gas; compressor and intercooler by their definitions of efficiency
and effectiveness (Heywood, section 6.8); end of compression by a polytrope of 1.3 (Heywood, section 9.2.2).

Claims and days (engineering notes, section 14): SAE J1349 holds in dry air of 99 kPa and 25 degC, its factor is
1.18 (99 kPa / p) sqrt(T / 298.15 K) - 0.18; SAE J607 in 29.92 inHg and 60 degF without friction; a claim as driven in the
standard atmosphere of the site. Relative humidity 30 %, vapor by Magnus (WMO No. 8). Air mass follows p_dry / sqrt(T)
of the charge: a natural engine takes the air as it is, a blower on the crank keeps its pressure ratio, a turbo its boost.
"""

from math import exp, sqrt

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


@figure("_claim-density")
def claim_density(s):
    """Of the dry air a standard names; a claim as driven holds in the standard atmosphere of the site."""
    air = get(s, "_claim")
    if s.word("stage.power-condition", "as-driven") == "as-driven":
        return get(s, "site-density")
    return air.dry / (AIR_GAS * air.temperature)


@figure("site-density")
def site_density(s):
    standard = 288.15 - 0.0065 * s.number("site.altitude")
    return get(s, "site-pressure") / (AIR_GAS * standard)


def pressure_at(altitude):
    return SEA_LEVEL * (1 - 0.0065 * altitude / 288.15) ** 5.25588


@figure("high-site-pressure")
def high_site_pressure(s):
    return pressure_at(s.number("site.highest-altitude"))


@figure("_thin-air")
def thin_air(s):
    """The thinnest air the car meets."""
    return get(s, "site-pressure" if s.at("site.highest-altitude") is None else "high-site-pressure")


@figure("low-site-pressure")
def low_site_pressure(s):
    """The car may go down to the sea unless the sheet says how far."""
    return pressure_at(s.number("site.lowest-altitude", min(0.0, s.number("site.altitude", 0.0))))


@figure("hot-day-density")
def hot_day_density(s):
    return get(s, "_thin-air") / (AIR_GAS * s.number("site.hottest"))


class Air:
    """Pressure, pressure without the water vapor, and temperature."""

    def __init__(self, pressure, temperature, dry=None):
        vapor = 0.3 * 611.2 * exp(17.62 * (temperature - 273.15) / (temperature - 30.03))
        self.pressure, self.temperature = pressure, temperature
        self.dry = pressure - vapor if dry is None else dry


STANDARD = Air(100e3, 298.15, dry=99e3)
OLDER = Air(SEA_LEVEL, (60 + 459.67) / 1.8, dry=SEA_LEVEL)


@figure("_ordinary")
def ordinary(s):
    return Air(get(s, "site-pressure"), 288.15 - 0.0065 * s.number("site.altitude", 0.0))


@figure("_claim")
def claim(s):
    """The air in which the power of the sheet holds."""
    word = s.word("stage.power-condition", "as-driven")
    return {"standard": STANDARD, "older-standard": OLDER}.get(word) or get(s, "_ordinary")


@figure("_coldest")
def coldest(s):
    return Air(get(s, "low-site-pressure"), s.number("site.coldest", 273.15))


@figure("_hottest")
def hottest(s):
    return Air(get(s, "_thin-air"), s.number("site.hottest"))


def charge_on(s, day):
    """Pressure and temperature behind a blower whose boost was read in the air of the claim."""
    if not is_boosted(s):
        return day.pressure, day.temperature
    kept = get(s, "_claim").pressure if induction(s) != "turbo" else day.pressure
    ratio = (kept + get(s, "_boost")) / kept
    efficiency = s.number("stage.compressor-efficiency", USUAL_EFFICIENCY.get(induction(s)))
    hot = day.temperature * (1 + (ratio ** ((HEAT_RATIO - 1) / HEAT_RATIO) - 1) / efficiency)
    cooled = hot - s.number("stage.intercooler-effectiveness", 0.0) * (hot - day.temperature)
    return ratio * day.pressure, cooled


def air_taken(s, day):
    pressure, temperature = charge_on(s, day)
    return pressure * day.dry / day.pressure / sqrt(temperature)


def air_ratio_on(s, day):
    """Air mass on a day over that in the air of the claim."""
    return air_taken(s, day) / air_taken(s, get(s, "_claim"))


@figure("air-share-coldest-day")
def air_share_cold(s):
    return air_ratio_on(s, get(s, "_coldest"))


def j1349(air):
    return 1.18 * 99e3 / air.dry * sqrt(air.temperature / 298.15) - 0.18


def j607(air):
    return OLDER.dry / air.dry * sqrt(air.temperature / OLDER.temperature)


@figure("_boost")
def boost(s):
    return float(s.number("stage.boost")) if is_boosted(s) else 0.0


@figure("sensor-pressure")
def sensor_pressure(s):
    return get(s, "low-site-pressure") + get(s, "_boost")


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
    return get(s, "_claim-density") * get(s, "density-ratio")


def manifold_density(s):
    return get(s, "charge-density" if is_boosted(s) else "_claim-density")


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
