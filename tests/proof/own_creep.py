# SPDX-License-Identifier: GPL-3.0-or-later
"""A creep history at one temperature and moisture: Kelvin chains in the wood, Maxwell branches in
the line, solved in time by an assembly of its own. CalculiX has no law of this kind.

Wood: strain = S_0 sigma + sum e_i, de_i/dxi = (g_i J sigma - e_i)/tau_i. The part of creep that
does not come back moves alike while a stress lasts; here all of it does, which is right as long
as stresses do not go back.
Line: tau = G_plateau gamma + sum q_k, dq_k/dxi = G_k dgamma/dxi - q_k/tau_k.
"""

import math

import numpy as np

from own_mechanics import Held, Solid, glue_stiffness, line_ends, line_rows
from tables import GAS_CONSTANT, REFERENCE_TEMPERATURE, rest_humidity


def softening_temperature(glue, moisture, temperature):
    """Of a glue that is not animal, beside wood of a moisture content: by the air the wood would
    be at rest with at that temperature."""
    humidity = rest_humidity(temperature, moisture)
    return glue["softening"] + glue["humidity_slope"] * (humidity - 0.5)


def line_shift(glue, moisture, temperature):
    """Reduced time per time: WLF above the softening temperature, Arrhenius below."""
    soft = softening_temperature(glue, moisture, temperature)
    warmer = temperature - soft
    if warmer > 0:
        return 10 ** (glue["wlf_c1"] * warmer / (glue["wlf_c2"] + warmer))
    return math.exp(-glue["activation_energy"] / GAS_CONSTANT * (1 / temperature - 1 / soft))


def mean_decay(h):
    """(1 - exp(-h))/h for an array."""
    return -np.expm1(-h) / h


class Chains:
    """Creep of the wood at the Gauss points: (element, cell, 27, 6) in wood axes."""

    def __init__(self, neck, solid, temperature):
        self.neck, self.solid, self.temperature = neck, solid, temperature
        wood = next(iter(neck.wood.values()))
        self.times = np.array(wood.n["creep_time"])
        self.shares = np.array(wood.n["creep_share"]) * (1.2 if "creep" in neck.faults else 1)
        self.shift = wood.creep_shift(temperature, neck.moisture)
        self.at_once = neck.compliances(temperature)
        self.creep = {p: w.creep_compliance(temperature, neck.moisture)
                      for p, w in neck.wood.items()}
        self.cell_creep = solid.by_cell(self.creep)
        self.strain = np.zeros((len(self.times), len(solid.volume), 27, 6))

    def gain(self, dt):
        return -np.expm1(-dt * self.shift / self.times)

    def compliance(self, dt):
        """Of the end of a step of even stress."""
        grown = (self.shares * self.gain(dt)).sum()
        return {p: s + grown * self.creep[p] for p, s in self.at_once.items()}

    def kept(self, dt):
        """Strain at the end without stress in the step."""
        return np.einsum("e,ecqi->cqi", 1 - self.gain(dt), self.strain)

    def finish(self, dt, stress):
        drive = np.einsum("cij,cqj->cqi", self.cell_creep, stress)
        for e, gain in enumerate(self.gain(dt)):
            self.strain[e] += gain * (self.shares[e] * drive - self.strain[e])


class Line:
    """Stresses of the branches at the pairs of nodes: (branch, direction, pair)."""

    def __init__(self, neck, solid, temperature):
        glue, self.thickness = neck.glue, neck.line_thickness
        self.plateau = glue["plateau"]
        self.modulus = np.array(glue["branch_modulus"])
        self.times = np.array(glue["branch_time"])
        self.shift = line_shift(glue, neck.moisture, temperature)
        self.rows, self.area = line_rows(neck, solid.size)
        self.stress = np.zeros((len(self.times), 2, len(line_ends(neck))))
        self.slip = np.zeros((2, len(self.area)))

    def branch_stiffness(self, dt):
        h = np.maximum(dt * self.shift / self.times, 1e-12)
        return self.modulus * mean_decay(h) / self.thickness, np.exp(-h)

    def stiffness(self, dt):
        return self.plateau / self.thickness + self.branch_stiffness(dt)[0].sum()

    def finish(self, dt, u):
        slip = np.array([self.rows[i] @ u for i in (0, 1)])
        k, decay = self.branch_stiffness(dt)
        self.stress = (decay[:, None, None] * self.stress
                       + k[:, None, None] * (slip - self.slip)[None])
        self.slip = slip

    def push(self, dt):
        """Forces on the unknowns that stand for what the branches still have."""
        k, decay = self.branch_stiffness(dt)
        rest = np.einsum("b,bdp->dp", decay, self.stress) - k.sum() * self.slip
        return -sum(self.rows[i].T @ (self.area * rest[i]) for i in (0, 1))


def stretches(duration, first=10.0, each=3):
    """Steps that double after every few, so that few matrices are needed."""
    left, dt, steps = duration, first, []
    while left > 1e-6:
        for _ in range(each):
            step = min(dt, left)
            steps.append(step)
            left -= step
            if left <= 1e-6:
                break
        dt *= 2
    return steps


def creep_history(neck, bench, temperature, duration):
    """[(time, displacements)] with the load on from the start; time 0 is at once."""
    solid = Solid(neck)
    chains, line = Chains(neck, solid, temperature), Line(neck, solid, temperature)
    free = {p: np.concatenate([a * (temperature - REFERENCE_TEMPERATURE), np.zeros(3)])
            for p, a in neck.expansions().items()}
    free = solid.by_cell(free)[:, None, :]
    history, time, last = [], 0.0, None
    for dt in [0.0] + stretches(duration):
        if dt != last:
            compliance = chains.compliance(dt)
            matrix = solid.stiffness(compliance) + glue_stiffness(
                neck, solid.size, line.stiffness(dt), neck.normal_stiffness())
            held, last = Held(matrix, bench, neck.mesh.position), dt
        kept = chains.kept(dt) + free
        push = solid.forces(solid.times_law(compliance, kept[..., None])[..., 0])
        u = held.equilibrium(push + line.push(dt))
        elastic = solid.strain(u) - kept
        stress = np.einsum("cij,cqj->cqi", np.linalg.inv(solid.by_cell(compliance)), elastic)
        chains.finish(dt, stress)
        line.finish(dt, u)
        time += dt
        history.append((time, dict(enumerate(u[:-1].reshape(-1, 3)))))
    return history
