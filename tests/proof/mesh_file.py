# SPDX-License-Identifier: GPL-3.0-or-later
"""The mesh of `overbend mesh` (Gmsh 4.1, text): nodes, cells by piece, faces by name.

Reference coordinates of the nodes are those of Gmsh's manual (node ordering); `check` looks that
they fit the places.
"""

import numpy as np

CORNERS = np.array([[-1, -1, -1], [1, -1, -1], [1, 1, -1], [-1, 1, -1],
                    [-1, -1, 1], [1, -1, 1], [1, 1, 1], [-1, 1, 1]])
EDGES = [(0, 1), (0, 3), (0, 4), (1, 2), (1, 5), (2, 3), (2, 6), (3, 7), (4, 5), (4, 7), (5, 6),
         (6, 7)]
SIDES = [(0, 3, 2, 1), (0, 1, 5, 4), (0, 4, 7, 3), (1, 2, 6, 5), (2, 3, 7, 6), (4, 5, 6, 7)]
CELL_PLACES = np.vstack([CORNERS, [CORNERS[list(e)].mean(0) for e in EDGES],
                         [CORNERS[list(s)].mean(0) for s in SIDES], [[0, 0, 0]]])
FACE_PLACES = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1], [0, -1], [1, 0], [0, 1], [-1, 0],
                        [0, 0]])


def sections_of(path):
    sections, name = {}, None
    for line in open(path, encoding="utf-8"):
        line = line.rstrip("\n")
        if line.startswith("$End"):
            name = None
        elif line.startswith("$"):
            name = line[1:]
            sections[name] = []
        elif name:
            sections[name].append(line)
    return sections


class Mesh:
    """position (n, 3), cell (c, 27), piece (c,) names, face {name: (f, 9)}; nodes count from 0."""

    def __init__(self, path):
        s = sections_of(path)
        self.names = {}
        for line in s["PhysicalNames"][1:]:
            dimension, tag, name = line.split(maxsplit=2)
            self.names[int(dimension), int(tag)] = name.strip('"')
        self.read_groups(s["Entities"])
        self.read_nodes(s["Nodes"])
        self.read_elements(s["Elements"])
        self.check()

    def read_groups(self, lines):
        points, curves, surfaces, volumes = map(int, lines[0].split())
        self.group = {}
        for k, line in enumerate(lines[1 + points + curves:][:surfaces + volumes]):
            words = line.split()
            dimension = 2 if k < surfaces else 3
            if int(words[7]) > 0:
                self.group[dimension, int(words[0])] = self.names[dimension, int(words[8])]

    def read_nodes(self, lines):
        tags, places, k = [], [], 1
        while k < len(lines):
            count = int(lines[k].split()[3])
            tags += [int(line) for line in lines[k + 1:k + 1 + count]]
            places += [[float(w) for w in line.split()[:3]]
                       for line in lines[k + 1 + count:k + 1 + 2 * count]]
            k += 1 + 2 * count
        self.position = np.array(places)
        self.index = {tag: i for i, tag in enumerate(tags)}

    def read_elements(self, lines):
        cells, pieces, self.face, k = [], [], {}, 1
        while k < len(lines):
            dimension, entity, _, count = map(int, lines[k].split())
            nodes = [[self.index[int(w)] for w in line.split()[1:]]
                     for line in lines[k + 1:k + 1 + count]]
            name = self.group[dimension, entity]
            if dimension == 3:
                cells += nodes
                pieces += [name] * count
            else:
                self.face.setdefault(name, []).extend(nodes)
            k += 1 + count
        self.cell, self.piece = np.array(cells), np.array(pieces)
        self.face = {name: np.array(nodes) for name, nodes in self.face.items()}

    def check(self):
        """Mid nodes lie near the middles, and pieces where the conventions of the axes put them."""
        p = self.position[self.cell]
        for k, (a, b) in enumerate(EDGES):
            off = np.linalg.norm(p[:, 8 + k] - (p[:, a] + p[:, b]) / 2, axis=1)
            if np.any(off > 0.3 * np.linalg.norm(p[:, a] - p[:, b], axis=1)):
                raise ValueError("the nodes of a cell are not in Gmsh's order")
        z, x = p[:, :, 2], p[:, :, 0]
        board, head = self.piece == "board", self.piece == "headstock"
        if np.any(z[board].min(1) < -1e-9) or np.any(z[~board].mean(1) > 1e-9):
            raise ValueError("a board lies above the glue plane z = 0, all else below")
        if np.any(x[head].mean(1) > 0) or np.any(x[self.piece == "shaft"].min(1) < -1e-9):
            raise ValueError("the headstock lies before the nut, x < 0, the shaft behind it")

    def nodes_of(self, face):
        return np.unique(self.face[face])


class Serendipity:
    """The same mesh with 20 nodes a cell and 8 a face: without the middles of faces and cells."""

    def __init__(self, mesh):
        self.position, self.piece = mesh.position, mesh.piece
        self.cell = mesh.cell[:, :20]
        self.face = {name: nodes[:, :8] for name, nodes in mesh.face.items()}

    def nodes_of(self, face):
        return np.unique(self.face[face])
