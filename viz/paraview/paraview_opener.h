// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/run/bench_places.h"

#include <string>
#include <vector>

namespace overbend::viz
{
// A field with one range for all times, so that moments can be compared. Name as in results.xdmf,
// with its unit.
struct OpenerField
{
  std::string name;
  double low = 0, high = 1;
  bool is_signed = false; // zero in the middle of the colours
};

// A moment to go to by its name; time in hours, as in results.xdmf.
struct OpenerMoment
{
  double hours = 0;
  std::string name;
};

// What the opener shows.
struct OpenerView
{
  double magnification = 25; // of the displacement
  std::string displacement = "displacement [m]";
  OpenerField stress = {"stress_along_grain [MPa]", -10, 10, true};
  OpenerField use = {"use_of_strength [-]", 0, 1, false};
  OpenerField temperature = {"temperature [degC]", 20, 60, false};
  OpenerField slip = {"slip [mm]", 0, 1, false};
  double opens_at = 0;                // hours: the moment of the highest use of strength
  std::vector<OpenerMoment> stages;   // to go to
  std::vector<OpenerMoment> captions; // of each stored time: phase, the card's clock, reading
  BenchPlaces bench = {};
};

// The view of a results folder. Errors: solver::FileError, cases::CaseError.
OpenerView opener_view(const std::string &folder);

// Writes open_in_paraview.py beside results.xdmf: a pipeline for ParaView 5.10 and later (tried
// with 5.11) with a layout each for stress, use of strength, temperature and slip, at the moment of
// the highest use, bent `magnification` times (the factor is written in the picture), with one
// range for all times, the phase, the card's clock and the reading of each stored time, and frets,
// cradle, cords and bar as a block of their own. Opened by
//     paraview --script=open_in_paraview.py        or   pvbatch open_in_paraview.py picture.png
// The script finds its data by its own place; the folder may be moved as a whole.
// Errors: solver::FileError.
void write_paraview_opener(const std::string &folder, const OpenerView &view = {});
} // namespace overbend::viz
