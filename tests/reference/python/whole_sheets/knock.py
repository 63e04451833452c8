"""Knock at full load: relative index and limited spark.

Delay 17.68 ms (ON/100)^3.402 p^-1.7 exp(3800/T), p in atm: Douaud and Eyzat, SAE 780080 (1978); integral of dt / delay:
Livengood and Wu (1955); both as quoted in Heywood, section 9.6, from memory. One zone: p V^1.3 grows by 0.3 V^0.3 dQ, the
heat by Wiebe (a = 5, m = 2) over 60 degrees from the spark, 1.9 MJ per kg of charge; end gas by a polytrope of 1.32; rod
over crank 3.5. Engineering notes, section 16: reference engine 9.5 to 1 for iron heads, 10.5 for aluminum, 91 AKI, 34
degrees, 3,000 rpm, 330 K. Here on steps of a tenth of a degree, all at once; generate_knock.py solves the same as a
differential equation.

Charge: 32 K over the air behind the blower (25 degC closes in at 330 K), less what 0.4 of the fuel's heat of evaporation
cools more than gasoline's would, and half of the 256 kJ/kg of nitrous oxide; heats of evaporation 150, 396 and 506 Btu/lb
(AFDC). Closing of the intake valve: 20 degrees after the 0.050 in mark of a cam centered at 108 degrees; 50 where nobody
says. Air at the lowest altitude, of 25 degC and of the hottest day. All common practice.
"""

from math import exp, log

import numpy
from scipy.integrate import trapezoid
from scipy.optimize import brentq

from .air import AIR_GAS, AIR_HEAT, SEA_LEVEL, Air, charge_on, induction
from .figures import figure, get
from .fuels import air_ratio
from .quantities import PSI
from .sheet import Missing

ROD, WIEBE_A, WIEBE_M, BURN, HEAT, GAMMA, END_GAS = 3.5, 5.0, 2.0, 60.0, 1.9e6, 1.3, 1.32
RATIO = {"iron": 9.5, "aluminum": 10.5}
LATEST, EARLIEST = -12.0, 48.0
EVAPORATION = {"gasoline": 150 * 2326.0, "ethanol": 396 * 2326.0, "methanol": 506 * 2326.0}
OCTANE = {"ethanol": 99.0, "methanol": 99.0, "gasoline": 84.0}  # what is mixed with much alcohol; from memory
WARM = 298.15
ADVANCE = {"natural": 34.0}
BOOSTED_ADVANCE = 32.0
LEAST_UNDER_BOOST = 10.0


def volume(ratio, degrees):
    """Over the swept volume; Heywood eq. 2.6."""
    angle = numpy.radians(degrees)
    return 1 / (ratio - 1) + (ROD + 1 - numpy.cos(angle) - numpy.sqrt(ROD**2 - numpy.sin(angle) ** 2)) / 2


def logarithm(ratio, closing, pressure, temperature, octane, energy, spark, seconds=1 / 18000):
    """Of the integral from the closing of the valve to the end of the burn; seconds for a degree, 3,000 rpm."""
    degrees = numpy.concatenate(
        [numpy.linspace(closing - 180, -spark, 1200), numpy.linspace(-spark, BURN - spark, 600)[1:]]
    )
    v = volume(ratio, degrees)
    progress = numpy.clip((degrees + spark) / BURN, 0, 1)
    share = 1 - numpy.exp(-WIEBE_A * progress ** (WIEBE_M + 1))
    heat = HEAT * energy * pressure * v[0] / (AIR_GAS * temperature)
    middle = ((v[1:] + v[:-1]) / 2) ** (GAMMA - 1)
    grown = (GAMMA - 1) * heat * numpy.concatenate([[0.0], numpy.cumsum(middle * numpy.diff(share))])
    p = (pressure * v[0] ** GAMMA + grown) / v**GAMMA
    end_gas = temperature * (p / pressure) ** ((END_GAS - 1) / END_GAS)
    delay = 0.01768 * (octane / 100) ** 3.402 * (p / SEA_LEVEL) ** -1.7 * numpy.exp(3800 / end_gas)
    return log(trapezoid(1 / delay, degrees) * seconds)


REFERENCE = {head: logarithm(ratio, 50, SEA_LEVEL, 330, 91, 1, 34) for head, ratio in RATIO.items()}


