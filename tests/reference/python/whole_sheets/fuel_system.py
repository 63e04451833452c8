"""Pump, lines, filter and regulator as one network.

Darcy-Weisbach; laminar 64/Re, else Colebrook solved (fluids); fittings by equivalent length, 30 and 16 diameters with
the pipe's own friction factor (Crane TP-410); on the suction side by its other form, K = 30 and 16 times the factor of
the pipe in full turbulence, commercial steel of 45 um, where that is more: the safe side. Drawn tube, PTFE and nylon 1.5 um, rubber hose 10 um (Idelchik: smooth
rubber 6 to 70 um, from memory). A paper filter loses in proportion to flow (Darcy's
law in the medium). Pump: scipy's PCHIP through the points of the flow sheet; flow in proportion to voltage, or straight
between two curves. A bypass regulator holds its setting unless the return, with 10 kPa for the open valve, stands
higher. The flow is the unknown (brentq).
"""

from math import log10, pi

from fluids.friction import Colebrook
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

from .demand import through_pump
from .figures import figure, get
from .fuels import density_at
from .injectors import idle_set
from .sheet import Missing

GRAVITY = 9.80665
SMOOTH, RUBBER, STEEL = 1.5e-6, 10e-6, 45e-6
OPEN_VALVE = 10e3
EXTERNAL = "external"


def style(s):
    return s.word("fuel-system.regulator.style", "bypass")


def bore(s, line):
    return s.number(f"fuel-system.{line}.inside-diameter")


def velocity(s, line, flow):
    return flow / (pi * bore(s, line) ** 2 / 4)


def roughness(s, line):
    """Of a line of unknown material: rubber, the safe side."""
    return RUBBER if s.word(f"fuel-system.{line}.material", "rubber").startswith("rubber") else SMOOTH


def reynolds(s, line, flow):
    return velocity(s, line, flow) * bore(s, line) / get(s, "fuel-viscosity")


def is_clear_of_transition(s, line, flow):
    """Between Re 2000 and 4000 nobody knows the friction: no sheet may end there."""
    return not 2000 <= reynolds(s, line, flow) <= 4000


def friction(s, line, flow):
    """Pressure lost to friction in a line with its fittings."""
    if flow <= 0:
        return 0.0
    diameter = bore(s, line)
    speed = velocity(s, line, flow)
    number = reynolds(s, line, flow)
    factor = 64 / number if number < 2000 else Colebrook(number, roughness(s, line) / diameter)
    corners = 30 * s.number(f"fuel-system.{line}.elbows-90", 0.0) + 16 * s.number(f"fuel-system.{line}.elbows-45", 0.0)
    of_corners = max(factor, turbulent_factor(diameter)) if line == "suction" else factor
    resistance = factor * s.number(f"fuel-system.{line}.length") / diameter + of_corners * corners
    return resistance * get(s, "hot-fuel-density") * speed**2 / 2


def turbulent_factor(diameter):
    """Of commercial steel in full turbulence, by which Crane gives its fittings; von Karman's rough pipe."""
    return 0.25 / log10(STEEL / (3.7 * diameter)) ** 2


def filter_loss(s, which, flow):
    loss = s.number(f"fuel-system.{which}.loss", 0.0)
    return loss * flow / s.number(f"fuel-system.{which}.loss-at") if loss else 0.0


def head(s):
    return get(s, "hot-fuel-density") * GRAVITY * s.number("fuel-system.feed-rise", 0.0)


def return_head(s):
    """The return falls to the tank, from which an external pump may sit apart."""
    above = s.number("fuel-system.pump.height-above-outlet") if is_external(s) else 0.0
    return head(s) + get(s, "hot-fuel-density") * GRAVITY * above


def is_external(s):
    return s.word("fuel-system.pump.placement") == EXTERNAL


def pumps_at(s, load):
    """Pumps that deliver: a spare never, a staged second one only under load."""
    pumps = s.number("fuel-system.pump.quantity", 1.0)
    arrangement = s.word("fuel-system.pump.arrangement", "parallel")
    if arrangement == "spare" or (arrangement == "staged" and load == "idle"):
        return 1
    return int(pumps)


