// SPDX-License-Identifier: GPL-3.0-or-later
// Plots over time.
#include "viz/plots/plots.h"

#include "solver/results/readings_table.h"
#include "viz/plots/time_axis.h"

#include <algorithm>
#include <cmath>

namespace overbend::viz
{
namespace
{
using solver::Quantity;
using solver::shown_units;
using solver::ShownUnit;

constexpr double hour = 3600, day = 24 * hour;
constexpr double long_history = 60 * day;

double in_first_unit(Quantity quantity, double value)
{
  const ShownUnit unit = shown_units(quantity).front();
  return value * unit.factor + unit.offset;
}

double last_release(const PlanFile &plan)
{
  return plan.number("/clocks/" + std::to_string(plan.size("/clocks") - 1) + "/release_s");
}

double end_of(const PlanFile &plan)
{
  return plan.number("/curves/time_s/" + std::to_string(plan.size("/curves/time_s") - 1));
}

// A curve of the plan up to a time; `place` puts times on the axis.
template <typename Place>
void add(const PlanFile &plan, Plot &plot, const std::string &name, const std::string &key,
         Quantity quantity, double to, const Place &place)
{
  const std::string pointer = "/curves/" + key;
  if (!plan.has(pointer))
    return;
  const Json &times = plan.at("/curves/time_s"), &values = plan.at(pointer);
  Curve curve{name, {}};
  for (std::size_t i = 0; i < times.size(); ++i) {
    const double time = times.at(i).get<double>();
    if (time > to)
      continue;
    const double value =
        values.at(i).is_null() ? NAN : in_first_unit(quantity, values.at(i).get<double>());
    curve.points.emplace_back(place(time), value);
  }
  plot.curves.push_back(curve);
}

void limit(const PlanFile &plan, Plot &plot, const std::string &pointer, Quantity quantity,
           const std::string &name)
{
  if (plan.has(pointer))
    plot.levels.push_back({in_first_unit(quantity, plan.number(pointer)), name});
}

// Of the occasions that the plan tells a range for, those of one pass lie together.
void add_ranges(const PlanFile &plan, Plot &plot, const TimeAxis &axis)
{
  std::vector<Range> together;
  int pass = 0;
  const std::vector<PlanPhase> phases = phases_of(plan);
  for (std::size_t e = 0; e < plan.size("/expected"); ++e) {
    const std::string one = "/expected/" + std::to_string(e);
    const double time = plan.number(one + "/time_s");
    if (time > axis.last_time())
      continue;
    const auto phase = std::find_if(phases.begin(), phases.end(),
                                    [&](const PlanPhase &p) { return time <= p.end; });
    const int here = phase == phases.end() ? phases.back().pass : phase->pass;
    if (here != pass && !together.empty()) {
      plot.ranges.push_back(together);
      together.clear();
    }
    pass = here;
    together.push_back({axis.at(time),
                        in_first_unit(Quantity::length, plan.number(one + "/low/bow_centre_m")),
                        in_first_unit(Quantity::length, plan.number(one + "/high/bow_centre_m"))});
  }
  if (!together.empty())
    plot.ranges.push_back(together);
  plot.range_name = "centre, from a fast to a slow line";
}

void add_target(const PlanFile &plan, Plot &plot)
{
  limit(plan, plot, "/target/relief_m", Quantity::length, "target, strung");
}

template <typename Place>
void add_bows(const PlanFile &plan, Plot &plot, double to, const Place &place)
{
  add(plan, plot, "bass", "bow_bass_m", Quantity::length, to, place);
  add(plan, plot, "centre", "bow_centre_m", Quantity::length, to, place);
  add(plan, plot, "treble", "bow_treble_m", Quantity::length, to, place);
}

Plot scaled(const std::string &title, const std::string &what, const ShownUnit &unit,
            const ShownUnit &other, const std::string &in, const std::string &or_in)
{
  Plot plot;
  plot.title = title;
  plot.y_label = what + " [" + in + "]";
  plot.y2_label = "[" + or_in + "]";
  plot.y2_factor = other.factor / unit.factor;
  plot.y2_offset = other.offset - unit.offset * plot.y2_factor;
  return plot;
}
} // namespace

Plot temperature_plot(const PlanFile &plan)
{
  const auto units = shown_units(Quantity::temperature);
  Plot plot = scaled("Temperature until release", "temperature", units[0], units[1], "°C", "°F");
  const TimeAxis axis(phases_of(plan), last_release(plan) - 1.5); // not what was let go
  axis.put_on(plot);
  const auto place = [&](double time) { return axis.at(time); };
  const auto line = [&](const char *name, const char *key) {
    add(plan, plot, name, key, Quantity::temperature, axis.last_time(), place);
  };
  line("bar", "bar_K");
  line("board top", "board_top_K");
  line("glue line, middle of its width", "glue_line_K");
  line("probe", "probe_K");
  line("mid-shaft", "mid_shaft_K");
  line("back", "back_K");
  if (!plan.refused()) {
    limit(plan, plot, "/stops/bar_never_above_K", Quantity::temperature, "stop: bar");
    limit(plan, plot, "/stops/probe_never_above_K", Quantity::temperature, "stop: probe");
  }
  return plot;
}

Plot cord_plot(const PlanFile &plan)
{
  const auto units = shown_units(Quantity::force);
  Plot plot =
      scaled("Pull of the cords until release", "pull or load", units[0], units[1], "N", "kgf");
  const TimeAxis axis(phases_of(plan), last_release(plan) - 1.5);
  axis.put_on(plot);
  const auto place = [&](double time) { return axis.at(time); };
  const auto line = [&](const char *name, const char *key) {
    add(plan, plot, name, key, Quantity::force, axis.last_time(), place);
  };
  line("pull, bass", "cord_bass_N");
  line("pull, treble", "cord_treble_N");
  line("load on the cradle", "cradle_N");
  limit(plan, plot, "/cord_limit_N", Quantity::force, "limit of the pull on each side");
  return plot;
}

Plot slip_plot(const PlanFile &plan)
{
  Plot plot = length_plot("Slip of the board's glue line", "board against shaft, to the body +");
  const TimeAxis axis(phases_of(plan), std::min(end_of(plan), last_release(plan) + 4 * hour));
  axis.put_on(plot);
  const auto place = [&](double time) { return axis.at(time); };
  add(plan, plot, "at the nut end", "slip_nut_end_m", Quantity::length, axis.last_time(), place);
  add(plan, plot, "at the body end", "slip_body_end_m", Quantity::length, axis.last_time(), place);
  return plot;
}

Plot bow_plot(const PlanFile &plan)
{
  Plot plot = length_plot("Bow from the clamp to the last reading", "bow, forward +");
  const TimeAxis axis(phases_of(plan), std::min(end_of(plan), last_release(plan) + 10 * day));
  axis.put_on(plot);
  add_bows(plan, plot, axis.last_time(), [&](double time) { return axis.at(time); });
  add_target(plan, plot);
  if (!plan.refused())
    add_ranges(plan, plot, axis);
  return plot;
}

bool has_year(const PlanFile &plan)
{
  return plan.has("/curves") && end_of(plan) - last_release(plan) > long_history;
}

Plot year_plot(const PlanFile &plan)
{
  Plot plot = length_plot("Bow over the year", "bow, forward +");
  plot.x_label = "days after release";
  const double release = last_release(plan);
  add_bows(plan, plot, end_of(plan),
           [&](double time) { return time > release ? (time - release) / day : NAN; });
  for (Curve &curve : plot.curves)
    curve.points.erase(std::remove_if(curve.points.begin(), curve.points.end(),
                                      [](const auto &p) { return std::isnan(p.first); }),
                       curve.points.end());
  add_target(plan, plot);
  return plot;
}
} // namespace overbend::viz
