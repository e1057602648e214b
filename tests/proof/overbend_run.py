# SPDX-License-Identifier: GPL-3.0-or-later
"""What the program itself says: its mesh and its fields at nodes, at the steps it stored."""

import hashlib
import os
import subprocess
from pathlib import Path

import h5py
import numpy as np


def call(program, words, folder, tables=None):
    environment = dict(os.environ, OMP_NUM_THREADS="1")
    if tables:
        environment["OVERBEND_TABLES"] = str(tables)
    done = subprocess.run([program] + words, cwd=folder, env=environment, capture_output=True,
                          text=True, check=False)
    if done.returncode != 0:
        raise RuntimeError(f"overbend {' '.join(words)}: {done.stdout}{done.stderr}")


def mesh_and_results(program, case, tables=None):
    """(mesh file, results file) of a case; made anew only if program, case or tables changed."""
    case = Path(case)
    mesh, results = case.with_suffix(".msh"), case.with_suffix("") / "results.h5"
    parts = [Path(program).read_bytes(), case.read_bytes()]
    parts += [p.read_bytes() for p in sorted(Path(tables).glob("*.toml"))] if tables else []
    mark, stamp = hashlib.sha256(b"".join(parts)).hexdigest(), case.with_suffix(".made")
    if stamp.exists() and stamp.read_text("utf-8") == mark:
        return mesh, results
    call(program, ["mesh", case.name, "-o", mesh.name, "--replace"], case.parent)
    call(program, ["simulate", case.name, "-o", case.stem, "--replace", "--no-pictures",
                   "--quiet"], case.parent, tables)
    stamp.write_text(mark, encoding="utf-8")
    return mesh, results


class Results:
    """Fields of a run by node of the mesh file; nodes that lie at one place twice are refused."""

    def __init__(self, path):
        self.file = h5py.File(path, "r")
        place = self.file["mesh/nodes"][:].astype(float)
        self.at = {}
        for i, p in enumerate(place):
            self.at.setdefault(self.key(p), []).append(i)
        self.steps = [s for s in sorted(self.file["steps"])
                      if "phase" in self.file["steps"][s].attrs]

    @staticmethod
    def key(place):
        return tuple(np.round(np.asarray(place) / 2e-6).astype(int))

    def node(self, place):
        base = self.key(place)
        near = {tuple(np.add(base, [a, b, c]))
                for a in (-1, 0, 1) for b in (-1, 0, 1) for c in (-1, 0, 1)}
        found = [i for k in near for i in self.at.get(k, [])]
        if len(found) != 1:
            raise ValueError(f"{len(found)} nodes of the results at {place}")
        return found[0]

    def times(self):
        return [float(self.file["steps"][s].attrs["time"]) for s in self.steps]

    def field(self, step, name, places):
        nodes = [self.node(p) for p in places]
        return self.file["steps"][self.steps[step]][name][:][nodes].astype(float)
