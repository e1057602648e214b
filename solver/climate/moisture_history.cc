// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/moisture.h"

#include "solver/equations/in_time.h"

#include <algorithm>
#include <cmath>

// What a history of moisture was at a time.
namespace overbend::solver
{
void MoistureHistory::add(double time, std::vector<double> moisture)
{
  const double kiln = kiln_moisture();
  std::vector<double> driest = moisture;
  for (std::size_t i = 0; i < driest.size(); ++i)
    driest[i] = std::min(driest[i], states.empty() ? kiln : states.back().driest[i]);
  std::vector<double> travel(moisture.size(), 0.);
  for (std::size_t i = 0; i < travel.size() && !states.empty(); ++i)
    travel[i] = states.back().travel[i] + std::abs(moisture[i] - states.back().moisture[i]);
  states.push_back({time, std::move(moisture), std::move(driest), std::move(travel)});
}

std::vector<double> MoistureHistory::at(double time) const
{
  const PlaceInTime place = place_in_time(states, time, "moisture is");
  if (place.share == 0)
    return states[place.before].moisture;
  return between(states[place.before].moisture, states[place.before + 1].moisture, place.share);
}

std::vector<double> MoistureHistory::driest(double time) const
{
  std::vector<double> result = at(time);
  const auto &before = states[place_in_time(states, time, "moisture is").before].driest;
  for (std::size_t i = 0; i < result.size(); ++i)
    result[i] = std::min(result[i], before[i]);
  return result;
}

std::vector<double> MoistureHistory::travel(double time) const
{
  const PlaceInTime place = place_in_time(states, time, "moisture is");
  if (place.share == 0)
    return states[place.before].travel;
  return between(states[place.before].travel, states[place.before + 1].travel, place.share);
}

std::vector<double> moisture_at(const MoistureHistory *history, double time)
{
  return history == nullptr ? std::vector<double>() : history->at(time);
}
} // namespace overbend::solver
