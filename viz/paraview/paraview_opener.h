// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace overbend::viz
{
// What the opener shows at first. Names as in results.xdmf, with their units.
struct OpenerView
{
  double magnification = 25; // of the displacement
  std::string displacement = "displacement [m]";
  std::string colour = "stress_along_grain [MPa]";
};

// Writes open_in_paraview.py beside results.xdmf: a pipeline for ParaView 5.10 and later (tried
// with 5.11) that shows the last step bent `magnification` times (the factor is written in the
// picture), coloured by `colour` with a bar that names the unit, the time in hours and the outline
// of the neck as built; hidden, to be switched on by their eyes: the cut along its middle, and each
// glue line coloured by slip. Opened by
//     paraview --script=open_in_paraview.py        or   pvbatch open_in_paraview.py picture.png
// The script finds its data by its own place; the folder may be moved as a whole.
// Errors: solver::FileError.
void write_paraview_opener(const std::string &folder, const OpenerView &view = {});
} // namespace overbend::viz
