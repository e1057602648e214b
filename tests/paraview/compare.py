# SPDX-License-Identifier: GPL-3.0-or-later
# In pvbatch: compares what ParaView reads through results.xdmf with samples.csv, both in the folder
# named last on the command line. Relative to the largest amount of the field among the samples.
import csv
import sys

from paraview import simple as pv

folder = sys.argv[-1]
TOLERANCE = 1e-5

results = pv.Xdmf3ReaderT(FileName=[folder + "/results.xdmf"])
times = results.TimestepValues
pv.UpdatePipeline(time=times[0], proxy=results)
neck = pv.ExtractBlock(Input=results)
neck.Selectors = ['/Root/*[starts-with(name(),"neck")]']

rows = list(csv.DictReader(open(folder + "/samples.csv")))
largest = {}
for row in rows:
    largest[row["field"]] = max(largest.get(row["field"], 0), abs(float(row["value"])))

worst = 0
for row in rows:
    probe = pv.ProbeLocation(Input=neck, ProbeType="Fixed Radius Point Source")
    probe.ProbeType.Center = [float(row[i]) for i in "xyz"]
    pv.UpdatePipeline(time=times[int(row["step"])], proxy=probe)
    data = pv.servermanager.Fetch(probe)
    block = data
    while block is not None and block.IsA("vtkCompositeDataSet"):
        block = next((block.GetBlock(i) for i in range(block.GetNumberOfBlocks())
                      if block.GetBlock(i) is not None), None)
    arrays = block.GetPointData()
    if arrays.GetArray("vtkValidPointMask").GetValue(0) != 1:
        sys.exit("ParaView finds no cell at %s" % probe.ProbeType.Center)
    got = arrays.GetArray(row["field"]).GetComponent(0, int(row["component"]))
    expected = float(row["value"])
    off = abs(got - expected) / largest[row["field"]]
    worst = max(worst, off)
    print("step %s, %s, component %s: %.9g, sample %.9g, off by %.1e"
          % (row["step"], row["field"], row["component"], got, expected, off))
    pv.Delete(probe)
print("worst: %.1e of the field's largest, allowed %.0e" % (worst, TOLERANCE))
if not rows or not worst <= TOLERANCE:
    sys.exit(1)
print("PARAVIEW AGREES")
