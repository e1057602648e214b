# SPDX-License-Identifier: GPL-3.0-or-later
"""Heat in the neck by CalculiX: 20-node cells, the lines and the bar's contact as thin cells.

The board is lifted by the thickness of its line, whose cells lie between; the bar is a row of
bricks whose sections have one temperature; the bar's contact is a layer of cells as thick as the
contact resists.
"""

import numpy as np

import ccx
from elements import face_shapes
from warmth import GLUE_CONDUCTANCE, STEFAN_BOLTZMANN

LAYER_CONDUCTIVITY = 0.01  # W/(m K), of the cells of the bar's contact: 0.2 to 0.4 mm thick
TEMPERATURE = 11  # CalculiX's number of that unknown
SAMPLES = 12  # along each side of a face, for what the bar covers
SKIN, SKIN_CONDUCTIVITY = 1e-5, 0.05  # m, W/(m K): cells that only carry a film
PATCHES = 4  # along each side of a face that is covered in part


def facing_up(nodes, position):
    """A face's 8 nodes in the order that makes its normal point to positive z."""
    a, b, c = (position[n] for n in nodes[:3])
    if np.cross(b - a, c - b)[2] > 0:
        return list(nodes)
    n = nodes
    return [n[0], n[3], n[2], n[1], n[7], n[6], n[5], n[4]]


