# SPDX-License-Identifier: GPL-3.0-or-later
"""Decks for CalculiX (ccx) in SI: nodes, elements, equations, springs; runs and results."""

import subprocess
from pathlib import Path

import numpy as np

# Places in Gmsh's order of the nodes that CalculiX wants: corners, edges below, above, upright.
CELL_ORDER = [0, 1, 2, 3, 4, 5, 6, 7, 8, 11, 13, 9, 16, 18, 19, 17, 10, 12, 14, 15]
# Faces of a cell by their corners (CalculiX manual, C3D8): number - 1 is the place in this list.
CELL_FACES = [(0, 1, 2, 3), (4, 7, 6, 5), (0, 4, 5, 1), (1, 5, 6, 2), (2, 6, 7, 3), (3, 7, 4, 0)]


class Deck:
    """Lines of an input file; nodes and elements count from 1."""

    def __init__(self, title):
        self.lines = ["*HEADING", title]
        self.n_elements = 0
        self.n_nodes = 0

    def card(self, *lines):
        self.lines += lines

    def nodes(self, position, used, name="ALL"):
        self.card(f"*NODE, NSET={name}")
        for n in used:
            x, y, z = position[n]
            self.card(f"{n + 1}, {x:.12e}, {y:.12e}, {z:.12e}")
        self.n_nodes = max(self.n_nodes, max(used) + 1)

    def new_node(self, place=(0.0, 0.0, 0.0)):
        self.n_nodes += 1
        self.card("*NODE", "{}, {:.12e}, {:.12e}, {:.12e}".format(self.n_nodes, *place))
        return self.n_nodes

    def elements(self, kind, name, members):
        """Members: node numbers of each, from 1. Returns the number of the first element."""
        first = self.n_elements + 1
        self.card(f"*ELEMENT, TYPE={kind}, ELSET={name}")
        for nodes in members:
            self.n_elements += 1
            words = [str(self.n_elements)] + [str(n) for n in nodes]
            for k in range(0, len(words), 10):
                more = k + 10 < len(words)
                self.card(", ".join(words[k:k + 10]) + ("," if more else ""))
        return first

    def equation(self, terms):
        """Sum of coefficient times (node, component) is 0; the first term is the dependent one."""
        self.card("*EQUATION", str(len(terms)))
        words = [f"{node}, {component}, {value:.12e}" for node, component, value in terms]
        for k in range(0, len(words), 4):
            self.card(", ".join(words[k:k + 4]))

    def spring(self, node, component, stiffness, other=None):
        name = f"S{self.n_elements + 1}"
        nodes = [node] if other is None else [node, other]
        self.elements("SPRING1" if other is None else "SPRING2", name, [nodes])
        self.card(f"*SPRING, ELSET={name}")
        self.card(str(component) if other is None else f"{component}, {component}",
                  f"{stiffness:.12e}")

    def write(self, path):
        Path(path).write_text("\n".join(self.lines) + "\n", encoding="utf-8")


def run(folder, name, deck, seconds=3000):
    """Writes, runs, and returns the text of the printed results."""
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    deck.write(folder / f"{name}.inp")
    done = subprocess.run(["ccx", "-i", name], cwd=folder, capture_output=True, text=True,
                          timeout=seconds, check=False)
    (folder / f"{name}.log").write_text(done.stdout + done.stderr, encoding="utf-8")
    if done.returncode != 0 or "*ERROR" in done.stdout:
        raise RuntimeError(f"ccx failed, see {folder}/{name}.log")
    return (folder / f"{name}.dat").read_text(encoding="utf-8")


def printed(text, columns):
    """[(time, {node from 0: values})] of *NODE PRINT blocks with that many columns."""
    blocks = []
    for line in text.splitlines():
        words = line.split()
        if "time" in words:
            blocks.append((float(words[-1]), {}))
        elif len(words) == 1 + columns and blocks:
            blocks[-1][1][int(words[0]) - 1] = np.array([float(w) for w in words[1:]])
    return [block for block in blocks if block[1]]




class FaceFinder:
    """Cell and number of the face with given corners."""

    def __init__(self, cells):
        self.found = {}
        for c, corners in enumerate(cells[:, :8]):
            for k, places in enumerate(CELL_FACES):
                self.found.setdefault(frozenset(corners[list(places)].tolist()), (c, k + 1))

    def __call__(self, corners):
        return self.found[frozenset(int(n) for n in corners[:4])]
