"""Fuel properties.

Stoichiometry: Heywood, Internal Combustion Engine Fundamentals, eq. 3.6, with IUPAC 2021 atomic weights and dry air of
the U.S. Standard Atmosphere 1976. Densities at 15 degC: gasoline 745 kg/m3 (AFDC: 116 090 Btu/gal over 18 676 Btu/lb);
ethanol 789.3 kg/m3 at 20 degC (handbook, from memory) carried to 15 degC; methanol specific gravity 0.796 at 60 degF
(AFDC). Heating values and viscosities: AFDC, Properties of Fuels (viscosity of gasoline: middle of its span).
Expansion: gasoline API MPMS 11.1 table 54B; alcohols the Rackett form, Perry's Handbook, 8th ed., table 2-32, from
memory. True vapor pressure: EPA AP-42, 5th ed., ch. 7.1, figure 7.1-14b, slope 3; neat alcohols: Antoine coefficients of
the NIST Chemistry WebBook (Ambrose and Sprake 1970; Ambrose, Sprake and Townsend 1975), from memory. Blends: at 100 degF
the line of AP-42 for the blend's own Reid vapor pressure; of it the alcohol has its mole share times a Margules activity
(two-suffix, 2.0 for ethanol; gasoline of 105 kg/kmol, from memory) and rises with neat alcohol, the rest with AP-42.
Reid vapor pressure where none is stated: 7.8 psi of gasoline above 35 degC, else 9 (common practice); 10 % of ethanol
adds 1 psi (US volatility rule, 40 CFR 1090); E85 class 1 at most 9 psi (ASTM D5798). Boiling: engineering notes, 15.
"""

from math import exp, log, log10

from scipy.optimize import brentq

from .figures import figure, get
from .quantities import PSI
from .sheet import Missing

CARBON, HYDROGEN, OXYGEN = 12.011, 1.008, 15.999
AIR_PER_OXYGEN = 28.9644 / 0.209476  # kg of air per kmol of O2
NITROUS_OXIDE = 44.013

FORMULA = {"gasoline": (1, 1.87, 0), "ethanol": (2, 6, 1), "methanol": (1, 4, 1)}
BTU_PER_POUND = 2326.0
HEATING = {"gasoline": 18676 * BTU_PER_POUND, "ethanol": 11585 * BTU_PER_POUND, "methanol": 8637 * BTU_PER_POUND}
VISCOSITY = {  # mm2/s at 20 and -20 degC
    "gasoline": (0.55, 0.9),
    "ethanol": (1.50, 3.435),
    "methanol": (0.74, 1.345),
}
RACKETT = {"ethanol": (1.6288, 0.27469, 514.0, 0.23178), "methanol": (2.3267, 0.27073, 512.5, 0.24713)}
ANTOINE = {"ethanol": (5.24677, 1598.673, -46.424), "methanol": (5.20409, 1581.341, -33.5)}  # bar and K
CHILL = 288.15
ALCOHOL_SHARE = {"gasoline": 0.0, "gasoline-e10": 0.10, "e85": 0.85, "ethanol": 1.0}
REID_TEST = 310.928  # K, 100 degF
MARGULES = 2.0  # ethanol in gasoline
MOLAR = {"gasoline": 105.0, "ethanol": 46.068}  # kg/kmol


def oxygen_need(name):
    """kmol of O2 for a kmol of fuel, and the mass of that kmol."""
    c, h, o = FORMULA[name]
    return c + h / 4 - o / 2, CARBON * c + HYDROGEN * h + OXYGEN * o


def air_ratio(name):
    need, mass = oxygen_need(name)
    return need * AIR_PER_OXYGEN / mass


def nitrous_ratio(name):
    need, mass = oxygen_need(name)
    return 2 * need * NITROUS_OXIDE / mass


def rackett(name, temperature):
    a, b, c, d = RACKETT[name]
    return a / b ** (1 + (1 - temperature / c) ** d)


def gasoline_shrinkage(density, temperature):
    """Volume correction of a gasoline: density at the temperature over that at 15 degC."""
    alpha = 346.42278 / density**2 + 0.43884 / density
    rise = temperature - CHILL
    return exp(-alpha * rise * (1 + 0.8 * alpha * rise))


ETHANOL_15 = 789.3 * rackett("ethanol", CHILL) / rackett("ethanol", 293.15)
METHANOL_15 = 0.796 * 999.016
GASOLINE_15 = 745.0


class Blend:
    """Volume and mass shares of the parts of a fuel."""

    def __init__(self, stage):
        grade = stage.word("fuel.grade", "gasoline-e10")
        if grade == "methanol":
            self.volume = {"methanol": 1.0}
        else:
            share = float(stage.number("fuel.ethanol-share", ALCOHOL_SHARE[grade]))
            self.volume = {"ethanol": share, "gasoline": 1 - share}
        density = {"gasoline": GASOLINE_15, "ethanol": ETHANOL_15, "methanol": METHANOL_15}
        masses = {name: share * density[name] for name, share in self.volume.items()}
        self.density = sum(masses.values())
        self.mass = {name: mass / self.density for name, mass in masses.items()}

    def by_mass(self, of):
        return sum(share * of(name) for name, share in self.mass.items())


@figure("_blend")
def blend(s):
    return Blend(s)


@figure("stoichiometric-ratio")
def stoichiometric(s):
    return s.number("fuel.stoichiometric-ratio", get(s, "_blend").by_mass(air_ratio))


