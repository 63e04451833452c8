"""A sheet to its stages: what changes in a stage stays, limits come from the nearest that sets them."""

from copy import deepcopy
from itertools import product

import yaml

from .quantities import quantity

DEFAULT_LIMITS = {  # defaults of the schema, all common practice
    "largest-duty": 0.85,
    "pump-reserve": 0.20,
    "fuse-share": 0.80,
    "voltage-drop": 0.05,
}


class Missing(Exception):
    """A figure needs a field that the sheet does not give."""


def merged(under, over):
    """What is set in `over` replaces what is in `under`; maps are merged key by key, lists are replaced whole."""
    result = deepcopy(under)
    for key, value in over.items():
        both = isinstance(value, dict) and isinstance(result.get(key), dict)
        result[key] = merged(result[key], value) if both else deepcopy(value)
    return result


def leaves(values, path=()):
    for key, value in values.items() if isinstance(values, dict) else enumerate(values):
        if isinstance(value, (dict, list)):
            yield from leaves(value, (*path, key))
        else:
            yield (*path, key), value


class Stage:
    """The values that hold in one stage; `chosen` replaces quantities with a tolerance by a value within it."""

    def __init__(self, values, own, before, houses, chosen=None):
        self.values = values
        self.own = own
        self.before = before
        self.houses = houses
        self.chosen = chosen or {}
        self.computed = {}

    def at(self, path):
        """What stands at a dotted path; `stage.` begins what belongs to the stage itself."""
        steps = path.split(".")
        here = {"stage": self.own} if steps[0] == "stage" else self.values
        for step in steps:
            if not isinstance(here, dict) or step not in here:
                return None
            here = here[step]
        return here

    def word(self, path, otherwise=None):
        found = self.at(path)
        return otherwise if found is None else found

    def number(self, path, otherwise=None):
        if path in self.chosen:
            return self.chosen[path]
        found = self.at(path)
        if found is not None:
            return quantity(found)
        if otherwise is None:
            raise Missing(path)
        return otherwise

    def points(self, path):
        found = self.at(path)
        if not found:
            raise Missing(path)
        return [(float(quantity(one)), float(quantity(other))) for one, other in found]

    def limit(self, name):
        """The sheet's own limit, else that of the nearest folder that sets it, else the default."""
        for limits in [self.values.get("limits"), *[house.get("limits") for house in self.houses]]:
            if limits and name in limits:
                return quantity(limits[name])
        return DEFAULT_LIMITS[name]

    def spreads(self):
        """Paths of the quantities with a tolerance, each with its low, its middle and its high value."""
        found = {}
        for root, values in (("stage", self.own), ("", self.values)):
            for path, value in leaves({k: v for k, v in values.items() if k not in ("changes", "stages")}):
                read = quantity(value)
                if read is not None and read.low != read.high:
                    found[".".join([root, *map(str, path)]).lstrip(".")] = (read.low, float(read), read.high)
        return found

    def corners(self):
        """The stage with every combination of low, middle and high of its tolerances and of the stages before."""
        spreads = self.spreads()
        earlier = self.before.spreads() if self.before else {}
        of_before = {key: ends for key, ends in earlier.items() if key.startswith("stage.")}
        for picks in product(*spreads.values()):
            chosen = dict(zip(spreads, picks))
            for earlier_picks in product(*of_before.values()):
                theirs = {**chosen, **dict(zip(of_before, earlier_picks))}
                theirs = {k: v for k, v in theirs.items() if k in of_before or not k.startswith("stage.")}
                before = self.before and Stage(
                    self.before.values, self.before.own, self.before.before, self.houses, theirs
                )
                yield Stage(self.values, self.own, before, self.houses, chosen)


def stages_of(text, house_texts=()):
    """The stages of a sheet under house rules from near to far."""
    sheet = yaml.safe_load(text)
    houses = [yaml.safe_load(house) for house in house_texts]
    values = {key: value for key, value in sheet.items() if key != "stages"}
    if "fuel" not in values:
        values["fuel"] = next((house["fuel"] for house in houses if "fuel" in house), {})
    stages, before = [], None
    for own in sheet["stages"]:
        values = merged(values, own.get("changes", {}))
        before = Stage(values, own, before, houses)
        stages.append(before)
    return stages
