// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <array>
#include <string>
#include <vector>

namespace overbend::viz
{
// Where frets lie and what stands on the bench, in the straight neck's places (m, axes of
// mesh/neck_mesh.h). Where the plan says what it chose it is asked (plan.json of the folder), else
// the case; the places that are pulled at only the plan knows.
struct BenchPlaces
{
  std::vector<double> fret_x; // of fret 1, 2, ...
  double board_thickness = 0;
  double bar_from = 0, bar_to = 0, bar_width = 0, bar_thickness = 0;
  double cradle_x = 0, cradle_width = 0;
  bool turned_over = false; // the cradle bears on the board
  bool pulled_up = false;   // towards the strings, or a caul presses from there
  std::vector<std::array<double, 3>> pulled_at;
};
BenchPlaces bench_places(const std::string &folder, const cases::Case &the_case);
} // namespace overbend::viz
