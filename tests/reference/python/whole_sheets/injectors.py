"""Injectors: orifice flow at the pressure across them, time in the cycle, turndown at idle.

Pressure across: rail gauge pressure plus site pressure less the absolute pressure where the fuel comes out. Above the
plates that is the air of the site, or boost in a blow-through; below the plates the manifold, or the suction of a
blower that draws. Kinematics: a cycle takes two turns.
"""

from math import sqrt

import numpy

from .air import AIR_GAS, absolute_manifold, idle_manifold, is_blow_through
from .demand import through_injectors
from .figures import figure, get
from .sheet import Missing

IDLE_FILLING, IDLE_TEMPERATURE = 0.5, 313.0  # common practice


def is_below(s):
    return s.word("throttle-body.injectors.discharge", "above-throttle") == "below-throttle"


def is_referenced(s):
    return s.word("fuel-system.regulator.reference", "atmosphere") == "manifold"


@figure("injector-count")
def count(s):
    return s.number("throttle-body.quantity") * s.number("throttle-body.injectors.quantity")


@figure("dead-time")
def dead_time(s):
    return dead_time_at(s, s.number("electrical.charging-voltage"))


def dead_time_at(s, voltage):
    """By the sheet's table, straight between its points; outside them with the square of the voltage, common practice."""
    if s.at("throttle-body.injectors.dead-time-at"):
        points = s.points("throttle-body.injectors.dead-time-at")
        near = min(max(voltage, points[0][0]), points[-1][0])
        return numpy.interp(near, *zip(*points)) * (near / voltage) ** 2
    measured_at = s.number("throttle-body.injectors.dead-time-voltage", 14.0)
    return s.number("throttle-body.injectors.dead-time") * (measured_at / voltage) ** 2


@figure("rail-pressure-set")
def rail_set(s):
    boost = get(s, "_boost") if is_referenced(s) else 0.0
    return s.number("fuel-system.regulator.pressure") + boost


def idle_set(s):
    """A referenced regulator follows the manifold down: the rail falls by the vacuum."""
    vacuum = get(s, "site-pressure") - idle_manifold(s) if is_referenced(s) else 0.0
    return s.number("fuel-system.regulator.pressure") - vacuum


@figure("discharge-pressure")
def tip(s):
    site = get(s, "site-pressure")
    if is_blow_through(s):
        return absolute_manifold(s)
    return site  # full load: no vacuum below the plates, and no boost ahead of a blower that draws


@figure("injector-pressure")
def across(s):
    """With the pressure that reaches the injectors, which a long line from a regulator in the tank lowers."""
    try:
        rail = get(s, "rail-pressure")
    except Missing:
        rail = get(s, "rail-pressure-set")
    return rail + get(s, "site-pressure") - get(s, "discharge-pressure")


def flow_at(s, pressure):
    rated = s.number("throttle-body.injectors.rated-pressure")
    return s.number("throttle-body.injectors.static-flow") * sqrt(pressure / rated)


@figure("injector-flow")
def static_flow(s):
    return flow_at(s, get(s, "injector-pressure"))


@figure("demand-per-injector")
def per_injector(s):
    return through_injectors(s) / get(s, "injector-count")


def pulses(s):
    """Pulses of one injector in a cycle."""
    cylinders = s.number("engine.cylinders")
    return {"once-per-cycle": 1, "twice-per-cycle": 2, "alternating": cylinders / 2, "every-ignition-event": cylinders}[
        s.word("throttle-body.injectors.firing", "twice-per-cycle")
    ]


def dead_share(s, speed):
    """Share of the time that dead times take."""
    return get(s, "dead-time") * pulses(s) * speed / 2


def duty(s, speed, load=1.0):
    return load * get(s, "demand-per-injector") / get(s, "injector-flow") + dead_share(s, speed)


@figure("duty-peak-power")
def duty_peak(s):
    return duty(s, s.number("engine.peak-power-speed"))


@figure("duty-redline")
def duty_redline(s):
    return duty(s, s.number("engine.redline"))


@figure("duty-highest")
def duty_highest(s):
    """Torque flat up to peak power, fuel flat beyond it: nothing is higher than at the highest speed."""
    peak = s.number("engine.peak-power-speed")
    speeds = numpy.linspace(s.number("engine.idle"), s.number("engine.redline"), 901)
    return max(duty(s, speed, min(1.0, speed / peak)) for speed in speeds)


@figure("duty-coldest-day")
def duty_cold(s):
    """At the highest speed, with the fuel of the coldest, lowest day."""
    each = get(s, "demand-coldest-day") / get(s, "injector-count")
    return each / get(s, "injector-flow") + dead_share(s, highest_speed(s))


@figure("_largest-duty")
def largest_duty(s):
    return s.number("throttle-body.injectors.largest-duty", s.limit("largest-duty"))


def highest_speed(s):
    return max(s.number("engine.peak-power-speed"), s.number("engine.redline"))


@figure("required-static-flow")
def required_flow(s):
    return get(s, "demand-per-injector") / (get(s, "_largest-duty") - dead_share(s, highest_speed(s)))


@figure("pressure-for-required-flow")
def required_across(s):
    ratio = get(s, "required-static-flow") / s.number("throttle-body.injectors.static-flow")
    return s.number("throttle-body.injectors.rated-pressure") * ratio**2


@figure("power-covered-high")
def covered_high(s):
    open_share = get(s, "_largest-duty") - dead_share(s, highest_speed(s))
    return get(s, "injector-count") * get(s, "injector-flow") * open_share / get(s, "_consumption")


@figure("idle-air")
def idle_air(s):
    swept = s.number("engine.displacement") * s.number("engine.idle") / 2
    return swept * IDLE_FILLING * idle_manifold(s) / (AIR_GAS * IDLE_TEMPERATURE)


@figure("idle-fuel")
def idle_fuel(s):
    return get(s, "idle-air") / get(s, "stoichiometric-ratio")


@figure("_idle-rail")
def idle_rail(s):
    """What stands at the injectors at idle: the network's answer, so that a return that backs up counts."""
    try:
        return get(s, "idle-rail-pressure")
    except Missing:
        return idle_set(s)


@figure("idle-injector-flow")
def idle_flow(s):
    """Closed plates: the air of the site above them, the manifold below them."""
    outside = idle_manifold(s) if is_below(s) else get(s, "site-pressure")
    return flow_at(s, get(s, "_idle-rail") + get(s, "site-pressure") - outside)


@figure("idle-pulse")
def idle_pulse(s):
    pulses_per_second = pulses(s) * s.number("engine.idle") / 2
    each = get(s, "idle-fuel") / get(s, "injector-count") / pulses_per_second
    return each / get(s, "idle-injector-flow") + get(s, "dead-time")


@figure("idle-pulse-margin")
def idle_margin(s):
    return get(s, "idle-pulse") / s.number("throttle-body.injectors.shortest-pulse")


@figure("power-covered-low")
def covered_low(s):
    open_time = s.number("throttle-body.injectors.shortest-pulse") - get(s, "dead-time")
    pulses_per_second = pulses(s) * s.number("engine.idle") / 2
    least = get(s, "injector-count") * get(s, "idle-injector-flow") * open_time * pulses_per_second
    return get(s, "_crank-power") * least / get(s, "idle-fuel")
