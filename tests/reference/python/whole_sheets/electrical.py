"""Pump circuit, fuse, alternator, coil.

Gauges: least circular mils of vehicle wire (SAE J1127 and J1128, as tabled beside AWG in ABYC E-11, from memory), copper
of 58 MS/m (IEC 60028), 2 % for stranding; metric wire: largest resistance at 20 degC of ISO 6722-1, from memory; 0.00393
per kelvin. Blade sizes: ISO 8820-3, from memory. Fuse limit: 80 % of what wire of 105 degC carries in an engine space
(ABYC E-11, 0.85 of the current outside, from memory), between sizes by equal ratios.
Coil: series RL circuit. Engineering notes, section 18: the alternator carries every pump that runs at full load, the lift
pump and the fan; 0.3 V for connectors, relay and fuse and 0.1 V more for a way back through the chassis; the limit of the
drop is for the wire alone; a lift pump's flow goes with its voltage; a battery holds 10 V while it cranks.
"""

from math import exp, log, pi

import numpy

from .figures import figure, get
from .fuel_system import pumps_at
from .injectors import dead_time_at
from .quantities import INCH, gauge_area
from .sheet import Missing

COPPER = 58e6  # S/m
STRANDING = 1.02
PER_KELVIN = 0.00393
CIRCULAR_MIL = pi / 4 * (INCH / 1000) ** 2
LEAST_COPPER = {18: 1537, 16: 2336, 14: 3702, 12: 5833, 10: 9343, 8: 14810, 6: 24538, 0: 98980}  # circular mils
ISO_6722 = {1: 18.5, 1.5: 12.7, 2.5: 7.60, 4: 4.71, 6: 3.14, 10: 1.82, 16: 1.16}  # mohm/m
BLADES = [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80]
CARRIES = {18: 20, 16: 25, 14: 35, 12: 45, 10: 60, 8: 80, 6: 120}  # A outside engine spaces
ENGINE_SPACE, FUSED_AT = 0.85, 0.80
USUAL_COMPUTER = 15.0
SPARK = 1e-3


def copper_area(wire):
    """Least copper of a vehicle wire; a metric one is taken at its name."""
    if wire.metric_wire:
        return float(wire)
    gauge = next(gauge for gauge in LEAST_COPPER if abs(gauge_area(gauge) / wire - 1) < 1e-6)
    return LEAST_COPPER[gauge] * CIRCULAR_MIL


def copper(wire, temperature):
    """Resistance of one meter."""
    if wire.metric_wire:
        cold = ISO_6722[round(wire * 1e6, 2)] * 1e-3
    else:
        cold = STRANDING / (COPPER * copper_area(wire))
    return cold * (1 + PER_KELVIN * (temperature - 293.15))


def runs_together(s):
    return pumps_at(s, "full") > 1


@figure("pump-circuit-current")
def circuit_current(s):
    one = s.number("fuel-system.pump.current")
    if not runs_together(s):
        return one
    if s.at("electrical.pump-circuit.shared") is None:
        raise Missing("electrical.pump-circuit.shared")
    return one * (pumps_at(s, "full") if s.at("electrical.pump-circuit.shared") else 1)


def has_lift_pump(s):
    return s.at("fuel-system.lift-pump") is not None or s.at("fuel-system.pump.fed-by") == "lift-pump"


@figure("lift-pump-circuit-current")
def lift_current(s):
    if not has_lift_pump(s):
        raise Missing("fuel-system.lift-pump")
    return s.number("fuel-system.lift-pump.current")


@figure("fan-circuit-current")
def fan_current(s):
    return s.number("electrical.fan-load")


def circuit(load):
    """Declares the figures of one circuit."""
    path = f"electrical.{load}-circuit"

    def through_chassis(s):
        return s.at(f"{path}.ground") == "chassis"

    @figure(f"{load}-wire-resistance")
    def resistance(s):
        return copper(s.number(f"{path}.wire"), s.number(f"{path}.wire-temperature", 333.15))

    @figure(f"{load}-wire-drop")
    def wire_drop(s):
        ways = 1 if through_chassis(s) else 2
        amps, ohms = get(s, f"{load}-circuit-current"), get(s, f"{load}-wire-resistance")
        return amps * ohms * ways * s.number(f"{path}.length")

    @figure(f"{load}-wire-drop-share")
    def drop_share(s):
        return get(s, f"{load}-wire-drop") / s.number("electrical.charging-voltage")

    @figure(f"{load}-circuit-drop")
    def drop(s):
        contacts = s.number(f"{path}.connectors", 0.3)
        return get(s, f"{load}-wire-drop") + contacts + (0.1 if through_chassis(s) else 0.0)

    @figure(f"{load}-voltage")
    def voltage(s):
        return s.number("electrical.charging-voltage") - get(s, f"{load}-circuit-drop")

    @figure(f"{load}-fuse-needed")
    def fuse_needed(s):
        least = get(s, f"{load}-circuit-current") / s.limit("fuse-share")
        return next(size for size in BLADES if size >= least - 1e-9)

    @figure(f"{load}-fuse-limit")
    def fuse_limit(s):
        area = log(copper_area(s.number(f"{path}.wire")))
        areas = [log(LEAST_COPPER[gauge] * CIRCULAR_MIL) for gauge in CARRIES]
        carried = exp(numpy.interp(area, areas, [log(current) for current in CARRIES.values()])) * ENGINE_SPACE
        return max(size for size in BLADES if size <= FUSED_AT * carried + 1e-9)


