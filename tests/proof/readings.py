# SPDX-License-Identifier: GPL-3.0-or-later
"""The bow that an edge would read, from displacements of a reference; the program's column."""

import h5py
import numpy as np

from places import centre_line
from quantity import fret_position


def along_the_line(x, values, at):
    """Quadratic through the three nodes of the cell that a place lies in."""
    k = min(int(np.searchsorted(x, at)) // 2 * 2, len(x) - 3)
    k -= 2 * (at < x[k])
    place, value = x[k:k + 3], values[k:k + 3]
    return sum(value[i] * np.prod([(at - place[j]) / (place[i] - place[j])
                                   for j in range(3) if j != i]) for i in range(3))


def bow(case, mesh, values, fret=7):
    """Chord over fret 1 and the join's fret less the line between, forward positive, m."""
    nodes = centre_line(mesh)
    x, z = mesh.position[nodes, 0], np.array([values[n][2] for n in nodes])
    at = [fret_position(case.scale_length, f) for f in (1, fret, case.value("neck.join_fret"))]
    first, middle, last = (along_the_line(x, z, a) for a in at)
    share = (at[1] - at[0]) / (at[2] - at[0])
    return (1 - share) * first + share * last - middle


def told_bow(results, row):
    """(bow, its fret) of the program's own table of readings."""
    with h5py.File(results, "r") as file:
        name = next(n for n in file["readings"] if n.startswith("bow centre, fret"))
        return float(file["readings"][name][row]), int(name.split("fret")[1].split()[0])
