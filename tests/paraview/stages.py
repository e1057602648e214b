# SPDX-License-Identifier: GPL-3.0-or-later
# In pvbatch: runs the opener in the folder named last on the command line, goes to each of its
# stages by name and compares what is written in the picture then with the opener's own list.
import sys

folder = sys.argv.pop()
opener = folder + "/open_in_paraview.py"
names = {"__file__": opener, "__name__": "__main__"}
exec(compile(open(opener).read(), opener, "exec"), names)

from paraview import simple as pv

wrong = 0
for hours, stage in names["STAGES"]:
    names["go_to"](stage)
    shown = pv.FindSource("phase, clock, reading").Text
    told = [name for begin, name in names["CAPTIONS"] if begin <= hours + 1e-6][-1]
    print("%s: %r" % (stage, shown))
    wrong += not shown.startswith(told)
    if abs(pv.GetActiveView().ViewTime - hours) > 1e-6:
        print("the view is at %g h, the stage at %g h" % (pv.GetActiveView().ViewTime, hours))
        wrong += 1
if not names["STAGES"] or wrong:
    sys.exit(1)
print("STAGES ARE FOUND")
