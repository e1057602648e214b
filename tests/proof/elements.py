# SPDX-License-Identifier: GPL-3.0-or-later
"""Quadratic elements of 27 nodes in Gmsh's order: shapes, element matrices, weights of faces."""

from functools import lru_cache

import numpy as np

from mesh_file import CELL_PLACES, FACE_PLACES

GAUSS = np.array([-0.6 ** 0.5, 0.0, 0.6 ** 0.5]), np.array([5, 8, 5]) / 9
LOBATTO = {-1: 1 / 3, 0: 4 / 3, 1: 1 / 3}  # weights of Simpson's rule on [-1, 1]


def line_shapes(place, t):
    """(value, slope) of the quadratic that is 1 at `place` (-1, 0 or 1)."""
    if place == 0:
        return 1 - t * t, -2 * t
    return t * (t + place) / 2, t + place / 2


def shapes(places, point):
    """Values (nodes,) and slopes (nodes, dimension) of product shapes at a point."""
    parts = [[line_shapes(p, t) for p, t in zip(place, point)] for place in places]
    value = np.array([np.prod([v for v, _ in part]) for part in parts])
    slope = np.array([[np.prod([s if j == i else v for j, (v, s) in enumerate(part)])
                       for i in range(len(point))] for part in parts])
    return value, slope


def gauss_points():
    t, w = GAUSS
    for i in range(3):
        for j in range(3):
            for k in range(3):
                yield (t[i], t[j], t[k]), w[i] * w[j] * w[k]


class CellPoints:
    """Shapes, gradients (cells, 27, 3) and volume (cells,) at each of the 27 Gauss points."""

    def __init__(self, mesh):
        place = mesh.position[mesh.cell]
        self.value, self.gradient, self.volume = [], [], []
        for point, weight in gauss_points():
            value, slope = shapes(CELL_PLACES, point)
            jacobian = np.einsum("cni,nj->cij", place, slope)
            determinant = np.linalg.det(jacobian)
            if np.any(determinant <= 0):
                raise ValueError("a cell of the mesh is turned inside out")
            self.value.append(value)
            self.gradient.append(np.einsum("nj,cji->cni", slope, np.linalg.inv(jacobian)))
            self.volume.append(weight * determinant)


def strain_matrix(gradient):
    """(cells, 6, 81): xx yy zz yz xz xy (shears as angles) from displacements of 27 nodes."""
    b = np.zeros((gradient.shape[0], 6, 27, 3))
    x, y, z = (gradient[:, :, i] for i in range(3))
    b[:, 0, :, 0], b[:, 1, :, 1], b[:, 2, :, 2] = x, y, z
    b[:, 3, :, 1], b[:, 3, :, 2] = z, y
    b[:, 4, :, 0], b[:, 4, :, 2] = z, x
    b[:, 5, :, 0], b[:, 5, :, 1] = y, x
    return b.reshape(gradient.shape[0], 6, 81)


def strain_turn(frame):
    """6 x 6: strains in wood axes (columns L, R, T of `frame`) from those in model axes."""
    pairs = [(0, 0), (1, 1), (2, 2), (1, 2), (0, 2), (0, 1)]
    turn = np.zeros((6, 6))
    for i, (a, b) in enumerate(pairs):
        for j, (k, l) in enumerate(pairs):
            # Of a shear the tensor has half the angle, and both of its places count.
            angle = (2 if i >= 3 else 1) / (2 if j >= 3 else 1)
            both = frame[k, a] * frame[l, b] + (frame[l, a] * frame[k, b] if j >= 3 else 0)
            turn[i, j] = angle * both
    return turn


@lru_cache(maxsize=None)
def face_shapes(count, point):
    """Of a face of 9 nodes, or of 8 (the middle one is interpolated); asked again and again."""
    value, slope = shapes(FACE_PLACES, point)
    if count == 9:
        return value, slope
    middle = np.array([-0.25] * 4 + [0.5] * 4)
    return value[:8] + value[8] * middle, slope[:8] + np.outer(middle, slope[8])


def sizes(place, slope):
    a, b = (np.einsum("fni,n->fi", place, slope[:, d]) for d in (0, 1))
    return np.linalg.norm(np.cross(a, b), axis=1)


def face_weights(mesh, name):
    """(faces, nodes): areas that belong to the nodes, all positive.

    9 nodes: Gauss-Lobatto. 8 nodes: by the squares of the shapes (Hinton, Rock and Zienkiewicz)."""
    nodes = mesh.face[name]
    place = mesh.position[nodes]
    if nodes.shape[1] == 9:
        return np.array([LOBATTO[p[0]] * LOBATTO[p[1]] * sizes(place, shapes(FACE_PLACES, p)[1])
                         for p in FACE_PLACES]).T
    square, area, (t, w) = np.zeros(nodes.shape), np.zeros(len(nodes)), GAUSS
    for i in range(3):
        for j in range(3):
            value, slope = face_shapes(8, (t[i], t[j]))
            size = w[i] * w[j] * sizes(place, slope)
            square += size[:, None] * value ** 2
            area += size
    return square * (area / square.sum(1))[:, None]


def area_of_nodes(mesh, name):
    """{node: area} of a named face."""
    total = {}
    for nodes, areas in zip(mesh.face[name], face_weights(mesh, name)):
        for node, area in zip(nodes, areas):
            total[int(node)] = total.get(int(node), 0.0) + float(area)
    return total