@figure("fuel-density")
def density(s):
    return s.number("fuel.density", get(s, "_blend").density)


@figure("_fuel-temperature")
def fuel_temperature(s):
    if s.at("site.hottest-fuel") is None:
        return s.number("site.hottest") + 10
    return s.number("site.hottest-fuel")


def density_at(s, temperature):
    """Each part swells by its own; a density of the sheet's own swells like its blend."""
    parts = get(s, "_blend").volume
    own = get(s, "fuel-density") if parts.get("gasoline") == 1 else GASOLINE_15
    swelled = 0.0
    for name, share in parts.items():
        if name == "gasoline":
            swelled += share / gasoline_shrinkage(own, temperature)
        elif share:
            swelled += share * rackett(name, CHILL) / rackett(name, temperature)
    return get(s, "fuel-density") / swelled


@figure("hot-fuel-density")
def hot_density(s):
    return density_at(s, get(s, "_fuel-temperature"))


@figure("fuel-viscosity")
def viscosity(s):
    """Kinematic, at 15 degC: Andrade through two points, blended by the logarithm over volume."""
    total = 0.0
    for name, share in get(s, "_blend").volume.items():
        warm, cold = VISCOSITY[name]
        slope = log(cold / warm) / (1 / 253.15 - 1 / 293.15)
        total += share * (log(warm * 1e-6) + slope * (1 / CHILL - 1 / 293.15))
    return exp(total)


@figure("_heating-value")
def heating_value(s):
    return s.number("fuel.lower-heating-value", get(s, "_blend").by_mass(HEATING.get))


def true_vapor_pressure(reid, temperature):
    """AP-42 figure 7.1-14b in its psi and degrees Rankine, slope 3; Pa and K here."""
    rankine, slope = temperature * 1.8, 3.0**0.5
    logarithm = log10(reid / PSI)
    return PSI * exp(
        (0.7553 - 413.0 / rankine) * slope * logarithm
        - (1.854 - 1042.0 / rankine) * slope
        + (2416.0 / rankine - 2.013) * logarithm
        - 8742.0 / rankine
        + 15.64
    )


@figure("_reid")
def reid(s):
    """As stated, else that of the gasoline sold where it gets so hot, with the rise its ethanol brings."""
    grade = s.word("fuel.grade", "gasoline-e10")
    gasoline = (7.8 if s.number("site.hottest", 308.15) > 308.15 else 9.0) * PSI
    usual = {"gasoline": gasoline, "gasoline-e10": gasoline + PSI, "e85": 9.0 * PSI}
    return s.number("fuel.vapor-pressure", usual.get(grade))


def antoine(name, temperature):
    a, b, c = ANTOINE[name]
    return 1e5 * 10 ** (a - b / (temperature + c))


def ethanol_over_blend(share, whole):
    """Partial pressure of the ethanol of a blend at 100 degF, by its share of the volume; never more than the whole."""
    moles = {"ethanol": share * ETHANOL_15 / MOLAR["ethanol"], "gasoline": (1 - share) * GASOLINE_15 / MOLAR["gasoline"]}
    x = moles["ethanol"] / sum(moles.values())
    return min(whole, x * exp(MARGULES * (1 - x) ** 2) * antoine("ethanol", REID_TEST))


@figure("_vapor")
def vapor(s):
    """Vapor pressure by temperature: gasoline by AP-42, neat alcohols by Antoine, blends by both."""
    parts = get(s, "_blend").volume
    if parts.get("methanol") or parts.get("ethanol") == 1:
        return lambda temperature: antoine("methanol" if "methanol" in parts else "ethanol", temperature)
    own = get(s, "_reid")
    whole = true_vapor_pressure(own, REID_TEST)
    alcohol = ethanol_over_blend(parts["ethanol"], whole) if parts["ethanol"] else 0.0

    def pressure(temperature):
        rise = antoine("ethanol", temperature) / antoine("ethanol", REID_TEST)
        return alcohol * rise + (1 - alcohol / whole) * true_vapor_pressure(own, temperature)

    return pressure


@figure("vapor-pressure")
def vapor_pressure(s):
    return get(s, "_vapor")(get(s, "_fuel-temperature"))


@figure("tank-pressure")
def tank_pressure(s):
    """On the fuel: the air's, and what a cap holds back."""
    return get(s, "_thin-air") + s.number("fuel-system.tank.cap-pressure", 0.0)


@figure("boiling-temperature")
def boiling_temperature(s):
    return brentq(lambda t: get(s, "_vapor")(t) - get(s, "tank-pressure"), 250, 400)


@figure("_tank-heating")
def tank_heating(s):
    """Rise of the fuel over a day: what the pumps draw that always run, and 150 W where it comes back from a hot engine; 12 W/m2K over a
    surface of 5.5 V^(2/3). Engineering notes, section 15, common practice."""
    volume = s.number("fuel-system.tank.capacity")
    system = "fuel-system.pump"
    together = s.number(f"{system}.quantity", 1.0) if s.word(f"{system}.arrangement", "parallel") == "parallel" else 1
    current = s.number(f"{system}.current") * together + s.number("fuel-system.lift-pump.current", 0.0)
    pump = get(s, "pump-voltage") * current
    returns = s.word("fuel-system.regulator.style", "bypass") == "bypass"
    return (pump + (150.0 if returns else 0.0)) / (12.0 * 5.5 * volume ** (2 / 3))


@figure("heated-fuel")
def heated_fuel(s):
    return s.number("site.hottest") + get(s, "_tank-heating")
