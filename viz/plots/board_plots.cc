// SPDX-License-Identifier: GPL-3.0-or-later
// Plots along the board, one line a stage.
#include "viz/plots/plots.h"

#include "solver/results/readings_table.h"
#include "viz/plots/time_axis.h"

#include <optional>

namespace overbend::viz
{
namespace
{
using solver::Quantity;
using solver::shown_units;
using solver::ShownUnit;

double in_first_unit(Quantity quantity, double value)
{
  const ShownUnit unit = shown_units(quantity).front();
  return value * unit.factor + unit.offset;
}

struct Stage
{
  std::string pointer, name;
  bool clamped = false;
  int pass = 0; // 0: before the first
};

std::vector<Stage> stages_of(const PlanFile &plan)
{
  std::vector<Stage> stages;
  for (std::size_t s = 0; s < plan.size("/stages"); ++s) {
    Stage stage;
    stage.pointer = "/stages/" + std::to_string(s);
    stage.name = plan.text(stage.pointer + "/name");
    for (std::size_t p = 0; p < plan.n_phases(); ++p)
      if (plan.text(plan.phase(p, "/name")) == plan.text(stage.pointer + "/phase")) {
        stage.clamped = plan.at(plan.phase(p, "/cords_on")).get<bool>();
        stage.pass = int(plan.number(plan.phase(p, "/pass")));
      }
    stages.push_back(stage);
  }
  return stages;
}

Curve curve_of(const PlanFile &plan, const Stage &stage, const char *key, Quantity quantity)
{
  Curve curve{stage.name, {}};
  for (const Json &row : plan.at(stage.pointer + "/by_fret"))
    curve.points.emplace_back(row.at("x_m").get<double>() * 1e3,
                              in_first_unit(quantity, row.at(key).get<double>()));
  return curve;
}

void mark_frets(const PlanFile &plan, Plot &plot)
{
  plot.x_label = "fret";
  for (const Json &row : plan.at("/stages/0/by_fret"))
    plot.x_marks.emplace_back(row.at("x_m").get<double>() * 1e3,
                              std::to_string(row.at("fret").get<int>()));
}

Plot bows(const PlanFile &plan, const std::string &title, bool clamped)
{
  Plot plot = length_plot(title, "bow on the centre line, forward +");
  mark_frets(plan, plot);
  for (const Stage &stage : stages_of(plan))
    if (stage.clamped == clamped)
      plot.curves.push_back(curve_of(plan, stage, "bow_centre_m", Quantity::length));
  return plot;
}

// Where along the board the bow is read, mm.
std::optional<double> place_of_reading(const PlanFile &plan)
{
  const double fret = plan.number("/found/bow_fret");
  for (const Json &row : plan.at("/stages/0/by_fret"))
    if (row.at("fret").get<double>() == fret)
      return row.at("x_m").get<double>() * 1e3;
  return {};
}
} // namespace

Plot length_plot(const std::string &title, const std::string &what)
{
  const auto units = shown_units(Quantity::length);
  Plot plot;
  plot.title = title;
  plot.y_label = what + " [" + units[0].name + "]";
  plot.y2_label = std::string("[") + units[1].name + "]";
  plot.y2_factor = units[1].factor / units[0].factor;
  return plot;
}

Plot free_bow_plot(const PlanFile &plan)
{
  Plot plot = bows(plan, "Bow along the board, out of the clamp", false);
  const auto place = place_of_reading(plan);
  if (!place)
    return plot;
  if (plan.has("/target/relief_m"))
    plot.curves.push_back(
        {"target, strung",
         {{*place, in_first_unit(Quantity::length, plan.number("/target/relief_m"))}}});
  if (plan.size("/expected") > 0 && !plan.refused()) {
    const std::string last = "/expected/" + std::to_string(plan.size("/expected") - 1);
    plot.ranges = {
        {{*place, in_first_unit(Quantity::length, plan.number(last + "/low/bow_centre_m")),
          in_first_unit(Quantity::length, plan.number(last + "/high/bow_centre_m"))}}};
    plot.range_name = "last reading, from a fast to a slow line";
  }
  return plot;
}

Plot clamp_bow_plot(const PlanFile &plan)
{
  return bows(plan, "Bow along the board, in the clamp", true);
}

Plot clamp_change_plot(const PlanFile &plan)
{
  Plot plot = length_plot("What changes in the clamp", "change of bow since the stage before");
  mark_frets(plan, plot);
  const std::vector<Stage> stages = stages_of(plan);
  for (std::size_t s = 1; s < stages.size(); ++s) {
    const Stage &before = stages[s - 1], &stage = stages[s];
    if (!stage.clamped || !before.clamped || stage.pass != before.pass)
      continue;
    Curve change = curve_of(plan, stage, "bow_centre_m", Quantity::length);
    const Curve less = curve_of(plan, before, "bow_centre_m", Quantity::length);
    for (std::size_t i = 0; i < change.points.size() && i < less.points.size(); ++i)
      change.points[i].second -= less.points[i].second;
    plot.curves.push_back(change);
  }
  return plot;
}

Plot twist_plot(const PlanFile &plan)
{
  Plot plot;
  plot.title = "Twist along the neck, out of the clamp";
  plot.y_label = "twist, treble corner up + [°]";
  mark_frets(plan, plot);
  for (const Stage &stage : stages_of(plan))
    if (!stage.clamped)
      plot.curves.push_back(curve_of(plan, stage, "twist_rad", Quantity::angle));
  return plot;
}
} // namespace overbend::viz