for load in ("pump", "lift-pump", "fan"):
    circuit(load)


@figure("lift-pump-delivery")
def lift_delivery(s):
    share = get(s, "lift-pump-voltage") / s.number("fuel-system.lift-pump.rated-voltage", 13.5)
    return s.number("fuel-system.lift-pump.flow") * share


@figure("lift-pump-margin")
def lift_margin(s):
    return get(s, "lift-pump-delivery") / get(s, "required-delivery") - 1


@figure("charging-reserve")
def reserve(s):
    pumps = s.number("fuel-system.pump.current") * pumps_at(s, "full")
    lift = get(s, "lift-pump-circuit-current") if has_lift_pump(s) else 0.0
    fan = s.number("electrical.fan-load", 0.0)
    computer = s.number("electrical.computer-load", USUAL_COMPUTER)
    others = s.number("electrical.other-load") + computer
    return s.number("electrical.charging-current") - pumps - lift - fan - others


@figure("cranking-drop")
def cranking(s):
    cable = copper(s.number("electrical.battery.cable"), 293.15)
    return (
        s.number("electrical.battery.cranking-current", 200.0) * cable * s.number("electrical.battery.cable-length")
    )


@figure("cranking-computer-voltage")
def cranking_computer(s):
    """A computer grounded at the post sees the whole battery; elsewhere the ground cable's drop is missing."""
    battery = s.number("electrical.battery.cranking-voltage", 10.0)
    if s.at("electrical.computer-ground") == "battery":
        return battery
    cable = copper(s.number("electrical.battery.ground-cable"), 293.15) * s.number("electrical.battery.ground-length")
    return battery - s.number("electrical.battery.cranking-current", 200.0) * cable


@figure("cranking-dead-time")
def cranking_dead_time(s):
    volts = get(s, "cranking-computer-voltage")
    return dead_time_at(s, volts)


def driving_voltage(s):
    """What charges the coil: the supply less what driver and feed lose, 1 to 1.5 V (engineering notes, section 18)."""
    return s.number("electrical.charging-voltage") - s.number("ignition.feed-loss", 1.25)


def ballast(s):
    return s.number("ignition.coil.ballast", 0.0)


def primary(s):
    """Voltage, resistance and inductance of the primary circuit."""
    whole = s.number("ignition.coil.resistance") + ballast(s)
    return driving_voltage(s), whole, s.number("ignition.coil.inductance")


@figure("dwell-available")
def dwell(s):
    """Sparks of one coil in a cycle: cylinders over coils."""
    primary(s)
    sparks = s.number("engine.cylinders") / s.number("ignition.coil.quantity", 1.0)
    return 2 / (s.number("engine.redline") * sparks) - SPARK


@figure("coil-current-redline")
def coil_current(s):
    volts, ohms, henry = primary(s)
    return volts / ohms * (1 - exp(-get(s, "dwell-available") * ohms / henry))


@figure("coil-energy-redline")
def coil_energy(s):
    """The driver holds the coil at its working current."""
    held = min(get(s, "coil-current-redline"), s.number("ignition.coil.working-current", float("inf")))
    return primary(s)[2] * held**2 / 2


@figure("coil-current-steady")
def coil_steady(s):
    volts, ohms, _ = primary(s)
    return volts / ohms


@figure("coil-heat")
def coil_heat(s):
    return get(s, "coil-current-steady") ** 2 * s.number("ignition.coil.resistance")


@figure("ballast-heat")
def ballast_heat(s):
    if not ballast(s):
        raise Missing("ignition.coil.ballast")
    return get(s, "coil-current-steady") ** 2 * ballast(s)


@figure("coil-voltage")
def coil_voltage(s):
    volts, ohms, _ = primary(s)
    return volts * s.number("ignition.coil.resistance") / ohms


@figure("coil-charge-time")
def charge_time(s):
    volts, ohms, henry = primary(s)
    short = 1 - s.number("ignition.coil.working-current") * ohms / volts
    if short <= 0:
        raise Missing("a current the coil reaches")
    return -henry / ohms * log(short)
