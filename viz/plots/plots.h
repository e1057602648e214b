// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/page/plan_file.h"

#include <chrono>
#include <string>
#include <vector>

namespace overbend::viz
{
// A curve: x and y in the plot's units; a point without a value breaks the line.
struct Curve
{
  std::string name;
  std::vector<std::pair<double, double>> points;
};

struct Plot
{
  std::string x_label, y_label;
  // Second scale on the far side: y2 = y * factor + offset. Empty label: none.
  std::string y2_label;
  double y2_factor = 1, y2_offset = 0;
  std::vector<std::pair<double, std::string>> x_marks; // instead of numbers, if there are any
  std::vector<Curve> curves;
};

// Draws plots by gnuplot (run as a program, SVG terminal): lines told apart by dashes and marks as
// well as by colour (the eight of Okabe and Ito, which colour-blind eyes can tell apart [M]).
class Plotter
{
public:
  // longest: that a plot may take (it takes a tenth of a second); then gnuplot is ended.
  explicit Plotter(std::chrono::seconds longest = std::chrono::seconds(30));
  // Why no plot can be drawn here, a sentence; empty if it can.
  const std::string &why_not() const { return problem; }
  // SVG, or empty text (why_not then says why).
  std::string draw(const Plot &plot);

private:
  std::chrono::seconds longest;
  std::string problem;
};

// The plots of a plan (plan_plots.cc).
Plot gap_plot(const PlanFile &plan);
Plot twist_plot(const PlanFile &plan);
Plot temperature_plot(const PlanFile &plan);
Plot cord_plot(const PlanFile &plan);
Plot slip_plot(const PlanFile &plan);
Plot bow_plot(const PlanFile &plan);  // from the clamp to the end of the release's first days
Plot year_plot(const PlanFile &plan); // all of it
bool has_year(const PlanFile &plan);  // the history goes on for 60 days or more after release
} // namespace overbend::viz
