# SPDX-License-Identifier: GPL-3.0-or-later
"""Each proof: what the program says at the twenty places against what a reference says."""

from dataclasses import dataclass

import numpy as np

from own_creep import creep_history
from neck import Neck
from places import twenty
from readings import bow, told_bow
from references import at_time, bench_of, ccx_elastic, ccx_heat, own_elastic, own_heat
from slots import elastic_with_slots

DISPLACEMENT, SAME_CELLS, KELVIN = 0.01, 0.001, 0.5  # tolerances; the second: alike discretised
STEP, TOLD_FROM = 10.0, 240.0  # s, of the transient: increments of the reference, first comparison


@dataclass
class Row:
    proof: str
    quantity: str
    reference: str
    program_value: float
    reference_value: float
    difference: float
    tolerance: float
    unit: str  # of the difference: "%" or "K"

    def holds(self):
        return self.difference <= self.tolerance


@dataclass
class Work:
    """One proof at hand: case, tables, mesh, results, folder for decks."""
    name: str
    case: object
    tables: object
    mesh: object
    results: object
    results_path: object
    folder: object

    @property
    def spots(self):
        return twenty(self.mesh)

    def places(self):
        return self.mesh.position[self.spots]


def displacement_row(work, values, step, solver, tolerance, label="displacement"):
    """Largest difference of the places, as a share of the largest displacement."""
    told = work.results.field(step, "displacement", work.places())
    ours = np.array([values[n] for n in work.spots])
    size = [np.linalg.norm(v, axis=1) for v in (told, ours)]
    most = int(np.argmax(size[0]))
    off = np.linalg.norm(told - ours, axis=1).max() / size[0].max()
    return Row(work.name, label + ", mm", solver, 1e3 * size[0][most], 1e3 * size[1][most], off,
               tolerance, "%")


def bow_row(work, values, row, solver):
    told, fret = told_bow(work.results_path, row)
    ours = bow(work.case, work.mesh, values, fret)
    return Row(work.name, f"bow at fret {fret}, mm", solver, 1e3 * told, 1e3 * ours,
               abs(told - ours) / abs(told), DISPLACEMENT, "%")


def temperature_row(work, values, step, label, solver):
    told = work.results.field(step, "temperature", work.places())
    ours = np.array([values[n][0] for n in work.spots]) - 273.15
    worst = int(np.argmax(abs(told - ours)))
    return Row(work.name, label + ", degC", solver, told[worst], ours[worst],
               abs(told[worst] - ours[worst]), KELVIN, "K")


def at_once(work, faults, quick, temperature, step, same=SAME_CELLS):
    common = work.case, work.tables, work.mesh, temperature, faults
    values = own_elastic(*common)
    rows = [displacement_row(work, values, step, "own cells", same),
            bow_row(work, values, step, "own cells")]
    if not quick:
        rows.append(displacement_row(work, ccx_elastic(*common, work.folder), step, "CalculiX",
                                     DISPLACEMENT))
    return rows


def elastic(work, faults=(), quick=False):
    return at_once(work, faults, quick, work.case.value("room.temperature"), 0)


def clamp(work, faults=(), quick=False):
    """The pad is integrated in another way: not alike discretised."""
    return at_once(work, faults, quick, work.case.value("room.temperature"), 0, DISPLACEMENT)


def slots(work, faults=(), quick=False):
    """What a point of the cells has of a slot is taken in another way: not alike discretised."""
    temperature = work.case.value("room.temperature")
    neck = Neck(work.case, work.tables, work.mesh, faults)
    bench = bench_of(work.case, work.tables, work.mesh, work.case.phases[0], faults)
    values = elastic_with_slots(neck, bench, temperature)
    return [displacement_row(work, values, 0, "own cells", DISPLACEMENT),
            bow_row(work, values, 0, "own cells")]


def expansion(work, faults=(), quick=False):
    return at_once(work, faults, quick, 313.15, -1)


def steady(work, faults=(), quick=False):
    common = work.case, work.tables, work.mesh, faults
    values, power = own_heat(*common).steady()
    rows = [temperature_row(work, values, -1, f"temperature, {power:.1f} W", "own cells")]
    if not quick:
        values, power = ccx_heat(*common).steady(work.folder, "steady",
                                                 work.case.value("room.temperature"))
        rows.append(temperature_row(work, values, -1, f"temperature, {power:.1f} W", "CalculiX"))
    return rows


def temperature_rows(work, blocks, solver):
    """At the first and the last of the moments compared, and the worst between them."""
    rows = [temperature_row(work, at_time(blocks, time), step,
                            f"temperature at {time / 60:.1f} min", solver)
            for step, time in enumerate(work.results.times()) if time >= TOLD_FROM]
    return [rows[0], rows[-1]] + sorted(rows[1:-1], key=lambda r: -r.difference)[:1]


def transient(work, faults=(), quick=False):
    common = work.case, work.tables, work.mesh, faults
    heat, start = own_heat(*common), work.case.value("room.temperature")
    seconds = STEP * np.ceil(work.results.times()[-1] / STEP)
    power = heat.bar.power
    rows = temperature_rows(work, heat.transient(power, start, seconds, STEP), "own cells")
    if not quick:
        blocks = ccx_heat(*common).run(work.folder, "transient", power, start, seconds=seconds,
                                       dt=STEP)
        rows += temperature_rows(work, blocks, "CalculiX")
    return rows


def creep(work, faults=(), quick=False):
    case, phase = work.case, work.case.phases[0]
    neck = Neck(case, work.tables, work.mesh, faults)
    bench = bench_of(case, work.tables, work.mesh, phase, faults)
    times = work.results.times()
    history = creep_history(neck, bench, case.value("room.temperature"), times[-1])
    start, end = history[0][1], history[-1][1]
    grown = {n: end[n] - start[n] for n in end}
    told = work.results.field(-1, "displacement", work.places())
    first = work.results.field(0, "displacement", work.places())
    ours = np.array([grown[n] for n in work.spots])
    size = np.linalg.norm(told - first, axis=1)
    most = int(np.argmax(size))
    off = np.linalg.norm(told - first - ours, axis=1).max() / size.max()
    return [displacement_row(work, end, -1, "own cells", DISPLACEMENT),
            bow_row(work, end, -1, "own cells"),
            Row(work.name, "what it grew, mm", "own cells", 1e3 * size[most],
                1e3 * np.linalg.norm(ours[most]), off, DISPLACEMENT, "%")]


PROOFS = {"elastic": elastic, "clamp": clamp, "slots": slots, "expansion": expansion,
          "steady": steady, "transient": transient, "creep": creep}
# Faults put into the reference's numbers, and the proof that must miss its tolerance.
FAULTS = {
    "capacity": ("heat capacity 20 % too high", "transient"),
    "conductivity-swapped": ("conductivity along and across the grain swapped", "steady"),
    "along-as-across": ("conductivity along the grain as across, tongue not glued", "steady"),
    "film": ("films of the faces 20 % too high", "steady"),
    "line-left-out": ("the board's glue line left out", "elastic"),
    "board-turned": ("grain of the board turned by a quarter", "expansion"),
    "strings": ("strings pull 10 % more", "elastic"),
    "cords": ("cords taken up 10 % more", "clamp"),
    "expansion": ("thermal expansion 20 % too high", "expansion"),
    "creep": ("creep of the wood 20 % too high", "creep"),
}
