# SPDX-License-Identifier: GPL-3.0-or-later
"""Values of a case file: texts with a unit into SI. Written from the manual (cases/README.md)."""

import re
from fractions import Fraction

INCH, POUND_FORCE, KILOGRAM_FORCE = 0.0254, 4.4482216152605, 9.80665
DEGREE = 3.141592653589793 / 180

FACTOR = {
    "": 1.0, "1": 1.0,
    "mm": 1e-3, "cm": 1e-2, "m": 1.0, "in": INCH, "thou": 1e-3 * INCH,
    "deg": DEGREE, "rad": 1.0, "%": 1e-2, "percent": 1e-2,
    "s": 1.0, "min": 60.0, "h": 3600.0, "day": 86400.0, "days": 86400.0,
    "week": 604800.0, "weeks": 604800.0, "year": 3.15576e7, "years": 3.15576e7,
    "K": 1.0, "N": 1.0, "kgf": KILOGRAM_FORCE, "lbf": POUND_FORCE, "N m": 1.0,
    "Pa": 1.0, "MPa": 1e6, "GPa": 1e9, "N/mm": 1e3, "N/m": 1.0,
    "N m/rad": 1.0, "N m/deg": 1 / DEGREE, "N/mm3": 1e9, "N/m3": 1.0,
    "W": 1.0, "W/(m2 K)": 1.0, "s/m": 1.0, "Hz": 1.0,
    # of the tables of materials
    "1e-6/K": 1e-6, "1/K": 1.0, "W/(m K)": 1.0, "J/(kg K)": 1.0, "kg/m^3": 1.0, "kg/m": 1.0,
    "kJ/mol": 1e3, "%/degF": 1.8e-2, "note": 1.0, "m^2/s": 1.0, "m/s": 1.0,
    "kg/(m^2 s)": 1.0, "decades": 1.0,
}
NUMBER = re.compile(r"^\s*(-?[0-9][0-9.eE+-]*(?:\s+[0-9]+/[0-9]+)?|-?[0-9]+/[0-9]+)\s*(.*?)\s*$")


def number_of(text):
    """"1 11/16" into 1.6875."""
    parts = text.split()
    whole = sum(Fraction(p) if "/" in p else Fraction(p.strip()) for p in parts)
    return float(whole)


def quantity(text):
    """A text such as "648 mm" or "48 degC" in SI; temperatures in K."""
    if isinstance(text, (int, float)) and not isinstance(text, bool):
        return float(text)
    match = NUMBER.match(text)
    if not match:
        raise ValueError(f"not a quantity: {text!r}")
    value, unit = number_of(match.group(1)), match.group(2)
    if unit == "degC":
        return value + 273.15
    if unit == "degF":
        return (value + 459.67) / 1.8
    if unit not in FACTOR:
        raise ValueError(f"unknown unit in {text!r}")
    return value * FACTOR[unit]


def fret_position(scale_length, fret):
    """Distance from the nut to a fret in equal temperament, m."""
    return scale_length * (1 - 2 ** (-fret / 12))


def ring_angle(word):
    """Angle of the rings' normal R from z (square to the board) towards y, rad."""
    named = {"flat": 0.0, "rift": 45 * DEGREE, "quarter": 90 * DEGREE}
    return named[word] if word in named else quantity(word)