def curve(s, path):
    points = s.points(path)
    if len(points) < 2:
        raise Missing(path)
    through = PchipInterpolator(*zip(*points), extrapolate=False)
    return lambda pressure: float(through(pressure))


@figure("_pump")
def one_pump(s):
    """Flow of one pump by its pressure, at the voltage that reaches it."""
    rated, volts = s.number("fuel-system.pump.rated-voltage"), get(s, "pump-voltage")
    high = curve(s, "fuel-system.pump.flow-at")
    if s.at("fuel-system.pump.low-voltage") is None:
        return lambda pressure: high(pressure) * volts / rated
    low, measured = curve(s, "fuel-system.pump.low-voltage.flow-at"), s.number("fuel-system.pump.low-voltage.voltage")
    part = (volts - measured) / (rated - measured)
    return lambda pressure: low(pressure) + part * (high(pressure) - low(pressure))


def inlet_pressure(s, flow):
    """Gauge pressure at the pump inlet: submerged, that of the air; else what line, strainer and height leave of it."""
    if not is_external(s):
        return 0.0
    rise = s.number("fuel-system.pump.height-above-outlet")
    return -suction_loss(s, flow) - get(s, "hot-fuel-density") * GRAVITY * rise


def suction_loss(s, flow):
    return friction(s, "suction", flow) + filter_loss(s, "pre-filter", flow)


def rail(s, setting, flow, burned):
    """What the regulator holds, or what the return pushes back through the open valve."""
    if style(s) != "bypass":
        return setting
    back = friction(s, "return", flow - burned) - return_head(s)
    return max(setting, back + OPEN_VALVE)


class Point:
    """The operating point at a setting, a consumption and a number of pumps."""

    def __init__(self, s, setting, burned, pumps):
        self.pumps = pumps
        if style(s) == "internal-bypass":
            self.outlet = setting
            self.flow = pumps * get(s, "_pump")(setting)
            self.before_filter = setting - friction(s, "feed", burned) - head(s)
            self.rail = self.before_filter - filter_loss(s, "filter", burned)
            self.inlet = 0.0
            return

        def outlet(flow):
            return (
                rail(s, setting, flow, burned) + filter_loss(s, "filter", flow) + friction(s, "feed", flow) + head(s)
            )

        def surplus(flow):
            pressure = outlet(flow) - inlet_pressure(s, flow)
            first, last = s.points("fuel-system.pump.flow-at")[0][0], s.points("fuel-system.pump.flow-at")[-1][0]
            if pressure < first:
                return pumps * get(s, "_pump")(first) - flow
            if pressure > last:
                return pumps * get(s, "_pump")(last) - flow - 1e-6
            return pumps * get(s, "_pump")(pressure) - flow

        most = pumps * get(s, "_pump")(s.points("fuel-system.pump.flow-at")[0][0])
        self.flow = brentq(surplus, most * 0.3, most * 1.001, xtol=1e-15, rtol=1e-13)
        self.rail = rail(s, setting, self.flow, burned)
        self.before_filter = self.rail + filter_loss(s, "filter", self.flow)
        self.outlet = outlet(self.flow)
        self.inlet = inlet_pressure(s, self.flow)
        assert is_clear_of_transition(s, "feed", self.flow)


@figure("demand-volume")
def demand_volume(s):
    return through_pump(s) / get(s, "hot-fuel-density")


@figure("required-delivery")
def required_delivery(s):
    return get(s, "demand-volume") * (1 + s.limit("pump-reserve"))


@figure("_full")
def full(s):
    return Point(s, get(s, "rail-pressure-set"), get(s, "demand-volume"), pumps_at(s, "full"))


@figure("_idle")
def idle(s):
    burned = get(s, "idle-fuel") / get(s, "hot-fuel-density")
    return Point(s, idle_set(s), burned, pumps_at(s, "idle"))


@figure("_standing")
def standing(s):
    """All pumps run, the engine stands: the key is on and nothing is burned; the manifold holds the air of the site."""
    return Point(s, s.number("fuel-system.regulator.pressure"), 0.0, pumps_at(s, "full"))


@figure("pump-delivery")
def delivery(s):
    return get(s, "_full").flow


@figure("pump-delivery-alone")
def delivery_alone(s):
    return pumps_at(s, "full") * get(s, "_pump")(get(s, "rail-pressure-set"))


