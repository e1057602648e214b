// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/page/plan_file.h"

#include <chrono>
#include <string>
#include <utility>
#include <vector>

namespace overbend::viz
{
// A curve: x and y in the plot's units; a point without a value breaks the line.
struct Curve
{
  std::string name;
  std::vector<std::pair<double, double>> points;
};

// A stretch of the time axis in which one thing is done at the bench.
enum class BandKind { free, clamped, heated, strung };
struct Band
{
  double from = 0, to = 0;
  std::string name;
  BandKind kind = BandKind::free;
};

// A target or a limit: a level line over the whole width.
struct Level
{
  double y = 0;
  std::string name;
};

// From what a slow to what a fast line would read, at one place.
struct Range
{
  double x = 0, low = 0, high = 0;
};

struct Plot
{
  std::string title; // what the plot is called by a reader of the page
  std::string x_label, y_label;
  // Second scale on the far side: y2 = y * factor + offset. Empty label: none.
  std::string y2_label;
  double y2_factor = 1, y2_offset = 0;
  std::vector<std::pair<double, std::string>> x_marks; // instead of numbers, if there are any
  std::vector<double> x_ticks;                         // small, without a number
  std::vector<Curve> curves;
  std::vector<Band> bands;
  std::vector<std::pair<double, std::string>> over_bands; // names of groups of bands
  std::vector<Level> levels;
  std::vector<std::vector<Range>> ranges; // each joined to a band of its own
  std::string range_name;
};

// What gnuplot is told to draw a plot (gnuplot_script.cc).
std::string gnuplot_script(const Plot &plot);
constexpr int plot_width = 900, plot_height = 560; // pixels

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

// The plots of a plan: along the board (board_plots.cc). An empty list of curves: nothing to draw.
Plot free_bow_plot(const PlanFile &plan);     // out of the clamp, with target and range
Plot clamp_bow_plot(const PlanFile &plan);    // in the clamp
Plot clamp_change_plot(const PlanFile &plan); // each stage in the clamp less the one before
Plot twist_plot(const PlanFile &plan);

// Over time (time_plots.cc).
Plot temperature_plot(const PlanFile &plan);
Plot cord_plot(const PlanFile &plan);
Plot slip_plot(const PlanFile &plan);
Plot bow_plot(const PlanFile &plan);  // from the clamp to the end of the release's first days
Plot year_plot(const PlanFile &plan); // all of it
bool has_year(const PlanFile &plan);  // the history goes on for 60 days or more after release

// Labels and the second scale of a length: mm and thou. `what` comes before the unit.
Plot length_plot(const std::string &title, const std::string &what);
} // namespace overbend::viz
