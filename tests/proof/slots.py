# SPDX-License-Identifier: GPL-3.0-or-later
"""Fret slots that open where the board is pulled: what they add to the compliance along the grain.

By the comment of solver/model/fret_slots.h: a slot of depth a is an edge crack (K = 1.12 sigma
sqrt(pi a)); its energy in orthotropic wood (Sih, Paris and Irwin 1965), spread over the distance p
between frets and given to the depth that is cut, leaves p/(p + c a) of the modulus.
"""

import math

import numpy as np

from elements import gauss_points, shapes
from mesh_file import CELL_PLACES
from neck import SLOT_DEPTH, SLOT_SHARE
from own_mechanics import Held, Solid, glue_stiffness
from quantity import fret_position
from tables import REFERENCE_TEMPERATURE

NOT_SHALLOW = 1.5
BANDS = {-1: (0.0, 5 / 18), 0: (5 / 18, 13 / 18), 1: (13 / 18, 1.0)}  # heights of Gauss points
NO_STRESS = 1e4  # Pa: a slot is as stiff open as closed at no stress


def reach(neck):
    """c of the board."""
    s = neck.wood["board"].compliance(REFERENCE_TEMPERATURE, neck.moisture)
    r, t = neck.frame["board"][2, 1] ** 2, neck.frame["board"][2, 2] ** 2
    along, deep = s[0, 0], (r * s[1, 1] + t * s[2, 2]) / (r + t)
    both, shear = (r * s[0, 1] + t * s[0, 2]) / (r + t), (r * s[5, 5] + t * s[4, 4]) / (r + t)
    g = math.sqrt(along * deep / 2) * math.sqrt(
        math.sqrt(along / deep) + (2 * both + shear) / (2 * deep)) / along
    return NOT_SHALLOW * 1.12 ** 2 * math.pi * g


def spacing(case, x):
    """Distance between frets about a place, 0 where there are none."""
    p = (case.scale_length - x) * (2 ** (1 / 24) - 2 ** (-1 / 24))
    first, last = (fret_position(case.scale_length, f)
                   for f in (1, case.value("neck.frets")))
    return np.where((x > first - p / 2) & (x < last + p / 2), p, 0.0)


def given(neck):
    """(cells, 27): compliance along the grain that open slots add, as a share of it."""
    case, mesh = neck.case, neck.mesh
    thickness, radius = case.value("board.thickness"), case.value("board.radius")
    depth = case.known("board.slot_depth", min(SLOT_DEPTH, SLOT_SHARE * thickness))
    c = reach(neck) * case.value("board.slot_give") * depth
    place, board = mesh.position[mesh.cell], mesh.piece == "board"
    added = np.zeros((len(mesh.cell), 27))
    for q, (point, _) in enumerate(gauss_points()):
        x, y, _ = np.einsum("n,cni->ic", shapes(CELL_PLACES, point)[0], place)
        low, high = BANDS[int(np.sign(np.round(point[2], 9)))]
        ends = [shapes(CELL_PLACES, (point[0], point[1], 2 * e - 1))[0] for e in (low, high)]
        z = [np.einsum("n,cn->c", e, place[:, :, 2]) for e in ends]
        bottom = thickness - (radius - np.sqrt(radius ** 2 - y ** 2)) - depth
        cut = np.clip((z[1] - bottom) / (z[1] - z[0]), 0, 1)
        p = spacing(case, x)
        lost = np.where(p > 0, cut * c / (p + c), 0.0)
        added[:, q] = np.where(board, 1 / (1 - lost) - 1, 0.0)
    return added


def elastic_with_slots(neck, bench, temperature, rounds=12):
    """Displacements with each point's slot open or closed by the sign of its stress."""
    solid, compliance = Solid(neck), neck.compliances(temperature)
    law = np.repeat(solid.by_cell(compliance)[:, None], 27, axis=1)
    closed_law, added = np.linalg.inv(law), given(neck)
    more = added * law[:, :, 0, 0]
    law[:, :, 0, 0] += more
    open_law, is_open = np.linalg.inv(law), added > 0
    line = glue_stiffness(neck, solid.size, neck.shear_stiffness(), neck.normal_stiffness())
    for _ in range(rounds):
        laws = np.where(is_open[:, :, None, None], open_law, closed_law)
        u = Held(solid.stiffness_of(laws) + line, bench, neck.mesh.position).equilibrium()
        stress = np.einsum("cqj,cqj->cq", laws[:, :, 0], solid.strain(u))
        now = np.where(abs(stress) > NO_STRESS, stress > 0, is_open) & (added > 0)
        if np.array_equal(now, is_open):
            return dict(enumerate(u[:-1].reshape(-1, 3)))
        is_open = now
    raise ArithmeticError("the slots do not settle")