@figure("_closing")
def closing(s):
    if s.at("engine.intake-closing") is not None:
        return s.number("engine.intake-closing")
    if s.at("engine.cam-duration") is None:
        return 50.0
    return 108 + (s.number("engine.cam-duration") + 40) / 2 - 180


@figure("_octane")
def octane(s):
    parts = get(s, "_blend").volume
    if 1 - parts.get("gasoline", 0.0) >= 0.5:
        return s.number("fuel.octane", sum(share * OCTANE[name] for name, share in parts.items()))
    return s.number("fuel.octane")


@figure("_evaporation-cooling")
def evaporation_cooling(s):
    """More than gasoline cools at the same lambda."""
    blend = get(s, "_blend").by_mass(EVAPORATION.get) / get(s, "stoichiometric-ratio")
    return 0.4 / (get(s, "_lambda") * AIR_HEAT) * (blend - EVAPORATION["gasoline"] / air_ratio("gasoline"))


@figure("_nitrous-cooling")
def nitrous_cooling(s):
    return 0.5 * 256e3 * get(s, "nitrous-flow") / (get(s, "air-demand") * AIR_HEAT) if s.at("stage.nitrous") else 0.0


def charge(s, temperature):
    pressure, behind = charge_on(s, Air(get(s, "low-site-pressure"), temperature))
    return pressure, behind + 330 - 298.15 - get(s, "_evaporation-cooling") - get(s, "_nitrous-cooling")


@figure("charge-pressure-at-closing")
def closing_pressure(s):
    return charge(s, WARM)[0]


@figure("charge-temperature-at-closing")
def closing_temperature(s):
    return charge(s, WARM)[1]


@figure("charge-temperature-at-closing-hottest-day")
def closing_temperature_hot(s):
    return charge(s, s.number("site.hottest", 308.15))[1]


@figure("nitrous-energy-ratio")
def nitrous_energy(s):
    return 1 + s.number("stage.nitrous.power") / get(s, "_crank-power")


@figure("_boost-retard")
def boost_retard(s):
    return s.number("ignition.retard-per-boost", 1 / PSI) * get(s, "_boost")


@figure("_nitrous-retard-taken")
def nitrous_retard_taken(s):
    return s.number("ignition.nitrous-retard", get(s, "nitrous-retard")) if s.at("stage.nitrous") else 0.0


def less_retard(s, advance):
    under_boost = max(advance - get(s, "_boost-retard"), min(advance, LEAST_UNDER_BOOST))
    return under_boost - get(s, "_nitrous-retard-taken")


@figure("full-load-spark")
def full_load_spark(s):
    """The sheet's total timing, else 34 degrees natural and 32 before boost is taken out, less the retards."""
    return less_retard(s, s.number("ignition.total-timing", ADVANCE.get(induction(s), BOOSTED_ADVANCE)))


def at_spark(s, temperature):
    energy = get(s, "nitrous-energy-ratio") if s.at("stage.nitrous") else 1.0
    head = s.word("engine.head-material", "iron")
    parts = (s.number("engine.compression-ratio"), get(s, "_closing"), get(s, "charge-pressure-at-closing"))
    state = (temperature, get(s, "_octane"), energy)
    return lambda spark: logarithm(*parts, *state, spark) - REFERENCE[head]


def limited(excess):
    if excess(EARLIEST) <= 0:
        return EARLIEST
    if excess(LATEST) >= 0:
        return LATEST
    return brentq(excess, LATEST, EARLIEST, xtol=1e-6)


@figure("knock-index")
def knock_index(s):
    return exp(at_spark(s, get(s, "charge-temperature-at-closing"))(get(s, "full-load-spark")))


@figure("knock-index-hottest-day")
def knock_index_hot(s):
    return exp(at_spark(s, get(s, "charge-temperature-at-closing-hottest-day"))(get(s, "full-load-spark")))


@figure("knock-limited-spark")
def limited_spark(s):
    return limited(at_spark(s, get(s, "charge-temperature-at-closing")))


@figure("knock-limited-spark-hottest-day")
def limited_spark_hot(s):
    return limited(at_spark(s, get(s, "charge-temperature-at-closing-hottest-day")))


@figure("timing-full-load")
def full_load_timing(s):
    """The sheet's own timing less its retards, and no more than the knock-limited spark of the hottest day."""
    own = less_retard(s, s.number("ignition.total-timing"))
    try:
        return min(own, get(s, "knock-limited-spark-hottest-day"))
    except Missing:
        return own
