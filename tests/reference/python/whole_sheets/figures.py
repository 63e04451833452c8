"""How figures are declared and asked for, and their bounds under tolerances."""

from math import isfinite

from .sheet import Missing

FIGURES = {}


def figure(name):
    """Declares how a figure is computed from a stage."""

    def declare(compute):
        FIGURES[name] = compute
        return compute

    return declare


def get(stage, name):
    """The figure of a stage; computed once. Raises Missing where a field it needs is not given."""
    if name not in stage.computed:
        try:
            stage.computed[name] = FIGURES[name](stage)
        except Missing as missing:
            stage.computed[name] = missing
    found = stage.computed[name]
    if isinstance(found, Missing):
        raise found
    return found


def known(stage):
    """All figures that can be computed for a stage."""
    found = {}
    for name in FIGURES:
        if name.startswith("_"):
            continue
        try:
            value = float(get(stage, name))
        except Missing:
            continue
        assert isfinite(value), name
        found[name] = value
    return found


def with_bounds(stage):
    """All figures of a stage, each `[value]`, or `[value, low, high]` where a tolerance moves it."""
    middle = known(stage)
    if not stage.spreads() and not (stage.before and stage.before.spreads()):
        return {name: [value] for name, value in middle.items()}
    low, high = dict(middle), dict(middle)
    for corner in stage.corners():
        for name, value in known(corner).items():
            low[name] = min(low.get(name, value), value)
            high[name] = max(high.get(name, value), value)
    moved = {name: high[name] - low[name] > 1e-12 * abs(value) for name, value in middle.items()}
    return {name: [value, low[name], high[name]] if moved[name] else [value] for name, value in middle.items()}
