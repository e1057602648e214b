# SPDX-License-Identifier: GPL-3.0-or-later
"""Cases of the proofs: the demonstration with what a proof changes, as a file for the program."""

import re
import shutil
import tomllib
from pathlib import Path

from quantity import quantity
from tables import REFERENCE_TEMPERATURE, equilibrium_moisture, rest_humidity

# As built and without a history: then a neck is free of stress before the first phase. The nut's
# slot is left open: a bearing on one side only is for the tests of the program.
UNSTRESSED = {
    "found": {"bow": "0 mm", "twist": "0 deg"},
    "room": {"temperature": "20 degC", "humidity": "50 %"},
    "moisture": {"built_at": "50 %"},
    "bench": {"nut_stiffness": "0 N/mm"},
}
KEEPS_WATER = "that keeps the water"


def merged(base, change):
    result = dict(base)
    for key, value in change.items():
        both = isinstance(value, dict) and isinstance(result.get(key), dict)
        result[key] = merged(result[key], value) if both else value
    return result


def written(value):
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value) if isinstance(value, (int, float)) else f'"{value}"'


def toml_of(case):
    lines = [f"{k} = {written(v)}" for k, v in case.items() if not isinstance(v, (dict, list))]
    for name, section in case.items():
        for one in section if isinstance(section, list) else [section]:
            if isinstance(one, dict):
                lines.append(f"[[{name}]]" if isinstance(section, list) else f"[{name}]")
                lines += [f"{k} = {written(v)}" for k, v in one.items()]
    return "\n".join(lines) + "\n"


def fill_in_humidity(case):
    """Air that wood built in the shop neither takes water from nor gives any."""
    built = equilibrium_moisture(REFERENCE_TEMPERATURE, quantity(case["moisture"]["built_at"]))
    for place, key in [(case["room"], "temperature")] + [
            (phase, "air_temperature") for phase in case["phase"]]:
        if place.get("humidity") == KEEPS_WATER:
            place["humidity"] = f"{100 * rest_humidity(quantity(place[key]), built):.6f} %"


def make_case(demonstration, proof, resolution, path):
    with open(demonstration, "rb") as file:
        case = merged(tomllib.load(file), UNSTRESSED)
    with open(proof, "rb") as file:
        case = merged(case, tomllib.load(file))
    case["title"] = "proof: " + Path(proof).stem
    case["numerics"] = {"resolution": resolution}
    fill_in_humidity(case)
    Path(path).write_text(toml_of(case), encoding="utf-8")


def replaced(path, pattern, by):
    text, count = re.subn(pattern, by, path.read_text("utf-8"))
    if count == 0:
        raise ValueError(f"{path} has no {pattern}")
    path.write_text(text, encoding="utf-8")


def tables_of_still_wood(source, folder):
    """A copy of the tables: wood does not creep in time, and no water comes in or goes out.

    Air that warms a cold neck would damp its skin by a hundredth of a per cent."""
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    for file in Path(source).glob("*.toml"):
        shutil.copy(file, folder)
    replaced(folder / "woods.toml", r"(creep_share = \{ value = \[)([^\]]*)",
             lambda m: m[1] + ", ".join(["1e-12"] * len(m[2].split(","))))
    sealed = '{ value = 1e16, unit = "s/m", spread = "sealed", mark = "E", source = "none" }'
    replaced(folder / "finishes.toml", r"(film_resistance(?:_worn)? = )\{[^}]*\}",
             lambda m: m[1] + sealed)
