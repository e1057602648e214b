// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/mechanics/step_climate.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
double glue_log_shift(const Model &model, const GluePoint &p, const std::vector<double> &T,
                      const std::vector<double> &m)
{
  const auto &law = *model.glue_line[p.line].law;
  return m.empty() ? law.log_shift(mean_of_sides(p, T))
                   : law.log_shift(mean_of_sides(p, T),
                                   materials::glue_humidity(mean_of_sides(p, m), model.branch));
}

// Reduced time by the true course of temperature in the step over that by its shown ends.
void count_the_day(const Model &model, const AirSeries &air, double from, double to,
                   StepClimate &result)
{
  const auto factor = [&](const auto &shift) {
    const double a = shift(air.shown(from)), b = shift(air.shown(to));
    const double straight = std::abs(b - a) > 1e-6 * a ? (b - a) / std::log(b / a) : a;
    return air.mean(from, to - from, [&](double T, double) { return shift(T); }) / straight;
  };
  for (unsigned wood = 0; wood < model.n_woods(); ++wood) {
    const auto &law = model.wood(wood).law;
    result.wood_time.push_back(law ? factor([&](double T) { return law->shift(T); }) : 1);
  }
  for (const GlueLineModel &line : model.glue_line)
    result.glue_time.push_back(factor([&](double T) { return std::exp(line.law->log_shift(T)); }));
}

std::vector<double> difference(std::vector<double> a, const std::vector<double> &b)
{
  for (std::size_t i = 0; i < a.size(); ++i)
    a[i] -= b[i];
  return a;
}
} // namespace

StepClimate climate_between(const Model &model, const ThermalHistory &heat,
                            const MoistureHistory *moisture, double from, double to)
{
  StepClimate result;
  result.T0 = heat.at(from);
  result.T1 = heat.at(to);
  if (moisture != nullptr) {
    result.m0 = moisture->at(from);
    result.m1 = moisture->at(to);
    result.driest = moisture->driest(from);
  }
  const AirSeries *air = to > from ? heat.air(from, to - from) : nullptr;
  if (air == nullptr || !air->in_days())
    return result;
  count_the_day(model, *air, from, to, result);
  if (moisture != nullptr && air->breathes()) {
    result.travel = difference(moisture->travel(to), moisture->travel(from));
    result.dried = difference(result.driest, moisture->driest(to));
  }
  return result;
}

// Largest change of ln a in glue that can flow within the step.
double glue_log_change(const Model &model, const StepClimate &climate, double dt)
{
  double largest = 0;
  for (const GluePoint &p : model.glue_point) {
    const double a = glue_log_shift(model, p, climate.T0, climate.m0),
                 b = glue_log_shift(model, p, climate.T1, climate.m1);
    if (model.glue_line[p.line].law->flows_within(dt * std::exp(std::max(a, b))))
      largest = std::max(largest, std::abs(b - a));
  }
  return largest;
}
} // namespace overbend::solver
