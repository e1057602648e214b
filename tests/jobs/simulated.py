# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs `overbend simulate` once a case, keeps its readings, and reads them (for common_job, grid)."""
import csv
import os
import pathlib
import re
import shutil
import subprocess
import sys
import time

TABLES = pathlib.Path(__file__).resolve().parents[2] / "materials"
ONE_THREAD = {name: "1" for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "DEAL_II_NUM_THREADS")}


def glue_value(glue, key):
    """Value of a number of glues.toml, in the table's own unit: a number or a list of them."""
    entry = _entry((TABLES / "glues.toml").read_text(), glue)[0]
    value = re.search(rf"^{key} = {{ value = (\[[^]]*\]|[^,]*),", entry, re.M).group(1)
    numbers = [float(v) for v in value.strip("[]").split(",")]
    return numbers if value.startswith("[") else numbers[0]


def _entry(text, glue):
    at = text.index("[common]" if glue == "common" else f'[glue."{glue}"]')
    end = text.find("\n[", at + 1)
    return text[at:end if end > 0 else len(text)], at


def tables_with_line(folder, glue, softer, faster):
    """Folder of tables in which a glue softens `softer` K lower and is `faster` decades faster."""
    name = re.sub(r"[^a-z0-9.+-]+", "-", f"{glue}{-softer:+.3g}K{-faster:+.3g}decades".lower())
    target = pathlib.Path(folder) / "tables" / name
    target.mkdir(parents=True, exist_ok=True)
    for table in TABLES.glob("*.toml"):
        shutil.copy(table, target)
    text = (target / "glues.toml").read_text()
    entry, at = _entry(text, glue)
    soft = glue_value(glue, "softening") - softer
    times = ", ".join(f"{t * 10 ** -faster:.9g}" for t in glue_value(glue, "branch_time"))
    changed = re.sub(r"^softening = .*$", f'softening = {{ value = {soft}, unit = "degC", '
                     f'range = [{soft - 8}, {soft + 8}], mark = "E", source = "anchors" }}', entry, flags=re.M)
    changed = re.sub(r"^(branch_time = \{ value = )\[[^]]*\]", rf"\g<1>[{times}]", changed, flags=re.M)
    if (softer and f"softening = {{ value = {soft}," not in changed) or (faster and times not in changed):
        raise ValueError(f"the table of glues has another form: {glue}")
    (target / "glues.toml").write_text(text[:at] + changed + text[at + len(entry):])
    return target


class Failed(Exception):
    pass


class Run:
    """Readings of a finished run by the first words of their column."""

    def __init__(self, results):
        with open(results / "readings.csv") as file:
            rows = list(csv.reader(line for line in file if not line.startswith("#")))
        self.names, self.rows = rows[0], rows[1:]

    def column(self, start):
        found = [k for k, name in enumerate(self.names) if name.startswith(start)]
        if not found:
            raise KeyError(start)
        return found[0]

    def values(self, start, phase):
        k = self.column(start)
        return [float(row[k]) for row in self.rows if row[1] == phase and row[k] != ""]

    def last(self, start, phase):
        return self.values(start, phase)[-1]

    def most(self, start):
        k = self.column(start)
        return max(float(row[k]) for row in self.rows if row[k] != "")

    def columns(self, start, unit):
        return [name for name in self.names if name.startswith(start) and name.endswith(f"[{unit}]")]


def simulate(program, folder, name, case, tables=None, run_new=True):
    """Run of a case, made only if FOLDER/name holds none; None where there is none and none is to be
    made. Raises Failed with the program's words where it ends without readings."""
    folder = pathlib.Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    results, log = folder / name, folder / f"{name}.log"
    text = case + (f"# tables {pathlib.Path(tables).name}\n" if tables else "")
    file = folder / f"{name}.toml"
    kept = file.exists() and file.read_text() == text
    if kept and (results / "readings.csv").exists():
        return Run(results)
    if kept and log.exists() and "exit status" in log.read_text():
        raise Failed(log.read_text().strip().splitlines()[0])
    if not run_new:
        return None
    file.write_text(text)
    shutil.rmtree(results, ignore_errors=True)
    start = time.time()
    done = subprocess.run([program, "simulate", str(file), "--output", str(results), "--replace",
                           "--no-pictures", "--no-film", "--quiet"], check=False, text=True,
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                          env={**os.environ, **ONE_THREAD, "OVERBEND_TABLES": str(tables or TABLES)})
    print(f"{name}: {time.time() - start:.0f} s, exit status {done.returncode}", file=sys.stderr, flush=True)
    # Fields are not asked for again, and are large.
    for large in ("results.h5", "results.xdmf"):
        (results / large).unlink(missing_ok=True)
    if done.returncode != 0:
        log.write_text(done.stdout + f"\nexit status {done.returncode}\n")
        raise Failed(log.read_text().strip().splitlines()[0])
    return Run(results)


def table(head, rows):
    return "\n".join("| " + " | ".join(cells) + " |" for cells in [head, ["---"] * len(head), *rows])