class Heat:
    def __init__(self, warmth, bar):
        self.warmth, self.bar, self.neck = warmth, bar, warmth.neck
        self.mesh = self.neck.mesh
        self.position = self.mesh.position.copy()
        board = np.unique(self.mesh.cell[self.mesh.piece == "board"])
        self.position[board, 2] += self.neck.line_thickness
        self.deck = ccx.Deck("heat in the neck")
        self.films, self.radiation, self.uprights = [], [], {}
        self.add_pieces()
        self.add_line()
        self.find = ccx.FaceFinder(self.mesh.cell)
        self.covered = {}
        if bar:
            self.add_bar()
            self.add_contact("board_top", lambda y: bar.resistance(y))
            if bar.packing > 0:
                self.add_contact("headstock_face", lambda y: 1 / bar.packing)
        self.add_films()

    def add_pieces(self):
        d = self.deck
        d.nodes(self.position, np.unique(self.mesh.cell), name="NECK")
        self.cell_number = np.zeros(len(self.mesh.cell), int)
        for piece in np.unique(self.mesh.piece):
            which = np.flatnonzero(self.mesh.piece == piece)
            first = d.elements("C3D20", piece, self.mesh.cell[which][:, ccx.CELL_ORDER] + 1)
            self.cell_number[which] = first + np.arange(len(which))
            along, across, capacity = self.warmth.woods[piece]
            frame = self.neck.frame[piece]
            axes = ", ".join(f"{v:.12e}" for v in list(frame[:, 0]) + list(frame[:, 1]))
            d.card(f"*ORIENTATION, NAME=O{piece}, SYSTEM=RECTANGULAR", axes,
                   f"*MATERIAL, NAME=M{piece}", "*CONDUCTIVITY, TYPE=ORTHO",
                   f"{along:.9e}, {across:.9e}, {across:.9e}", "*DENSITY", "1000.",
                   "*SPECIFIC HEAT", f"{capacity / 1000:.9e}",
                   f"*SOLID SECTION, ELSET={piece}, MATERIAL=M{piece}, ORIENTATION=O{piece}")

    def section(self, name, conductivity, capacity=1.0):
        self.deck.card(f"*MATERIAL, NAME=M{name}", "*CONDUCTIVITY", f"{conductivity:.9e}",
                       "*DENSITY", "1.", "*SPECIFIC HEAT", f"{capacity:.9e}",
                       f"*SOLID SECTION, ELSET={name}, MATERIAL=M{name}")

    def upright(self, low, high):
        """The node half way between two corners of a thin cell; numbers from 1."""
        if (low, high) not in self.uprights:
            middle = (self.place[low] + self.place[high]) / 2
            self.uprights[low, high] = self.new_node(middle)
        return self.uprights[low, high]

    def new_node(self, place):
        node = self.deck.new_node(place)
        self.place[node] = np.asarray(place)
        return node

    def thin_cell(self, low, high):
        return low[:4] + high[:4] + low[4:] + high[4:] + [
            self.upright(a, b) for a, b in zip(low[:4], high[:4])]

    def add_line(self):
        self.place = {n + 1: p for n, p in enumerate(self.position)}
        below = {u: l for u, l, _ in self.neck.glue_pairs}
        cells = []
        for face in self.mesh.face["board_glue_upper"]:
            high = [n + 1 for n in facing_up(face, self.position)]
            cells.append(self.thin_cell([below[n - 1] + 1 for n in high], high))
        self.deck.elements("C3D20", "LINE", cells)
        conductance = GLUE_CONDUCTANCE * (1e-9 if "line-left-out" in self.neck.faults else 1)
        self.section("LINE", conductance * self.neck.line_thickness)

    def add_bar(self):
        """A section's four nodes have the temperature of its first."""
        bar, half = self.bar, self.bar.width / 2
        low, high = 0.05, 0.05 + bar.thickness
        self.station, rings = [], []
        for x in bar.x:
            ring = [self.new_node((x, y, z))
                    for y, z in [(-half, low), (half, low), (half, high), (-half, high)]]
            for other in ring[1:]:
                self.deck.equation([(other, TEMPERATURE, 1.0), (ring[0], TEMPERATURE, -1.0)])
            rings.append(ring)
            self.station.append(ring[0])
        first = self.deck.elements("C3D8", "BAR", [a + b for a, b in zip(rings[:-1], rings[1:])])
        self.section("BAR", bar.conductivity, bar.capacity)
        self.add_films_of_bar(first)

    def add_films_of_bar(self, first):
        """Corners a0..a3, b0..b3: faces 1, 2 are the ends, 3 the underside, 4 to 6 the rest."""
        bar = self.bar
        faces = ["board_top"] + (["headstock_face"] if bar.packing > 0 else [])
        x = self.position[np.concatenate([self.mesh.nodes_of(f) for f in faces]), 0]
        last = len(bar.x) - 2
        for e in range(last + 1):
            sides = [4, 5, 6] + [1] * (e == 0) + [2] * (e == last)
            self.films += [(first + e, f, bar.film) for f in sides]
            length = bar.x[e + 1] - bar.x[e]
            over = max(0.0, min(bar.x[e + 1], x.max()) - max(bar.x[e], x.min()))
            if over < length:
                self.films.append((first + e, 3, bar.film * (1 - over / length)))

    def share_covered(self, nodes, corner=(-1.0, -1.0), size=2.0):
        """Of a face, or of a square of it in its own coordinates."""
        t = (np.arange(SAMPLES) + 0.5) / SAMPLES * size
        places = [face_shapes(8, (corner[0] + u, corner[1] + v))[0] @ self.mesh.position[nodes]
                  for u in t for v in t]
        return np.mean([self.bar.covers(p[0], p[1]) for p in places])

    def top(self, place, resistance):
        """A node over the contact layer, at the bar's temperature."""
        x, y, z = place
        node = self.new_node((x, y, z + LAYER_CONDUCTIVITY * resistance(y)))
        self.deck.equation([(node, TEMPERATURE, -1.0)] + [
            (self.station[s], TEMPERATURE, w) for s, w in self.bar.weights(x)])
        return node

    def add_contact(self, name, resistance):
        """Cells over the covered faces, their upper nodes at the bar's temperature."""
        tops = {}
        for k, face in enumerate(self.mesh.face[name]):
            share = self.share_covered(face)
            self.covered[name, k] = share
            if 0 < share < 1:
                self.add_patches(f"P{name[0]}{k}", facing_up(face, self.position), resistance,
                                 self.warmth.film[name])
            if share < 1:
                continue
            low = [n + 1 for n in facing_up(face, self.position)]
            for n in low:
                if n not in tops:
                    tops[n] = self.top(self.position[n - 1], resistance)
            group = f"C{name[0]}{k}"
            self.deck.elements("C3D20", group, [self.thin_cell(low, [tops[n] for n in low])])
            self.section(group, LAYER_CONDUCTIVITY)

    def add_patches(self, group, face, resistance, film):
        """A face that is covered in part: small cells tied to it, each with its covered share of
        the contact, and a skin with the rest of the film."""
        size, grid = 2 / PATCHES, {}
        for i in range(PATCHES + 1):
            for j in range(PATCHES + 1):
                value = face_shapes(8, (i * size - 1, j * size - 1))[0]
                place = value @ self.position[face]
                low = self.new_node(place)
                self.deck.equation([(low, TEMPERATURE, -1.0)] + [
                    (n + 1, TEMPERATURE, v) for n, v in zip(face, value) if abs(v) > 1e-12])
                skin = self.new_node(place + [0, 0, SKIN])
                grid[i, j] = low, self.top(place, resistance), skin
        for i in range(PATCHES):
            for j in range(PATCHES):
                share = self.share_covered(face, (i * size - 1, j * size - 1), size)
                ring = [grid[i, j], grid[i + 1, j], grid[i + 1, j + 1], grid[i, j + 1]]
                low, top, skin = zip(*ring)
                name = f"{group}N{i}N{j}"
                if share > 0:
                    self.deck.elements("C3D8", name, [low + top])
                    self.section(name, LAYER_CONDUCTIVITY * share)
                if share < 1:
                    cell = self.deck.elements("C3D8", name + "S", [low + skin])
                    self.section(name + "S", SKIN_CONDUCTIVITY)
                    self.add_film(cell, 2, film, 1 - share)

    def add_film(self, cell, number, film, share=1.0):
        self.films.append((cell, number, film.conductance * share))
        if film.emissivity > 0:
            self.radiation.append((cell, number, film.emissivity * share))

    def add_films(self):
        """Of the faces that the bar does not touch."""
        for name, film in self.warmth.film.items():
            for k, face in enumerate(self.mesh.face.get(name, [])):
                if self.covered.get((name, k), 0.0) == 0:
                    cell, number = self.find(face)
                    self.add_film(self.cell_number[cell], number, film)

    def step(self, power, start, seconds=None, dt=None, every=1):
        """Cards of a steady step (no seconds) or of one of even increments."""
        d = ccx.Deck("")
        kind = "*HEAT TRANSFER, STEADY STATE" if seconds is None else "*HEAT TRANSFER, DIRECT"
        d.lines = ["*PHYSICAL CONSTANTS, ABSOLUTE ZERO=0, STEFAN BOLTZMANN="
                   f"{STEFAN_BOLTZMANN}", "*INITIAL CONDITIONS, TYPE=TEMPERATURE"]
        d.lines += [f"{n}, {start}" for n in range(1, self.deck.n_nodes + 1)]
        d.card("*STEP, INC=100000", kind, "1., 1." if seconds is None else f"{dt}, {seconds}")
        d.card("*FILM", *[f"{e}, F{f}, {self.warmth.air}, {h:.9e}" for e, f, h in self.films])
        d.card("*RADIATE", *[f"{e}, R{f}, {self.warmth.air}, {h:.9e}"
                             for e, f, h in self.radiation])
        if self.bar:
            d.card("*CFLUX", *[f"{n}, {TEMPERATURE}, {power * s:.9e}"
                               for n, s in zip(self.station, self.bar.iron_shares()) if s > 0])
        d.card(f"*NODE PRINT, NSET=SHOWN, FREQUENCY={every}", "NT", "*END STEP")
        return d.lines

    def run(self, folder, name, *step, **more):
        d = ccx.Deck("")
        shown = self.station if self.bar else []
        d.lines = self.deck.lines + ["*NSET, NSET=SHOWN", "NECK,"] + [f"{n}," for n in shown]
        d.lines = d.lines + self.step(*step, **more)
        return ccx.printed(ccx.run(folder, name, d), 1)

    def at_sensor(self, values):
        return sum(w * values[self.station[s] - 1][0]
                   for s, w in self.bar.weights(self.bar.sensor))

    def steady(self, folder, name, start):
        """Temperatures with the thermostat's thermometer at its figure; also the power, W."""
        powers, shown = [20.0], []
        for _ in range(6):
            values = self.run(folder, name, powers[-1], start)[-1][1]
            shown.append(self.at_sensor(values))
            if abs(shown[-1] - self.bar.set_point) < 1e-3:
                return values, powers[-1]
            known = [(self.warmth.air, 0.0)] + list(zip(shown, powers))
            (a, p), (b, q) = known[-2:]
            powers.append(q + (self.bar.set_point - b) * (q - p) / (b - a))
        raise ArithmeticError("the thermostat does not settle")
