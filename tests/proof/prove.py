# SPDX-License-Identifier: GPL-3.0-or-later
"""Proof from outside: runs the program on cases of its own and prints one table of differences.

Exit status 1 where a tolerance is missed, or, with --faults, where a fault is not seen.
"""

import argparse
import hashlib
import json
import os
import sys
from dataclasses import asdict
from pathlib import Path

from case_values import CaseValues
from make_case import make_case, tables_of_still_wood
from mesh_file import Mesh
from overbend_run import Results, mesh_and_results
from proofs import FAULTS, PROOFS, Row, Work
from tables import Tables

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent


def arguments():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("proof", nargs="*", help="of " + ", ".join(PROOFS) + " (all)")
    parser.add_argument("--program", default=ROOT / "build/release/solver/overbend", type=Path)
    parser.add_argument("--work", default=ROOT / "build/proof", type=Path, help="folder to work in")
    parser.add_argument("--resolution", default=1.0, type=float)
    parser.add_argument("--fault", action="append", default=[], choices=FAULTS,
                        help="put into the reference's numbers; the proof is to miss")
    parser.add_argument("--faults", action="store_true", help="all of them, one at a time")
    return parser.parse_args()


def prepare(name, options):
    folder = options.work / f"{options.resolution:g}"
    folder.mkdir(parents=True, exist_ok=True)
    tables, changed = ROOT / "materials", None
    if name == "expansion":
        tables = changed = folder / "tables"
        tables_of_still_wood(ROOT / "materials", tables)
    path = folder / f"{name}.toml"
    text = path.read_bytes() if path.exists() else b""
    make_case(ROOT / "cases/demonstration.toml", HERE / f"proofs/{name}.toml", options.resolution,
              path)
    if text and path.read_bytes() != text:
        print(f"{name}: the case has changed", file=sys.stderr)
    mesh, results = mesh_and_results(options.program, path, changed)
    case = CaseValues(path, ROOT / "cases/README.md")
    return Work(name, case, Tables(tables), Mesh(mesh), Results(results), results,
                folder / f"ccx-{name}")


def mark_of(name, faults, options):
    """What a proof's rows hang on: this code, the tables, the program's run."""
    made = options.work / f"{options.resolution:g}" / f"{name}.made"
    parts = [f.read_bytes() for f in sorted(HERE.glob("*.py")) + sorted(
        (ROOT / "materials").glob("*.toml")) + [made, ROOT / "cases/README.md"]]
    return hashlib.sha256(b"".join(parts) + repr(sorted(faults)).encode()).hexdigest()


def rows_of(name, faults, options):
    """Taken from the last run where nothing has changed."""
    work = prepare(name, options)
    kept = options.work / f"{options.resolution:g}" / "-".join([name, *faults, "rows.json"])
    mark = mark_of(name, faults, options)
    if kept.exists():
        stored = json.loads(kept.read_text("utf-8"))
        if stored["mark"] == mark:
            return [Row(**row) for row in stored["rows"]]
    rows = PROOFS[name](work, faults, quick=bool(faults))
    kept.write_text(json.dumps({"mark": mark, "rows": [asdict(r) for r in rows]}), "utf-8")
    return rows


def shown(value, unit):
    return f"{100 * value:.3f} %" if unit == "%" else f"{value:.2f} K"


HEAD = f"{'proof':<10} {'quantity':<28} {'reference':<10} {'Overbend':>10} {'reference':>10} " \
       f"{'difference':>11} {'tolerance':>10}"


def line_of(row):
    return (f"{row.proof:<10} {row.quantity:<28} {row.reference:<10} {row.program_value:>10.4f} "
            f"{row.reference_value:>10.4f} {shown(row.difference, row.unit):>11} "
            f"{shown(row.tolerance, row.unit):>10}  {'' if row.holds() else 'MISSED'}").rstrip()


def prove(names, faults, options):
    """True if all hold."""
    holds = True
    print(HEAD, flush=True)
    for name in names:
        for row in rows_of(name, tuple(faults), options):
            print(line_of(row), flush=True)
            holds = holds and row.holds()
    return holds


def try_faults(options):
    """True if each is seen by the proof that is to see it."""
    seen_all = True
    print(HEAD, flush=True)
    for fault, (what, proof) in FAULTS.items():
        worst = max(rows_of(proof, (fault,), options), key=lambda r: r.difference / r.tolerance)
        seen = not worst.holds()
        print(f"{what}: {'seen' if seen else 'NOT SEEN'}\n{line_of(worst)}", flush=True)
        seen_all = seen_all and seen
    return seen_all


def main():
    options = arguments()
    options.work = options.work.resolve()
    unknown = set(options.proof) - set(PROOFS)
    if unknown:
        sys.exit(f"there is no proof {', '.join(sorted(unknown))}; there are {', '.join(PROOFS)}")
    if not os.access(options.program, os.X_OK):
        sys.exit(f"{options.program} is not there: build it first")
    done = try_faults(options) if options.faults else prove(
        options.proof or PROOFS, options.fault, options)
    sys.exit(0 if done else 1)


if __name__ == "__main__":
    main()
