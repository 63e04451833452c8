"""Figures of whole build sheets, stage by stage, worked apart from the project's own code.

Reads tests/reference/sheets/*.build.yaml and writes tests/reference/values/whole-sheets.json: for each sheet and stage
every figure that can be computed, in SI, `[value]` or `[value, low, high]` where a tolerance moves it. Written from
published sources and the engineering notes, each named where it is used. Run with Debian's Python, packages
python3-fluids, python3-scipy and python3-yaml:

    /usr/bin/python3 tests/reference/python/generate_whole_sheets.py
"""

import json
import sys
from pathlib import Path

import fluids
import scipy
import yaml

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))

from whole_sheets import air, demand, electrical, figures, fuel_system, fuels, injectors, knock, sheet, throttle  # noqa: E402

SHEETS = HERE.parent / "sheets"
TOPICS = [fuels, air, demand, injectors, fuel_system, electrical, throttle, knock]


def house_texts(name):
    """House rules beside a sheet, from near to far."""
    files = [SHEETS / f"{name}.{place}.yaml" for place in ("near", "far")]
    return [file.read_text() for file in files if file.exists()]


def stages(path):
    name = path.name.removesuffix(".build.yaml")
    read = sheet.stages_of(path.read_text(), house_texts(name))
    return {stage.own["name"]: figures.with_bounds(stage) for stage in read}


def rounded(values):
    return [float(f"{value:.9g}") for value in values]


def main():
    sheets = {
        path.name: {
            stage: {name: rounded(values) for name, values in found.items()} for stage, found in stages(path).items()
        }
        for path in sorted(SHEETS.glob("*.build.yaml"))
    }
    made_with = {"fluids": fluids.__version__, "scipy": scipy.__version__, "yaml": yaml.__version__}
    text = json.dumps({"made with": made_with, "sheets": sheets}, indent=1)
    (HERE.parent / "values" / "whole-sheets.json").write_text(text + "\n")
    count = sum(len(found) for of_sheet in sheets.values() for found in of_sheet.values())
    print(f"{len(TOPICS)} topics, {len(sheets)} sheets, {count} figures")


if __name__ == "__main__":
    main()
