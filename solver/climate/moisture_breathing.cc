// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/moisture_breathing.h"

#include "cases/case/climate.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr double hour = 3600, week = 7 * 86400; // s
constexpr unsigned quarters = 4;

// What one followed week tells, by node.
struct Week
{
  std::vector<double> rate;   // kg/kg a second, way beyond the net change
  std::vector<double> driest; // kg/kg
};

// A week of the phase's air from a time (s) after its start, told by the hour.
cases::Phase week_of(const cases::Phase &phase, double from)
{
  cases::Phase part = phase;
  part.duration = week;
  part.climate = {};
  for (double t = 0; t < week + hour / 2; t += hour) {
    const cases::Air air = cases::air_at(phase, from + t);
    part.climate.points.push_back({t, air.temperature, air.humidity});
  }
  return part;
}

std::vector<double> moisture_then(const MoistureMoment &start,
                                  const std::vector<MoistureMoment> &means, double time)
{
  MoistureHistory course;
  course.add(start.time, start.moisture);
  for (const MoistureMoment &moment : means)
    if (moment.time > course.all().back().time)
      course.add(moment.time, moment.moisture);
  return course.at(time);
}

Week follow_week(const Model &model, const cases::Case &the_case, const cases::Phase &phase,
                 double from, const std::vector<double> &moisture)
{
  const std::vector<cases::Phase> part{week_of(phase, from)};
  const double first = part.front().climate.points.front().temperature;
  const ThermalHistory heat =
      simulate_heat(model, the_case.heater, part, std::vector<double>(model.space.n_nodes, first));
  MoistureState begin;
  begin.moisture = begin.driest = moisture;
  begin.travel.assign(moisture.size(), 0.);
  const MoistureState end = simulate_moisture(model, the_case, part, heat, begin).all().back();
  Week result;
  result.driest = end.driest;
  for (std::size_t n = 0; n < moisture.size(); ++n)
    result.rate.push_back(std::max(0., end.travel[n] - std::abs(end.moisture[n] - moisture[n])) /
                          week);
  return result;
}
} // namespace

void add_with_breathing(const Model &model, const cases::Case &the_case, const cases::Phase &phase,
                        const MoistureMoment &start, const std::vector<MoistureMoment> &means,
                        MoistureHistory &history)
{
  const double quarter = phase.duration / quarters;
  std::vector<Week> weeks;
  for (unsigned k = 0; k < quarters; ++k) {
    // Whole weeks from the start, so that each holds what comes once a week.
    const double from = week * std::floor(std::max(0., (k + 0.5) * quarter - week / 2) / week);
    weeks.push_back(
        follow_week(model, the_case, phase, from, moisture_then(start, means, start.time + from)));
  }
  MoistureState state = history.all().back();
  const std::vector<double> *before = &start.moisture;
  for (const MoistureMoment &moment : means) {
    const double middle = (state.time + moment.time) / 2 - start.time;
    const Week &now = weeks[std::min(quarters - 1, unsigned(middle / quarter))];
    for (std::size_t n = 0; n < state.travel.size(); ++n) {
      state.travel[n] +=
          std::abs(moment.moisture[n] - (*before)[n]) + now.rate[n] * (moment.time - state.time);
      state.driest[n] = std::min({state.driest[n], moment.moisture[n], now.driest[n]});
    }
    state.time = moment.time;
    state.moisture = moment.moisture;
    history.add(state);
    before = &moment.moisture;
  }
}
} // namespace overbend::solver
