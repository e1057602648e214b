// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <vector>

// How fast a glue line is, from what a neck reads after a first pass.
namespace overbend::solver
{
struct LineFit
{
  double place = 0;          // of the line that reads what was read (materials::place_in_spread)
  double slow = 0, fast = 0; // places that the reading leaves open on both sides
  double read = 0;           // m, what was read
  double slowest = 0, fastest = 0; // m, what lines at the ends of the spread would read
  // The reading lies outside both ends by more than it may be off.
  bool slower_than_any = false, faster_than_any = false;
};

// `reads` gives the bow (m) after the pass with a line at a place from -1 to 1; a faster line ends
// further back. It is called five times at most: at the ends, in the middle, and where straight
// lines between them put the reading. `open`: how far a reading may be off (m).
LineFit fit_line(double read, double open, const std::function<double(double place)> &reads);
} // namespace overbend::solver