@figure("pump-margin")
def margin(s):
    return get(s, "pump-delivery") / get(s, "required-delivery") - 1


@figure("pump-margin-coldest-day")
def margin_cold(s):
    """Without the reserve, which is for the claim's own condition; fuel as cold as the air."""
    burned = through_pump(s) + get(s, "demand-by-power") * (get(s, "air-share-coldest-day") - 1)
    cold = density_at(s, get(s, "_coldest").temperature)
    return get(s, "pump-delivery") / (burned / cold) - 1


@figure("required-pressure")
def required_pressure(s):
    """A regulator in the tank spills there: the pump works against its setting alone."""
    flow = get(s, "required-delivery")
    if style(s) == "internal-bypass":
        return get(s, "rail-pressure-set")
    return get(s, "rail-pressure-set") + filter_loss(s, "filter", flow) + friction(s, "feed", flow) + head(s)


@figure("power-fed")
def power_fed(s):
    """All power at the crank, nitrous counted, that the delivery feeds with the reserve kept."""
    return get(s, "_power-with-nitrous") * get(s, "pump-delivery") / get(s, "required-delivery")


@figure("pump-pressure")
def pump_pressure(s):
    return get(s, "_full").outlet - get(s, "_full").inlet


@figure("pump-inlet-pressure")
def pump_inlet(s):
    return get(s, "_full").inlet


@figure("pump-outlet-pressure")
def pump_outlet(s):
    return get(s, "_full").outlet


@figure("filter-inlet-pressure")
def filter_inlet(s):
    return get(s, "_full").before_filter


@figure("rail-pressure")
def rail_pressure(s):
    return get(s, "_full").rail


@figure("idle-rail-pressure")
def idle_rail_pressure(s):
    return get(s, "_idle").rail


@figure("highest-pressure")
def highest_pressure(s):
    return max(get(s, point).outlet for point in ("_full", "_idle", "_standing"))


@figure("return-flow")
def return_flow(s):
    return get(s, "_idle").flow - get(s, "idle-fuel") / get(s, "hot-fuel-density")


@figure("return-friction")
def return_friction(s):
    if style(s) != "bypass":
        raise Missing("return")
    flow = get(s, "_standing").flow
    assert is_clear_of_transition(s, "return", flow)
    return friction(s, "return", flow)


@figure("return-head")
def return_static(s):
    """Below zero: the return falls to the tank."""
    get(s, "return-friction")
    return -return_head(s)


@figure("return-back-pressure")
def back_pressure(s):
    return max(0.0, get(s, "return-friction") + get(s, "return-head"))


@figure("return-back-pressure-share")
def back_share(s):
    return get(s, "return-back-pressure") / s.number("fuel-system.regulator.pressure")


@figure("feed-velocity")
def feed_velocity(s):
    through = get(s, "demand-volume") if style(s) == "internal-bypass" else get(s, "pump-delivery")
    return velocity(s, "feed", through)


@figure("return-velocity")
def return_velocity(s):
    if style(s) != "bypass":
        raise Missing("return")
    return velocity(s, "return", get(s, "pump-delivery"))


def external(s):
    if not is_external(s):
        raise Missing("external pump")


@figure("suction-velocity")
def suction_velocity(s):
    external(s)
    return velocity(s, "suction", get(s, "pump-delivery"))


@figure("suction-loss")
def suction_lost(s):
    external(s)
    assert is_clear_of_transition(s, "suction", get(s, "pump-delivery"))
    return suction_loss(s, get(s, "pump-delivery"))


@figure("suction-head")
def suction_head(s):
    return head_with(s, get(s, "vapor-pressure"))


def head_with(s, vapor):
    left = get(s, "tank-pressure") - vapor - get(s, "suction-loss")
    weight = get(s, "hot-fuel-density") * GRAVITY
    return left / weight - s.number("fuel-system.pump.height-above-outlet")


def head_needed(s):
    return s.number("fuel-system.pump.required-suction-head", 1.0)


@figure("suction-margin")
def suction_margin(s):
    return get(s, "suction-head") - head_needed(s)


@figure("suction-limit-temperature")
def limit_temperature(s):
    return brentq(lambda t: head_with(s, get(s, "_vapor")(t)) - head_needed(s), 250, 400)
