# SPDX-License-Identifier: GPL-3.0-or-later
"""Share of complete slip that a glue line keeps at one temperature, written out apart from the program.

Generalised Maxwell line of glues.toml, shifted by Williams, Landel and Ferry above its softening point
and by Arrhenius below; the point falls by the slope of the table with the humidity that the warm wood
holds (sorption: Forest Products Laboratory, Wood Handbook 2021, Eq. 4-5). Share: two layers joined by a
soft one (Newmark, Siess and Viest 1951), maple 16 mm and rosewood 6 mm, 50 mm wide, 460 mm long, as in
tests/law/glue_law_test.cc. Anchors: common practice, no source; the table was chosen to meet them, so
they are calibration and no proof.
"""
import math

from simulated import glue_value, table

KELVIN, GAS = 273.15, 8.314462618
ANCHORS = ((25.0, 365.25 * 24, 0.0, 0.05), (48.0, 2.0, 0.10, 0.50), (60.0, 2.0, 0.85, 1.0))


def held_moisture(degrees, humidity):
    t = degrees
    w = 349 + 1.29 * t + 0.0135 * t * t
    k = 0.805 + 7.36e-4 * t - 2.73e-6 * t * t
    k1 = 6.27 - 9.38e-3 * t - 3.03e-4 * t * t
    k2 = 1.91 + 0.0407 * t - 2.93e-4 * t * t
    kh = k * humidity
    return 18 / w * (kh / (1 - kh) + (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh))


def warm_humidity(degrees, humidity):
    """Humidity at which wood at rest with `humidity` at 20 degC stays when it is warmed."""
    water, low, high = held_moisture(20, humidity), 0.0, 1.0
    while high - low > 1e-9:
        middle = (low + high) / 2
        low, high = (middle, high) if held_moisture(degrees, middle) < water else (low, middle)
    return low


def modulus(glue, degrees, hours, softer=0.0, faster=0.0, humidity=0.5):
    """Shear modulus of the line, MPa."""
    softening = (glue_value(glue, "softening") - softer
                 + glue_value("common", "humidity_slope") * (warm_humidity(degrees, humidity) - 0.5))
    above = degrees - softening
    if above > 0:
        shift = math.log(10) * glue_value("common", "wlf_c1") * above / (glue_value("common", "wlf_c2") + above)
    else:
        energy = 1e3 * glue_value("common", "activation_energy")
        shift = -energy / GAS * (1 / (degrees + KELVIN) - 1 / (softening + KELVIN))
    reduced = 3600 * hours * math.exp(shift) * 10 ** faster
    return sum(G * math.exp(-reduced / tau)
               for G, tau in zip(glue_value(glue, "branch_modulus"), glue_value(glue, "branch_time")))


def share_of_slip(G, thickness):
    """Of complete slip, for a modulus in MPa and a thickness in mm."""
    width, length, E1, t1, E2, t2 = 0.05, 0.46, 13.86e9, 16e-3, 12.65e9, 6e-3
    loose = width * (E1 * t1 ** 3 + E2 * t2 ** 3) / 12
    lever = (t1 + t2) / 2
    EA = width * E1 * t1 * E2 * t2 / (E1 * t1 + E2 * t2)
    bonded = loose + lever ** 2 * EA
    square = G * 1e6 / (thickness * 1e-3) * width * (1 / EA + lever ** 2 / loose)
    x = math.sqrt(square) * length / 2
    part = length ** 2 / 8 if x < 1e-3 else (1 - 1 / math.cosh(min(x, 700))) / square
    deflection = length ** 2 / 8 / bonded + (1 / loose - 1 / bonded) * part
    stiffness = length ** 2 / 8 / deflection
    return (1 - stiffness / bonded) / (1 - loose / bonded)


def anchor_shares(glue, softer=0.0, faster=0.0, thickness=0.1):
    """Share of complete slip at each of ANCHORS, and whether it lies within."""
    shares = [share_of_slip(modulus(glue, T, hours, softer, faster), thickness) for T, hours, _, _ in ANCHORS]
    return [(share, low <= share <= high) for share, (_, _, low, high) in zip(shares, ANCHORS)]


def anchor_table(named, at_speed):
    """Table of the anchors for lines with one spread each, and for those named by their speed, and whether
    both middle lines meet them."""
    rows, sound = [], True
    for glue in ("white PVA", "yellow PVA"):
        for name, line in (("middle", {}), ("softens 4 K lower", {"softer": 4}), ("softens 8 K lower", {"softer": 8}),
                           ("softens 8 K higher", {"softer": -8}), ("a decade faster", {"faster": 1}),
                           ("a decade slower", {"faster": -1}), ("0.15 mm thick", {"thickness": 0.15}),
                           ("0.07 mm thick", {"thickness": 0.07}),
                           *((name, at_speed(speed, glue)) for name, speed in named.items())):
            shares = anchor_shares(glue, **line)
            sound = sound and (name != "middle" or all(met for _, met in shares))
            rows.append([glue, name] + [f"{100 * share:.1f} %{'' if met else ' (missed)'}" for share, met in shares])
    head = ["glue", "line"] + [f"{T:g} degC, {f'{hours:g} h' if hours < 100 else 'a year'}: "
                               f"{100 * low:g} to {100 * high:g} %" for T, hours, low, high in ANCHORS]
    return table(head, rows), sound
