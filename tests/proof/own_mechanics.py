# SPDX-License-Identifier: GPL-3.0-or-later
"""A finite-element assembly of its own (numpy, band solver of LAPACK) on the 27-node cells."""

import numpy as np
import scipy.sparse as sparse
from scipy.linalg import cho_solve_banded, cholesky_banded

from bench import TIP
from elements import CellPoints, strain_matrix, strain_turn


class Solid:
    """Stiffness of the cells for compliances by piece; strains at the Gauss points."""

    def __init__(self, neck):
        mesh = neck.mesh
        self.mesh, self.neck = mesh, neck
        points = CellPoints(mesh)
        self.size = 3 * len(mesh.position) + 1  # the last one is the body's tip
        self.dof = (3 * mesh.cell[:, :, None] + np.arange(3)).reshape(len(mesh.cell), 81)
        turn = {piece: strain_turn(frame) for piece, frame in neck.frame.items()}
        # Strains in wood axes at the 27 points of a cell below each other: (cells, 162, 81).
        self.strains = np.concatenate(
            [np.matmul(self.by_cell(turn), strain_matrix(g)) for g in points.gradient], axis=1)
        self.volume = np.array(points.volume).T  # (cells, 27)

    def by_cell(self, by_piece):
        return np.array([by_piece[p] for p in self.mesh.piece])

    def times_law(self, compliance, strain):
        """Stress times volume from strains (cells, 27, 6, ...), compliances by piece."""
        law = np.linalg.inv(self.by_cell(compliance))
        weighted = law[:, None] * self.volume[:, :, None, None]
        return np.matmul(weighted, strain)

    def stiffness(self, compliance):
        """Of compliances by piece (wood axes)."""
        return self.stiffness_of(np.linalg.inv(self.by_cell(compliance))[:, None])

    def stiffness_of(self, law):
        """Of stiffnesses (cells, 27 or 1 points, 6, 6) in wood axes."""
        weighted = law * self.volume[:, :, None, None]
        forces = np.matmul(weighted, self.strains.reshape(len(self.volume), 27, 6, 81))
        k = np.matmul(self.strains.transpose(0, 2, 1), forces.reshape(self.strains.shape))
        rows = np.repeat(self.dof, 81, axis=1).ravel()
        columns = np.tile(self.dof, (1, 81)).ravel()
        return sparse.csr_matrix((k.ravel(), (rows, columns)), shape=(self.size, self.size))

    def strain(self, u):
        """(cells, 27, 6) in wood axes at the Gauss points."""
        return np.einsum("cij,cj->ci", self.strains, u[self.dof]).reshape(-1, 27, 6)

    def forces(self, stress_times_volume):
        """Nodal forces of stresses (cells, 27, 6)."""
        out = np.zeros(self.size)
        flat = stress_times_volume.reshape(len(self.volume), 162)
        np.add.at(out, self.dof, np.einsum("cij,ci->cj", self.strains, flat))
        return out

    def push_of_free_strain(self, compliance, free):
        """Nodal forces of free strains by piece (L, R, T)."""
        strain = self.by_cell({p: np.concatenate([f, np.zeros(3)]) for p, f in free.items()})
        strain = np.repeat(strain[:, None, :, None], 27, axis=1)
        return self.forces(self.times_law(compliance, strain)[..., 0])


def index(key, size):
    node, component = key
    return size - 1 if node == TIP else 3 * node + component


def rows_matrix(springs, size):
    entries = [(k, index(key, size), value) for k, s in enumerate(springs)
               for key, value in s.row.items()]
    k, i, v = zip(*entries) if entries else ((), (), ())
    return sparse.csr_matrix((v, (k, i)), shape=(len(springs), size))


def line_ends(neck):
    """(upper node, lower node or None, area) of the board's line, then of a glued tongue."""
    return list(neck.glue_pairs) + [(n, None, a) for n, a in neck.tongue.items()]


def line_rows(neck, size):
    """Slips along x and y and the opening of each pair: three matrices (pairs, unknowns), areas."""
    ends = line_ends(neck)
    rows = []
    for i in range(3):
        up = [(k, 3 * u + i, 1.0) for k, (u, _, _) in enumerate(ends)]
        low = [(k, 3 * l + i, -1.0) for k, (_, l, _) in enumerate(ends) if l is not None]
        k, c, v = zip(*(up + low))
        rows.append(sparse.csr_matrix((v, (k, c)), shape=(len(ends), size)))
    return rows, np.array([area for _, _, area in ends])


def glue_stiffness(neck, size, shear, normal):
    """The lines lie in the plane z = 0. shear, normal: Pa/m, one number or one a pair."""
    rows, area = line_rows(neck, size)
    return sum(r.T @ sparse.diags(np.broadcast_to(k, area.shape) * area) @ r
               for r, k in zip(rows, (shear, shear, normal)))


def load_vector(bench, size):
    load = np.zeros(size)
    for key, value in bench.load.items():
        load[index(key, size)] += value
    return load


class BandFactor:
    """Cholesky of a symmetric matrix; unknowns in the order along the neck: a slender band."""

    def __init__(self, matrix, along):
        size = matrix.shape[0]
        self.order = np.argsort(along, kind="stable")
        m = sparse.tril(matrix.tocsr()[self.order][:, self.order]).tocoo()
        band = np.zeros((int((m.row - m.col).max()) + 1, size))
        np.add.at(band, (m.row - m.col, m.col), m.data)
        self.factor = cholesky_banded(band, overwrite_ab=True, lower=True, check_finite=False)

    def solve(self, load):
        x = np.empty_like(load)
        x[self.order] = cho_solve_banded((self.factor, True), load[self.order], check_finite=False)
        return x


class Held:
    """A neck on its bench: two-sided springs in the factor, one-sided ones beside it."""

    def __init__(self, matrix, bench, position):
        size = matrix.shape[0]
        both = [s for s in bench.springs if not s.one_sided]
        self.single = [s for s in bench.springs if s.one_sided]
        rows = rows_matrix(both, size)
        self.matrix = matrix + rows.T @ sparse.diags([s.stiffness for s in both]) @ rows
        along = np.append(np.repeat(position[:, 0], 3), np.inf)  # the tip last
        self.factor = BandFactor(self.matrix, along)
        self.rows = rows_matrix(self.single, size)
        if self.single:
            self.moved = self.factor.solve(self.rows.T.toarray())
            self.give = self.rows @ self.moved  # of each row under a unit force on another
        self.load = load_vector(bench, size)

    def equilibrium(self, more_load=0, rounds=50):
        u = self.factor.solve(self.load + more_load)
        if not self.single:
            return u
        k = np.array([s.stiffness for s in self.single])
        free = self.rows @ u + np.array([s.offset for s in self.single])
        closed = free > 0
        for _ in range(rounds):
            force, at = np.zeros(len(k)), np.flatnonzero(closed)
            flexible = np.diag(1 / k[at]) + self.give[np.ix_(at, at)]
            force[at] = np.linalg.solve(flexible, free[at])
            now = free - self.give @ force > 0
            if np.array_equal(now, closed):
                return u - self.moved @ force
            closed = now
        raise ArithmeticError("the one-sided springs do not settle")
