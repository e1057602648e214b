// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/mechanics/step_climate.h"

#include "materials/exponential_step.h"

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

// Reduced time by the true course of temperature in a step over that by its shown ends.
template <typename Shift>
double time_by_the_course(const AirSeries &air, double from, double to, const Shift &shift)
{
  const double straight = materials::logarithmic_mean(shift(air.shown(from)), shift(air.shown(to)));
  return air.mean(from, to - from, [&](double T, double) { return shift(T); }) / straight;
}

// The same for glue at some humidities: where it softens hangs on them, and with it how much a hot
// hour counts. Between them ln of the factor runs straight.
class GlueTimes
{
public:
  GlueTimes(const materials::GlueLaw &law, double driest, double dampest, const AirSeries &air,
            double from, double to)
      : low(driest), spacing((dampest - driest) / intervals)
  {
    for (unsigned k = 0; k <= (spacing > 0 ? intervals : 0); ++k) {
      const double humidity = low + k * spacing;
      log_factor.push_back(std::log(time_by_the_course(
          air, from, to, [&](double T) { return std::exp(law.log_shift(T, humidity)); })));
    }
  }
  double at(double humidity) const
  {
    if (log_factor.size() == 1)
      return std::exp(log_factor.front());
    const double place = std::clamp((humidity - low) / spacing, 0., double(intervals));
    const std::size_t k = std::min(std::size_t(place), std::size_t(intervals - 1));
    return std::exp(log_factor[k] + (place - double(k)) * (log_factor[k + 1] - log_factor[k]));
  }

private:
  static constexpr unsigned intervals = 6;
  double low, spacing;
  std::vector<double> log_factor;
};

// Humidity that the glue of each point is at rest with, in the middle of the step.
std::vector<double> glue_humidities(const Model &model, const StepClimate &climate)
{
  std::vector<double> humidity;
  for (const GluePoint &p : model.glue_point)
    humidity.push_back(materials::glue_humidity(
        (mean_of_sides(p, climate.m0) + mean_of_sides(p, climate.m1)) / 2, model.branch));
  return humidity;
}

void count_glue_time(const Model &model, const AirSeries &air, double from, double to,
                     StepClimate &result)
{
  result.glue_time.assign(model.glue_point.size(), 1.);
  const std::vector<double> humidity =
      result.m0.empty() ? std::vector<double>() : glue_humidities(model, result);
  for (unsigned line = 0; line < model.glue_line.size(); ++line) {
    const materials::GlueLaw &law = *model.glue_line[line].law;
    if (humidity.empty()) {
      const double factor =
          time_by_the_course(air, from, to, [&](double T) { return std::exp(law.log_shift(T)); });
      for (std::size_t g = 0; g < model.glue_point.size(); ++g)
        if (model.glue_point[g].line == line)
          result.glue_time[g] = factor;
      continue;
    }
    double driest = 1, dampest = 0;
    for (std::size_t g = 0; g < model.glue_point.size(); ++g)
      if (model.glue_point[g].line == line) {
        driest = std::min(driest, humidity[g]);
        dampest = std::max(dampest, humidity[g]);
      }
    if (driest > dampest)
      continue; // a line that this neck does not have
    const GlueTimes times(law, driest, dampest, air, from, to);
    for (std::size_t g = 0; g < model.glue_point.size(); ++g)
      if (model.glue_point[g].line == line)
        result.glue_time[g] = times.at(humidity[g]);
  }
}

void count_wood_time(const Model &model, const AirSeries &air, double from, double to,
                     StepClimate &result)
{
  for (unsigned wood = 0; wood < model.n_woods(); ++wood) {
    const auto &law = model.wood(wood).law;
    result.wood_time.push_back(
        law ? time_by_the_course(air, from, to, [&](double T) { return law->shift(T); }) : 1);
  }
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
  count_wood_time(model, *air, from, to, result);
  count_glue_time(model, *air, from, to, result);
  if (moisture != nullptr && air->swings()) {
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
