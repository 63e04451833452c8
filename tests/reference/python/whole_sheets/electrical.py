"""Pump circuit, fuse, alternator, coil.

Gauges: least circular mils of vehicle wire (SAE J1127 and J1128, as tabled beside AWG in ABYC E-11, from memory), copper
of 58 MS/m (IEC 60028), 2 % for stranding; metric wire: largest resistance at 20 degC of ISO 6722-1, from memory; 0.00393
per kelvin. Blade sizes: ISO 8820-3, from memory. Fuse limit: 80 % of what wire of 105 degC carries in an engine space
(ABYC E-11, 0.85 of the current outside, from memory), between sizes by equal ratios.
Coil: series RL circuit. Engineering notes, section 18: the alternator carries every pump that runs at full load.
"""

from math import exp, log, pi

import numpy

from .figures import figure, get
from .fuel_system import pumps_at
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


def shares_circuit(s):
    return s.word("electrical.pump-circuit.shared", False)


@figure("pump-circuit-current")
def circuit_current(s):
    return s.number("fuel-system.pump.current") * (pumps_at(s, "full") if shares_circuit(s) else 1)


@figure("wire-resistance")
def resistance(s):
    return copper(
        s.number("electrical.pump-circuit.wire"), s.number("electrical.pump-circuit.wire-temperature", 333.15)
    )


@figure("pump-circuit-drop")
def drop(s):
    both_ways = 2 * s.number("electrical.pump-circuit.length")
    wire = get(s, "pump-circuit-current") * get(s, "wire-resistance") * both_ways
    return wire + s.number("electrical.pump-circuit.connectors")


@figure("pump-circuit-drop-share")
def drop_share(s):
    return get(s, "pump-circuit-drop") / s.number("electrical.charging-voltage")


@figure("pump-voltage")
def pump_voltage(s):
    return s.number("electrical.charging-voltage") - get(s, "pump-circuit-drop")


@figure("fuse-needed")
def fuse_needed(s):
    least = get(s, "pump-circuit-current") / s.limit("fuse-share")
    return next(size for size in BLADES if size >= least - 1e-9)


@figure("fuse-limit")
def fuse_limit(s):
    area = log(copper_area(s.number("electrical.pump-circuit.wire")))
    areas = [log(LEAST_COPPER[gauge] * CIRCULAR_MIL) for gauge in CARRIES]
    carried = exp(numpy.interp(area, areas, [log(current) for current in CARRIES.values()])) * ENGINE_SPACE
    return max(size for size in BLADES if size <= FUSED_AT * carried + 1e-9)


@figure("charging-reserve")
def reserve(s):
    pumps = s.number("fuel-system.pump.current") * pumps_at(s, "full")
    computer = s.number("electrical.computer-load", USUAL_COMPUTER)
    return s.number("electrical.charging-current") - pumps - s.number("electrical.other-load") - computer


@figure("cranking-drop")
def cranking(s):
    cable = copper(s.number("electrical.battery.cable"), 293.15)
    return (
        s.number("electrical.battery.cranking-current", 200.0) * cable * s.number("electrical.battery.cable-length")
    )


def primary(s):
    """Voltage, resistance and inductance of the primary circuit."""
    ballast = s.number("ignition.coil.ballast", 0.0)
    whole = s.number("ignition.coil.resistance") + ballast
    return s.number("electrical.charging-voltage"), whole, s.number("ignition.coil.inductance")


@figure("dwell-available")
def dwell(s):
    primary(s)
    return 2 / (s.number("engine.redline") * s.number("engine.cylinders")) - SPARK


@figure("coil-current-redline")
def coil_current(s):
    volts, ohms, henry = primary(s)
    return volts / ohms * (1 - exp(-get(s, "dwell-available") * ohms / henry))


@figure("coil-energy-redline")
def coil_energy(s):
    return primary(s)[2] * get(s, "coil-current-redline") ** 2 / 2


@figure("coil-current-steady")
def coil_steady(s):
    volts, ohms, _ = primary(s)
    return volts / ohms


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


@figure("timing-full-load")
def full_load_timing(s):
    """The sheet's own timing less its own retard for boost and for nitrous."""
    boost = get(s, "_boost")
    per_boost = s.number("ignition.retard-per-boost") if boost else 0.0
    nitrous = s.number("ignition.nitrous-retard") if s.at("stage.nitrous") else 0.0
    return s.number("ignition.total-timing") - per_boost * boost - nitrous
