// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/plots/time_axis.h"

#include "solver/words/phase_names.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>

namespace overbend::viz
{
namespace
{
constexpr double hour = 3600, day = 24 * hour;
constexpr double closest_marks = 0.058; // share of the axis that a mark needs
constexpr double least_share = 0.026;   // of the axis that a phase gets, so that its name fits

double room(const PlanPhase &phase, double after_start)
{
  return phase.heated ? 3 * after_start / hour : 2.5 * std::log1p(after_start / hour);
}

BandKind kind_of(const PlanPhase &phase)
{
  return phase.heated    ? BandKind::heated
         : phase.clamped ? BandKind::clamped
         : phase.strung  ? BandKind::strung
                         : BandKind::free;
}
} // namespace

std::vector<PlanPhase> phases_of(const PlanFile &plan)
{
  std::vector<PlanPhase> phases;
  for (std::size_t i = 0; i < plan.n_phases(); ++i) {
    const Json &told = plan.at(plan.phase(i, ""));
    PlanPhase phase;
    phase.pass = told.at("pass").get<int>();
    phase.name = solver::without_pass(told.at("name").get<std::string>(), phase.pass);
    phase.start = told.at("start_s").get<double>();
    phase.end = told.at("end_s").get<double>();
    phase.heated = told.at("heater_on").get<bool>();
    phase.clamped = told.at("cords_on").get<bool>();
    phase.strung = told.at("strings_on").get<bool>();
    phases.push_back(phase);
  }
  return phases;
}

TimeAxis::TimeAxis(std::vector<PlanPhase> phases, double until) : to(until)
{
  double all = 0;
  for (PlanPhase &phase : phases) {
    if (phase.start >= to)
      break;
    phase.end = std::min(phase.end, to);
    placed.push_back({phase, 0, room(phase, phase.end - phase.start)});
    all += placed.back().width;
  }
  double from = 0;
  for (Placed &one : placed) {
    one.from = from;
    one.width = std::max(one.width, least_share * all);
    from += one.width;
  }
}

double TimeAxis::at(double time) const
{
  for (const Placed &one : placed)
    if (time <= one.phase.end || &one == &placed.back()) {
      const double length = one.phase.end - one.phase.start;
      const double within = std::clamp(time - one.phase.start, 0., length);
      return one.from +
             (length > 0 ? one.width * room(one.phase, within) / room(one.phase, length) : 0);
    }
  return 0;
}

double TimeAxis::end() const
{
  return placed.empty() ? 1 : placed.back().from + placed.back().width;
}

std::string TimeAxis::clock_at(double time, int pass) const
{
  double zero = NAN, release = NAN;
  bool clamped = false;
  for (const Placed &one : placed) {
    if (one.phase.pass != pass)
      continue;
    if (std::isnan(zero) && one.phase.heated && one.phase.clamped)
      zero = one.phase.start;
    if (std::isnan(release) && clamped && !one.phase.clamped)
      release = one.phase.start;
    clamped = one.phase.clamped;
  }
  if (std::isnan(zero))
    zero = placed.front().phase.start;
  return time > release ? "+" + solver::clock_face(time - release)
                        : solver::clock_face(time - zero);
}

// Where heat comes on or goes off or the clamp comes off first, then what finds room.
std::vector<std::pair<double, std::string>> TimeAxis::marks() const
{
  std::vector<std::pair<double, std::string>> kept;
  const auto keep = [&](double place, double time, int pass) {
    for (const auto &[there, name] : kept)
      if (std::abs(there - place) < closest_marks * end())
        return;
    kept.emplace_back(place, clock_at(time, pass));
  };
  bool heated = false, clamped = false;
  for (const Placed &one : placed) {
    if (one.phase.heated != heated || (clamped && !one.phase.clamped))
      keep(one.from, one.phase.start, one.phase.pass);
    heated = one.phase.heated;
    clamped = one.phase.clamped;
  }
  if (!placed.empty())
    keep(end(), to, placed.back().phase.pass);
  for (const Placed &one : placed)
    keep(one.from, one.phase.start, one.phase.pass);
  std::sort(kept.begin(), kept.end());
  return kept;
}

// Every hour of the first ten of a phase, then every day.
std::vector<double> TimeAxis::ticks() const
{
  std::vector<double> places;
  for (const Placed &one : placed) {
    const double length = one.phase.end - one.phase.start;
    for (double t = hour; t < length; t += t < 9.5 * hour ? hour : t < day ? day - t : day)
      places.push_back(at(one.phase.start + t));
  }
  return places;
}

void TimeAxis::put_on(Plot &plot) const
{
  int pass = 0;
  const bool several = !placed.empty() && placed.back().phase.pass > 1;
  for (const Placed &one : placed) {
    plot.bands.push_back({one.from, one.from + one.width, one.phase.name, kind_of(one.phase)});
    if (several && one.phase.pass != pass)
      plot.over_bands.emplace_back(one.from, "pass " + std::to_string(one.phase.pass));
    pass = one.phase.pass;
  }
  plot.x_marks = marks();
  plot.x_ticks = ticks();
  plot.x_label = std::string("clock") + (several ? " of each pass" : "") +
                 ", 0:00 is heat on; + is time after release; small ticks are hours, then days";
}
} // namespace overbend::viz
