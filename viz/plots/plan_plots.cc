// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/plots/plots.h"

#include "solver/results/readings_table.h"

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

double in(const ShownUnit &unit, double value)
{
  return value * unit.factor + unit.offset;
}

// Labels and the second scale of a quantity: mm and thou, degC and degF, N and kgf.
Plot with_scales(const std::string &what, Quantity quantity)
{
  Plot plot;
  const auto units = shown_units(quantity);
  const auto name = [](const ShownUnit &unit) {
    const std::string text = unit.name;
    return text == "degC" ? "°C" : text == "degF" ? "°F" : text;
  };
  plot.y_label = what + " [" + name(units[0]) + "]";
  if (units.size() > 1) {
    plot.y2_label = "[" + name(units[1]) + "]";
    plot.y2_factor = units[1].factor / units[0].factor;
    plot.y2_offset = units[1].offset - units[0].offset * plot.y2_factor;
  }
  return plot;
}

// One line a stage along the board.
Plot along_the_board(const PlanFile &plan, const char *key, Plot plot, Quantity quantity)
{
  const ShownUnit unit = shown_units(quantity).front();
  plot.x_label = "fret";
  for (std::size_t s = 0; s < plan.size("/stages"); ++s) {
    const std::string stage = "/stages/" + std::to_string(s);
    Curve curve{plan.text(stage + "/name"), {}};
    for (const Json &row : plan.at(stage + "/by_fret")) {
      const double x = row.at("x_m").get<double>() * 1e3;
      curve.points.emplace_back(x, in(unit, row.at(key).get<double>()));
      if (s == 0)
        plot.x_marks.emplace_back(x, std::to_string(row.at("fret").get<int>()));
    }
    plot.curves.push_back(curve);
  }
  return plot;
}

// Curves over time from a zero, in units of time, between two times.
struct Span
{
  double from = 0, to = 0, zero = 0, unit = hour;
};

void add(const PlanFile &plan, Plot &plot, const std::string &name, const std::string &key,
         Quantity quantity, const Span &span)
{
  const std::string pointer = "/curves/" + key;
  if (!plan.has(pointer))
    return;
  const ShownUnit unit = shown_units(quantity).front();
  const Json &times = plan.at("/curves/time_s"), &values = plan.at(pointer);
  Curve curve{name, {}};
  for (std::size_t i = 0; i < times.size(); ++i) {
    const double time = times.at(i).get<double>();
    if (time < span.from - 1 || time > span.to + 1 || values.at(i).is_null())
      continue;
    curve.points.emplace_back((time - span.zero) / span.unit, in(unit, values.at(i).get<double>()));
  }
  plot.curves.push_back(curve);
}

double last_release(const PlanFile &plan)
{
  return plan.number("/clocks/" + std::to_string(plan.size("/clocks") - 1) + "/release_s");
}

// Of the first pass.
Span clamp_span(const PlanFile &plan)
{
  Span span;
  span.zero = plan.number("/clocks/0/zero_s");
  span.from = std::max(0., span.zero - 2 * hour);
  span.to = plan.number("/clocks/0/release_s") - 1.5; // not what was let go
  return span;
}

double end_of(const PlanFile &plan)
{
  return plan.number("/curves/time_s/" + std::to_string(plan.size("/curves/time_s") - 1));
}
} // namespace

Plot gap_plot(const PlanFile &plan)
{
  return along_the_board(plan, "bow_centre_m",
                         with_scales("bow on the centre line, forward +", Quantity::length),
                         Quantity::length);
}

Plot twist_plot(const PlanFile &plan)
{
  Plot plot = with_scales("twist, treble corner up +", Quantity::angle);
  plot.y_label = "twist, treble corner up + [°]";
  return along_the_board(plan, "twist_rad", plot, Quantity::angle);
}

Plot temperature_plot(const PlanFile &plan)
{
  Plot plot = with_scales("temperature", Quantity::temperature);
  plot.x_label = "time on the clock [h], 0 is heat on";
  const Span span = clamp_span(plan);
  add(plan, plot, "bar", "bar_K", Quantity::temperature, span);
  add(plan, plot, "board top", "board_top_K", Quantity::temperature, span);
  add(plan, plot, "probe", "probe_K", Quantity::temperature, span);
  add(plan, plot, "glue line", "glue_line_K", Quantity::temperature, span);
  add(plan, plot, "mid-shaft", "mid_shaft_K", Quantity::temperature, span);
  add(plan, plot, "back", "back_K", Quantity::temperature, span);
  return plot;
}

Plot cord_plot(const PlanFile &plan)
{
  Plot plot = with_scales("pull or load", Quantity::force);
  plot.x_label = "time on the clock [h], 0 is heat on";
  add(plan, plot, "cord, bass", "cord_bass_N", Quantity::force, clamp_span(plan));
  add(plan, plot, "cord, treble", "cord_treble_N", Quantity::force, clamp_span(plan));
  add(plan, plot, "cradle", "cradle_N", Quantity::force, clamp_span(plan));
  return plot;
}

Plot slip_plot(const PlanFile &plan)
{
  Plot plot = with_scales("board against shaft, to the body +", Quantity::length);
  plot.x_label = "time on the clock [h], 0 is heat on";
  Span span = clamp_span(plan);
  span.to += 4 * hour;
  add(plan, plot, "at the nut end", "slip_nut_end_m", Quantity::length, span);
  add(plan, plot, "at the body end", "slip_body_end_m", Quantity::length, span);
  return plot;
}

namespace
{
Plot bows(const PlanFile &plan, const Span &span, const std::string &x_label)
{
  Plot plot = with_scales("bow, forward +", Quantity::length);
  plot.x_label = x_label;
  add(plan, plot, "bass", "bow_bass_m", Quantity::length, span);
  add(plan, plot, "centre", "bow_centre_m", Quantity::length, span);
  add(plan, plot, "treble", "bow_treble_m", Quantity::length, span);
  return plot;
}
} // namespace

Plot bow_plot(const PlanFile &plan)
{
  const double zero = plan.number("/clocks/0/zero_s");
  const double to = std::min(end_of(plan), last_release(plan) + 10 * day);
  return bows(plan, {zero - 2 * hour, to, zero, day}, "time on the clock [days], 0 is heat on");
}

bool has_year(const PlanFile &plan)
{
  return plan.has("/curves") && end_of(plan) - last_release(plan) > long_history;
}

Plot year_plot(const PlanFile &plan)
{
  const double release = last_release(plan);
  return bows(plan, {release + 1, end_of(plan), release, day}, "days after release");
}
} // namespace overbend::viz
