# SPDX-License-Identifier: GPL-3.0-or-later
"""Elastic equilibrium and thermal expansion of the neck by CalculiX, 20-node cells."""

import numpy as np

import ccx
from bench import TIP
from own_mechanics import line_ends
from tables import REFERENCE_TEMPERATURE


def material(deck, name, compliance, expansion):
    """*ELASTIC, TYPE=ORTHO wants the stiffnesses; axes 1, 2, 3 are L, R, T."""
    d = np.linalg.inv(compliance)
    constants = [d[0, 0], d[0, 1], d[1, 1], d[0, 2], d[1, 2], d[2, 2], d[5, 5], d[4, 4], d[3, 3]]
    words = [f"{v:.9e}" for v in constants]
    deck.card(f"*MATERIAL, NAME=M{name}", "*ELASTIC, TYPE=ORTHO", ", ".join(words[:8]),
              words[8] + f", {REFERENCE_TEMPERATURE}", "*EXPANSION, TYPE=ORTHO, ZERO="
              f"{REFERENCE_TEMPERATURE}", ", ".join(f"{a:.9e}" for a in expansion))


def orientation(deck, name, frame):
    words = ", ".join(f"{v:.12e}" for v in list(frame[:, 0]) + list(frame[:, 1]))
    deck.card(f"*ORIENTATION, NAME=O{name}, SYSTEM=RECTANGULAR", words)


class Mechanics:
    """A deck for one neck (on a Serendipity mesh) on its bench; one-sided springs by rounds."""

    def __init__(self, neck, bench, compliance, temperature=REFERENCE_TEMPERATURE):
        self.neck, self.bench, self.mesh = neck, bench, neck.mesh
        self.compliance, self.temperature = compliance, temperature

    def deck(self, closed):
        deck = ccx.Deck("neck on its bench")
        deck.nodes(self.mesh.position, np.unique(self.mesh.cell))
        for piece in np.unique(self.mesh.piece):
            cells = self.mesh.cell[self.mesh.piece == piece][:, ccx.CELL_ORDER] + 1
            deck.elements("C3D20", piece, cells)
        expansion = self.neck.expansions()
        for piece in np.unique(self.mesh.piece):
            orientation(deck, piece, self.neck.frame[piece])
            material(deck, piece, self.compliance[piece], expansion[piece])
            deck.card(f"*SOLID SECTION, ELSET={piece}, MATERIAL=M{piece}, ORIENTATION=O{piece}")
        self.add_glue(deck)
        loads = self.add_springs(deck, closed)
        self.add_step(deck, loads)
        return deck

    def add_glue(self, deck):
        shear, normal = self.neck.shear_stiffness(), self.neck.normal_stiffness()
        for upper, lower, area in line_ends(self.neck):
            for i, k in enumerate((shear, shear, normal)):
                other = None if lower is None else int(lower) + 1
                deck.spring(int(upper) + 1, i + 1, k * area, other)

    def add_springs(self, deck, closed):
        """Single nodes as they are; rows by a node that an equation ties to them."""
        loads, self.dummy = [], {}
        self.tip = deck.new_node()
        deck.card("*BOUNDARY", f"{self.tip}, 2, 3")
        for k, spring in enumerate(self.bench.springs):
            terms = [(self.tip if n == TIP else n + 1, i + 1, v)
                     for (n, i), v in spring.row.items() if v != 0]
            if spring.one_sided:
                self.dummy[k] = self.tie(deck, terms)
                if closed is None or closed[k]:
                    deck.spring(self.dummy[k], 1, spring.stiffness)
                    loads.append((self.dummy[k], 1, -spring.stiffness * spring.offset))
            elif len(terms) == 1 and terms[0][2] == 1:
                deck.spring(terms[0][0], terms[0][1], spring.stiffness)
            elif len(terms) == 2 and (terms[0][2], terms[1][2]) == (1, -1):
                deck.spring(terms[0][0], terms[0][1], spring.stiffness, terms[1][0])
            else:
                deck.spring(self.tie(deck, terms), 1, spring.stiffness)
        return loads

    def tie(self, deck, terms):
        node = deck.new_node()
        deck.card("*BOUNDARY", f"{node}, 2, 3")
        deck.equation([(node, 1, -1.0)] + terms)
        return node

    def add_step(self, deck, loads):
        everything = "TIED" if self.dummy else "ALL"
        if self.dummy:
            deck.card("*NSET, NSET=TIED", "ALL,", *[f"{n}," for n in self.dummy.values()])
        deck.card("*INITIAL CONDITIONS, TYPE=TEMPERATURE", f"ALL, {REFERENCE_TEMPERATURE}",
                  "*STEP", "*STATIC", "*TEMPERATURE", f"ALL, {self.temperature}", "*CLOAD")
        for (n, i), value in self.bench.load.items():
            deck.card(f"{n + 1}, {i + 1}, {value:.12e}")
        for node, component, value in loads:
            deck.card(f"{node}, {component}, {value:.12e}")
        deck.card(f"*NODE PRINT, NSET={everything}", "U", "*END STEP")

    def solve(self, folder, name, rounds=12):
        """{node: displacement}."""
        closed = None
        for _ in range(rounds):
            text = ccx.run(folder, name, self.deck(closed))
            moved = ccx.printed(text, 3)[-1][1]
            now = {k: moved[node - 1][0] + self.bench.springs[k].offset > 0
                   for k, node in self.dummy.items()}
            if all(now.values()) and closed is None or now == closed:
                return moved
            closed = now
        raise ArithmeticError("the one-sided springs do not settle")
