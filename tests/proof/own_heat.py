# SPDX-License-Identifier: GPL-3.0-or-later
"""Heat by an assembly of its own: 27-node cells; films and contact at points of faces."""

import numpy as np
import scipy.sparse as sparse

from elements import GAUSS, CellPoints, face_shapes
from own_mechanics import BandFactor
from warmth import GLUE_CONDUCTANCE, STEFAN_BOLTZMANN

FINE = 12  # points along each side of a face that the bar touches


def square_points(count):
    """Points and weights of a face: Gauss, or the middles of many squares."""
    t, w = GAUSS
    if count > 3:
        t, w = (np.arange(count) + 0.5) / count * 2 - 1, np.full(count, 2 / count)
    return [((a, b), u * v) for a, u in zip(t, w) for b, v in zip(t, w)]


class OwnHeat:
    """Unknowns: the nodes of the mesh, then the stations of the bar."""

    def __init__(self, warmth, bar):
        self.warmth, self.bar, self.mesh = warmth, bar, warmth.neck.mesh
        self.nodes = len(self.mesh.position)
        self.size = self.nodes + len(bar.x)
        self.films, self.contacts = [], []  # (row {unknown: weight}, W/K, emissivity times area)
        self.add_cells()
        for name, film in warmth.film.items():
            self.add_face(name, film)
        self.conduction += self.of_rows([(r, c) for r, c in self.contacts])
        self.add_lines()
        self.add_bar()
        self.rows = self.rows_matrix([r for r, _, _ in self.films])
        self.film = np.array([c for _, c, _ in self.films])
        self.shine = np.array([e for _, _, e in self.films]) * STEFAN_BOLTZMANN

    def rows_matrix(self, rows):
        k, i, v = zip(*((k, n, w) for k, row in enumerate(rows) for n, w in row.items()))
        return sparse.csr_matrix((v, (k, i)), shape=(len(rows), self.size))

    def of_rows(self, weighted):
        rows = self.rows_matrix([r for r, _ in weighted])
        return rows.T @ sparse.diags([c for _, c in weighted]) @ rows

    def add_cells(self):
        points, cells = CellPoints(self.mesh), self.mesh.cell
        wood = [self.warmth.woods[p] for p in self.mesh.piece]
        frame = np.array([self.warmth.neck.frame[p] for p in self.mesh.piece])
        k = np.array([np.diag([along, across, across]) for along, across, _ in wood])
        k = np.einsum("cia,cab,cjb->cij", frame, k, frame)
        heat = np.array([capacity for _, _, capacity in wood])
        flow = np.zeros((len(cells), 27, 27))
        store = np.zeros_like(flow)
        for value, gradient, volume in zip(points.value, points.gradient, points.volume):
            weighted = np.matmul(gradient, k * volume[:, None, None])
            flow += np.matmul(weighted, gradient.transpose(0, 2, 1))
            store += np.outer(value, value)[None] * (heat * volume)[:, None, None]
        at = np.repeat(cells, 27, axis=1).ravel(), np.tile(cells, (1, 27)).ravel()
        shape = (self.size, self.size)
        self.conduction = sparse.csr_matrix((flow.ravel(), at), shape=shape)
        self.capacity = sparse.csr_matrix((store.ravel(), at), shape=shape)

    def add_face(self, name, film):
        touched = name == "board_top" or (name == "headstock_face" and self.bar.packing > 0)
        for nodes in self.mesh.face.get(name, []):
            place = self.mesh.position[nodes]
            near = touched and place[:, 0].max() > self.bar.start - 1e-9 \
                and place[:, 0].min() < self.bar.end + 1e-9
            for point, weight in square_points(FINE if near else 3):
                value, slope = face_shapes(9, point)
                area = weight * np.linalg.norm(np.cross(slope[:, 0] @ place, slope[:, 1] @ place))
                x, y, _ = value @ place
                row = {int(n): v for n, v in zip(nodes, value) if v != 0}
                if near and self.bar.covers(x, y):
                    self.touch(name, row, x, y, area)
                else:
                    self.films.append((row, film.conductance * area, film.emissivity * area))

    def touch(self, name, row, x, y, area):
        conductance = self.bar.packing
        if name == "board_top":
            conductance = 1 / self.bar.resistance(y)
        for station, weight in self.bar.weights(x):
            row[self.nodes + station] = -weight
        self.contacts.append((row, conductance * area))

    def add_lines(self):
        factor = 1e-9 if "line-left-out" in self.warmth.neck.faults else 1.0
        pairs = [({int(u): 1.0, int(l): -1.0}, factor * GLUE_CONDUCTANCE * area)
                 for u, l, area in self.warmth.neck.glue_pairs]
        if pairs:
            self.conduction += self.of_rows(pairs)

    def add_bar(self):
        bar, first = self.bar, self.nodes
        section, around = bar.width * bar.thickness, bar.width + 2 * bar.thickness
        length = np.diff(bar.x)
        flows = [({first + k: 1.0, first + k + 1: -1.0}, bar.conductivity * section / d)
                 for k, d in enumerate(length)]
        store = sparse.lil_matrix((self.size, self.size))
        for k, d in enumerate(length):
            heat = bar.capacity * section * d / 6
            for i, j, w in ((k, k, 2), (k, k + 1, 1), (k + 1, k, 1), (k + 1, k + 1, 2)):
                store[first + i, first + j] += w * heat
            for i in (k, k + 1):
                self.films.append(({first + i: 1.0}, bar.film * around * d / 2, 0.0))
        for i in (0, len(length)):
            self.films.append(({first + i: 1.0}, bar.film * section, 0.0))
        self.conduction += self.of_rows(flows)
        self.capacity += store.tocsr()
        self.iron = np.zeros(self.size)
        self.iron[first:] = bar.iron_shares()
        self.sensor = np.zeros(self.size)
        for station, weight in bar.weights(bar.sensor):
            self.sensor[first + station] = weight

    def place_of_unknowns(self):
        along = np.append(self.mesh.position[:, 0], self.bar.x)
        return along

    def loss(self, temperature):
        """Heat out of every unknown: conduction, films and radiation, W."""
        at = self.rows @ temperature
        air = self.warmth.air
        out = self.film * (at - air) + self.shine * (at ** 4 - air ** 4)
        return self.conduction @ temperature + self.rows.T @ out

    def tangent(self):
        """Radiation as at the air's temperature: near enough to iterate with."""
        film = self.film + 4 * self.shine * (self.warmth.air + 15) ** 3
        return self.conduction + self.rows.T @ sparse.diags(film) @ self.rows

    def factor(self, matrix):
        return BandFactor(matrix, self.place_of_unknowns())

    def steady(self):
        """(temperatures, power): the thermostat's thermometer shows its figure."""
        factor = self.factor(self.tangent())
        temperature, power = np.full(self.size, self.warmth.air), 0.0
        unit = factor.solve(self.iron)
        for _ in range(60):
            change = factor.solve(power * self.iron - self.loss(temperature))
            more = (self.bar.set_point - self.sensor @ (temperature + change)) / (
                self.sensor @ unit)
            power += more
            change += more * unit
            temperature = temperature + change
            if abs(change).max() < 1e-7:
                return self.shown(temperature), power
        raise ArithmeticError("radiation does not settle")

    def transient(self, power, start, seconds, dt):
        """[(time, temperatures)] by the formula of two steps back (BDF2), the first one by one."""
        before = now = np.full(self.size, start)
        history, factors = [(0.0, self.shown(now))], {}
        for k in range(int(round(seconds / dt))):
            lead = 1.0 if k == 0 else 1.5
            if lead not in factors:
                factors[lead] = self.factor(self.tangent() + self.capacity * (lead / dt))
            old = now if k == 0 else 2 * now - 0.5 * before
            new = now
            for _ in range(60):
                short = power * self.iron - self.loss(new) - self.capacity @ (
                    lead * new - old) / dt
                change = factors[lead].solve(short)
                new = new + change
                if abs(change).max() < 1e-6:
                    break
            before, now = now, new
            history.append(((k + 1) * dt, self.shown(now)))
        return history

    def shown(self, temperature):
        return {n: np.array([t]) for n, t in enumerate(temperature[:self.nodes])}
