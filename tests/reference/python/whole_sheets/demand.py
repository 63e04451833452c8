"""Fuel and air that the claim needs. Heywood, sections 2.7 to 2.10 and 3.4; defaults are common practice.

Engineering notes, sections 3, 10, 11 and 17: torque and mean effective pressure of a stage with nitrous count it.
"""

from math import pi

from .air import AIR_HEAT, STANDARD, induction, is_boosted, j607, j1349, manifold_density
from .figures import figure, get
from .fuels import air_ratio, nitrous_ratio
from .quantities import FACTORS, HORSEPOWER
from .sheet import Missing

CONSUMPTION = {"natural": 0.50, "roots": 0.60, "centrifugal": 0.60, "turbo": 0.65}  # lb/(hp h) on gasoline
LAMBDA = {"natural": 0.88, "roots": 0.80, "centrifugal": 0.80, "turbo": 0.78}
USUAL_FILLING = 0.85
POUND_PER_HORSEPOWER_HOUR = FACTORS["lb/(hp*h)"]
NITROUS_CONSUMPTION = 0.60  # lb/(hp h) on gasoline, rich
NITROUS_RATIO = 6.0  # on gasoline


def fuel_scale(s):
    """Fuel of this kind for the same air, over gasoline."""
    return air_ratio("gasoline") / get(s, "stoichiometric-ratio")


@figure("_consumption")
def consumption(s):
    usual = CONSUMPTION[induction(s)] * POUND_PER_HORSEPOWER_HOUR * fuel_scale(s)
    return s.number("stage.specific-consumption", usual)


@figure("_lambda")
def mixture(s):
    return s.number("stage.lambda", LAMBDA[induction(s)])


@figure("_crank-power")
def crank_power(s):
    """From the wheels back over gearbox, axle and tires; 15 % where the sheet does not say (common practice)."""
    power = s.number("stage.power")
    return power / (1 - s.number("stage.driveline-loss", 0.15)) if s.word("stage.power-at") == "wheels" else power


@figure("crank-power")
def power_at_crank(s):
    if s.word("stage.power-at") != "wheels":
        raise Missing("power at the wheels")
    return get(s, "_crank-power")


def condition(s):
    return s.word("stage.power-condition", "as-driven")


@figure("power-at-site")
def power_at_site(s):
    """What a standard's power is worth in the ordinary air of the site."""
    return get(s, "standard-power") / j1349(get(s, "_ordinary")) if condition(s) != "as-driven" else _missing()


def _missing():
    raise Missing("a standard")


@figure("standard-power")
def standard_power(s):
    power = get(s, "_crank-power")
    if condition(s) == "as-driven":
        return power * j1349(get(s, "_ordinary"))
    return power if condition(s) == "standard" else power / j607(STANDARD)


@figure("demand-by-power")
def by_power(s):
    return get(s, "_crank-power") * get(s, "_consumption")


@figure("demand-coldest-day")
def demand_cold(s):
    """What the injectors give on the coldest, lowest day: the engine's part follows the air, that of dry nitrous does not."""
    through = through_injectors(s)
    return through + get(s, "demand-by-power") * (get(s, "air-share-coldest-day") - 1)


@figure("_swept-per-second")
def swept(s):
    return s.number("engine.displacement") * s.number("engine.peak-power-speed") / 2


@figure("air-by-volume")
def air(s):
    return get(s, "_swept-per-second") * s.number("engine.volumetric-efficiency", USUAL_FILLING) * manifold_density(s)


@figure("demand-by-air")
def by_air(s):
    return get(s, "air-by-volume") / (get(s, "_lambda") * get(s, "stoichiometric-ratio"))


@figure("demand-disagreement")
def disagreement(s):
    one, other = get(s, "demand-by-power"), get(s, "demand-by-air")
    return (one - other) / ((one + other) / 2)


@figure("air-demand")
def air_demand(s):
    return get(s, "demand-by-power") * get(s, "_lambda") * get(s, "stoichiometric-ratio")


@figure("implied-volumetric-efficiency")
def implied_filling(s):
    return get(s, "air-demand") / (get(s, "_swept-per-second") * manifold_density(s))


@figure("_power-with-nitrous")
def whole_power(s):
    return get(s, "_crank-power") + s.number("stage.nitrous.power", 0.0)


@figure("power-with-nitrous")
def power_with_nitrous(s):
    return get(s, "_crank-power") + s.number("stage.nitrous.power")


@figure("mean-effective-pressure")
def bmep(s):
    return get(s, "_power-with-nitrous") / get(s, "_swept-per-second")


@figure("torque")
def torque(s):
    return get(s, "_power-with-nitrous") / (2 * pi * s.number("engine.peak-power-speed"))


@figure("thermal-efficiency")
def efficiency(s):
    return 1 / (get(s, "_consumption") * get(s, "_heating-value"))


@figure("boosted-power")
def boosted_power(s):
    """Natural power by charge density, less what a driven blower takes; both powers hold in the same air."""
    natural = s.before
    while natural and is_boosted(natural):
        natural = natural.before
    if not natural or not is_boosted(s) or condition(natural) != condition(s):
        raise Missing("a natural stage before")
    dense = get(natural, "_crank-power") * get(s, "density-ratio")
    if induction(s) == "turbo":
        return dense
    rise = get(s, "blower-outlet-temperature") - s.number("site.hottest")
    return dense - get(s, "air-by-volume") * AIR_HEAT * rise


@figure("nitrous-stoichiometric-ratio")
def nitrous_stoichiometric(s):
    s.number("stage.nitrous.power")
    return get(s, "_blend").by_mass(nitrous_ratio)


@figure("nitrous-fuel")
def nitrous_fuel(s):
    return s.number("stage.nitrous.power") * NITROUS_CONSUMPTION * POUND_PER_HORSEPOWER_HOUR * fuel_scale(s)


@figure("nitrous-flow")
def nitrous_flow(s):
    usual = NITROUS_RATIO * get(s, "nitrous-stoichiometric-ratio") / nitrous_ratio("gasoline")
    return get(s, "nitrous-fuel") * s.number("stage.nitrous.ratio", usual)


@figure("nitrous-share-of-chemistry")
def nitrous_share(s):
    return get(s, "nitrous-flow") / get(s, "nitrous-fuel") / get(s, "nitrous-stoichiometric-ratio")


@figure("bottle-time")
def bottle_time(s):
    return 0.85 * s.number("stage.nitrous.bottle") / get(s, "nitrous-flow")


@figure("nitrous-retard")
def nitrous_retard(s):
    return s.number("stage.nitrous.power") / HORSEPOWER / 50 * 2


@figure("injector-demand")
def injector_demand(s):
    """Dry nitrous takes its fuel from the injectors, wet brings its own."""
    added = get(s, "nitrous-fuel")
    return get(s, "demand-by-power") + (added if s.word("stage.nitrous.kind") == "dry" else 0)


@figure("pump-demand")
def pump_demand(s):
    return get(s, "demand-by-power") + get(s, "nitrous-fuel")


def through_injectors(s):
    return get(s, "injector-demand" if s.at("stage.nitrous") else "demand-by-power")


def through_pump(s):
    return get(s, "pump-demand" if s.at("stage.nitrous") else "demand-by-power")
