# SPDX-License-Identifier: GPL-3.0-or-later
"""What a reference says of a proof: {node: displacement or temperature}, by solver."""

from bench import Bench, bear_on_cradle, hold_body, pull_cords, string_up
from ccx_heat import Heat
from ccx_mechanics import Mechanics
from mesh_file import Serendipity
from neck import Neck
from own_heat import OwnHeat
from own_mechanics import Held, Solid, glue_stiffness
from quantity import quantity
from tables import REFERENCE_TEMPERATURE
from warmth import Bar, Warmth


def bench_of(case, tables, mesh, phase, faults):
    bench = Bench()
    hold_body(bench, case, mesh)
    if phase["kind"] == "string up":
        string_up(bench, case, tables, mesh, 1.1 if "strings" in faults else 1.0)
    if phase["kind"] == "clamp":
        factor = 1.1 if "cords" in faults else 1.0
        pull_cords(bench, case, mesh, {side: factor * quantity(phase[f"take_up_{side}"])
                                       for side in ("bass", "treble")})
        bear_on_cradle(bench, case, mesh)
    return bench


def own_elastic(case, tables, mesh, temperature, faults):
    neck = Neck(case, tables, mesh, faults)
    solid = Solid(neck)
    compliance = neck.compliances(temperature)
    matrix = solid.stiffness(compliance) + glue_stiffness(
        neck, solid.size, neck.shear_stiffness(), neck.normal_stiffness())
    held = Held(matrix, bench_of(case, tables, mesh, case.phases[0], faults), mesh.position)
    kelvin = temperature - REFERENCE_TEMPERATURE
    free = {p: a * kelvin for p, a in neck.expansions().items()}
    u = held.equilibrium(solid.push_of_free_strain(compliance, free))
    return dict(enumerate(u[:-1].reshape(-1, 3)))


def ccx_elastic(case, tables, mesh, temperature, faults, folder):
    mesh = Serendipity(mesh)
    neck = Neck(case, tables, mesh, faults)
    bench = bench_of(case, tables, mesh, case.phases[0], faults)
    deck = Mechanics(neck, bench, neck.compliances(temperature), temperature)
    return deck.solve(folder, "mechanics")


def own_heat(case, tables, mesh, faults):
    neck = Neck(case, tables, mesh, faults)
    return OwnHeat(Warmth(case, neck, case.value("room.temperature"), faults), Bar(case, tables))


def ccx_heat(case, tables, mesh, faults):
    neck = Neck(case, tables, Serendipity(mesh), faults)
    return Heat(Warmth(case, neck, case.value("room.temperature"), faults), Bar(case, tables))


def at_time(blocks, time):
    """Values between the increments before and after."""
    for (a, before), (b, after) in zip(blocks[:-1], blocks[1:]):
        if a <= time <= b + 1e-6:
            share = (time - a) / (b - a)
            return {n: (1 - share) * before[n] + share * after[n] for n in before}
    raise ValueError(f"the reference does not reach {time} s")
