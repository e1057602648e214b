# SPDX-License-Identifier: GPL-3.0-or-later
# In pvbatch: compares what ParaView reads through results.xdmf with samples.csv, both in the folder
# named last on the command line. Relative to the largest amount of the field among the samples.
#
# ParaView's own probe stops looking for a place in a curved cell at a thousandth of the cell (seen:
# 2e-4 of the field), so the place in the cell is refined here; shape functions, nodes and values are
# those that ParaView holds. What its plain probe gives is printed beside.
import csv
import sys

from paraview import simple as pv
from vtkmodules.vtkCommonCore import reference

folder = sys.argv[-1]
TOLERANCE = 1e-5

results = pv.Xdmf3ReaderT(FileName=[folder + "/results.xdmf"])
times = results.TimestepValues
pv.UpdatePipeline(time=times[0], proxy=results)
neck = pv.ExtractBlock(Input=results)
neck.Selectors = ['/Root/*[starts-with(name(),"neck")]']


def leaf(data):
    while data is not None and data.IsA("vtkCompositeDataSet"):
        data = next((data.GetBlock(i) for i in range(data.GetNumberOfBlocks())
                     if data.GetBlock(i) is not None), None)
    return data


def solve(m, r):
    def det(a, b, c):
        return (a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0])
                + a[2] * (b[0] * c[1] - b[1] * c[0]))
    d = det(*m)
    return [det(*[r if k == i else m[k] for k in range(3)]) / d for i in range(3)]


# Cell and weights of its nodes at a place; columns of the slope by central differences, which are
# exact for quadratics.
def find(grid, place):
    weights, at, inside = [0.0] * 27, [0.0] * 3, [0.0] * 3
    part = reference(0)
    number = grid.FindCell(place, None, -1, 1e-10, part, inside, weights)
    if number < 0:
        sys.exit("ParaView finds no cell at %s" % place)
    cell = grid.GetCell(number)

    def where(p):
        cell.EvaluateLocation(part, p, at, weights)
        return list(at)

    for _ in range(10):
        off = [a - b for a, b in zip(place, where(inside))]
        slope = []
        for i in range(3):
            more, less = list(inside), list(inside)
            more[i] += 0.05
            less[i] -= 0.05
            slope.append([(a - b) / 0.1 for a, b in zip(where(more), where(less))])
        inside = [a + b for a, b in zip(inside, solve(slope, off))]
    missed = max(abs(a - b) for a, b in zip(place, where(inside)))
    if missed > 1e-9:
        sys.exit("the place in the cell at %s is not found" % place)
    return [cell.GetPointId(i) for i in range(27)], list(weights)


def probe(place, time):
    source = pv.ProbeLocation(Input=neck, ProbeType="Fixed Radius Point Source")
    source.ProbeType.Center = place
    pv.UpdatePipeline(time=time, proxy=source)
    data = leaf(pv.servermanager.Fetch(source)).GetPointData()
    pv.Delete(source)
    return data


rows = list(csv.DictReader(open(folder + "/samples.csv")))
largest = {}
for row in rows:
    largest[row["field"]] = max(largest.get(row["field"], 0), abs(float(row["value"])))

worst = worst_probe = 0
grids = {}
for row in rows:
    step, component, expected = int(row["step"]), int(row["component"]), float(row["value"])
    place = [float(row[i]) for i in "xyz"]
    if step not in grids:
        pv.UpdatePipeline(time=times[step], proxy=neck)
        grids[step] = leaf(pv.servermanager.Fetch(neck))
    nodes, weights = find(grids[step], place)
    field = grids[step].GetPointData().GetArray(row["field"])
    got = sum(w * field.GetComponent(n, component) for n, w in zip(nodes, weights))
    plain = probe(place, times[step]).GetArray(row["field"]).GetComponent(0, component)
    off = abs(got - expected) / largest[row["field"]]
    off_probe = abs(plain - expected) / largest[row["field"]]
    worst, worst_probe = max(worst, off), max(worst_probe, off_probe)
    print("step %d, %s, component %d: %.9g, sample %.9g, off by %.1e (plain probe %.1e)"
          % (step, row["field"], component, got, expected, off, off_probe))
print("worst: %.1e of the field's largest, allowed %.0e; plain probe %.1e"
      % (worst, TOLERANCE, worst_probe))
if not rows or not worst <= TOLERANCE:
    sys.exit(1)
print("PARAVIEW AGREES")
