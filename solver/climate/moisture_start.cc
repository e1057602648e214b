// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/climate.h"
#include "materials/sorption.h"
#include "solver/climate/moisture.h"
#include "solver/model/build_model.h"

#include <algorithm>

namespace overbend::solver
{
namespace
{
// The air before the work, told over time, as a phase of its own.
cases::Phase past_phase(const cases::Case &the_case)
{
  const cases::Moisture &known = the_case.moisture;
  cases::Phase past;
  past.name = "the air it lived in";
  past.kind = cases::PhaseKind::play;
  past.climate = known.past;
  past.duration = known.climate_to > 0 ? known.lived_for : known.past.points.back().time;
  past.air = the_case.room;
  past.air.wrapped = false;
  return past;
}

MoistureState end_of(const MoistureHistory &history)
{
  MoistureState end = history.all().back();
  end.time = 0;
  std::fill(end.travel.begin(), end.travel.end(), 0.);
  return end;
}

MoistureState at_rest(std::vector<double> moisture)
{
  MoistureHistory history;
  history.add(0, std::move(moisture));
  return history.all().front();
}

MoistureState after_the_past(const Model &model, const cases::Case &the_case)
{
  const cases::Phase past = past_phase(the_case);
  const cases::Air first = cases::air_at(past, 0);
  const unsigned n = model.space.n_nodes;
  const ThermalHistory heat =
      simulate_heat(model, the_case.heater, {past}, std::vector<double>(n, first.temperature));
  const double rest =
      materials::equilibrium_moisture(first.temperature, first.humidity, sorption_branch(the_case));
  return end_of(simulate_moisture(model, the_case, {past}, heat, std::vector<double>(n, rest)));
}
} // namespace

MoistureState moisture_at_start(const Model &model, const cases::Case &the_case)
{
  const cases::Moisture &known = the_case.moisture;
  const unsigned n = model.space.n_nodes;
  if (known.content)
    return at_rest(std::vector<double>(n, *known.content));
  if (!known.past.points.empty())
    return after_the_past(model, the_case);
  cases::Phase past;
  past.name = "the air it lived in";
  past.duration = known.lived_for;
  past.air = the_case.room;
  past.air.wrapped = false;
  past.air.temperature = known.temperature.value_or(the_case.room.temperature);
  past.air.humidity = known.humidity.value_or(the_case.room.humidity);
  const double rest = materials::equilibrium_moisture(past.air.temperature, past.air.humidity,
                                                      sorption_branch(the_case));
  if (!known.humidity || !(known.lived_for > 0)) // of the room only its air today is known
    return at_rest(std::vector<double>(n, rest));
  ThermalHistory even;
  even.add({0, std::vector<double>(n, past.air.temperature), {}, 0});
  even.add({past.duration, std::vector<double>(n, past.air.temperature), {}, 0});
  const std::vector<double> built(n, built_moisture(the_case));
  return end_of(simulate_moisture(model, the_case, {past}, even, built));
}

std::vector<double> starting_moisture(const Model &model, const cases::Case &the_case)
{
  return moisture_at_start(model, the_case).moisture;
}

MoistureHistory simulate_moisture(const Model &model, const cases::Case &the_case,
                                  const std::vector<cases::Phase> &phases,
                                  const ThermalHistory &heat, const std::vector<double> &start,
                                  const MoistureStepLimits &limits)
{
  return simulate_moisture(model, the_case, phases, heat, at_rest(start), limits);
}

} // namespace overbend::solver
