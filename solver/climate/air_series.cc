// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/air_series.h"

#include "cases/case/climate.h"
#include "materials/damp_air.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr double finest = 300, coarsest = 21600; // s between samples
constexpr double hot_evening_knot = 3600;        // s; sampled in quarters, as it comes and goes

double shortest_interval(const cases::Climate &climate, double duration)
{
  double shortest = climate.hot_hours > 0 ? std::min(duration, hot_evening_knot) : duration;
  for (std::size_t k = 1; k < climate.points.size(); ++k)
    shortest = std::min(shortest, climate.points[k].time - climate.points[k - 1].time);
  return shortest;
}
} // namespace

bool samples_breathing(const cases::Phase &phase)
{
  return phase.duration > breathing_until &&
         shortest_interval(phase.climate, phase.duration) <= day_window / 2;
}

AirSeries::AirSeries(const cases::Phase &phase, double begin, double lag, double start)
    : first(begin), last(begin + phase.duration), smooth(phase.duration > told_in_days_from)
{
  knot = shortest_interval(phase.climate, phase.duration);
  window = swings() && phase.duration > told_in_weeks_from ? 7 * day_window : day_window;
  const double wanted =
      std::clamp(smooth ? knot / 4 : std::min(knot / 4, lag / 8), finest, coarsest);
  const std::size_t n = std::max<std::size_t>(4, std::size_t(std::ceil(phase.duration / wanted)));
  step = phase.duration / double(n);
  double T = start, before = cases::air_at(phase, 0).temperature;
  for (std::size_t k = 0; k <= n; ++k) {
    const cases::Air air = cases::air_at(phase, step * double(k));
    if (k > 0) { // exact for air that changes in a straight line
      const double behind = (air.temperature - before) / step * lag;
      T = air.temperature - behind + (T - before + behind) * std::exp(-step / lag);
    }
    before = air.temperature;
    samples.push_back({T, air.humidity * materials::saturation_pressure(air.temperature)});
  }
  find_running();
}

// The shown temperature at the samples: mean over the window, by sums up to each sample.
void AirSeries::find_running()
{
  std::vector<double> sum(samples.size(), 0.);
  for (std::size_t k = 1; k < samples.size(); ++k)
    sum[k] = sum[k - 1] + (samples[k - 1].temperature + samples[k].temperature) / 2;
  for (std::size_t k = 0; k < samples.size(); ++k) {
    const auto [a, b] = smooth ? window_around(first + step * double(k), 0) : std::pair(k, k);
    running.push_back(a < b ? (sum[b] - sum[a]) / double(b - a) : samples[k].temperature);
  }
}

double AirSeries::shown(double time) const
{
  const double place = std::clamp((time - first) / step, 0., double(running.size() - 1));
  const std::size_t k = std::min(std::size_t(place), running.size() - 2);
  return running[k] + (place - double(k)) * (running[k + 1] - running[k]);
}

double AirSeries::mean(double time, double dt, const std::function<double(double, double)> &f) const
{
  const auto [a, b] = window_around(time, dt);
  return mean_between(a, b, f);
}

double AirSeries::mean_within(double time, double dt,
                              const std::function<double(double, double)> &f) const
{
  const double from = std::clamp(time, first, last);
  return mean_between(nearest(from), nearest(std::clamp(time + dt, from, last)), f);
}

std::size_t AirSeries::nearest(double time) const
{
  return std::min(samples.size() - 1, std::size_t(std::lround((time - first) / step)));
}

// Samples between which a step is averaged. A window that reaches beyond the phase is moved into
// it.
std::pair<std::size_t, std::size_t> AirSeries::window_around(double time, double dt) const
{
  const double width = smooth ? std::max(dt, window) : dt;
  const double from = std::clamp(time + dt / 2 - width / 2, first, std::max(first, last - width));
  return {nearest(from), nearest(std::min(last, from + width))};
}

double AirSeries::mean_between(std::size_t a, std::size_t b,
                               const std::function<double(double, double)> &f) const
{
  // Trapezoidal rule over the samples.
  double sum = 0, weight = 0;
  for (std::size_t k = a; k <= b; ++k) {
    const double w = a < b && (k == a || k == b) ? 0.5 : 1;
    sum += w * f(samples[k].temperature, samples[k].vapour);
    weight += w;
  }
  return sum / weight;
}

std::vector<double> AirSeries::bends(double error) const
{
  std::vector<double> times{first};
  std::size_t from = 0;
  const std::size_t n = running.size() - 1;
  const auto straight = [&](std::size_t to) {
    for (std::size_t k = from + 1; k < to; ++k) {
      const double line =
          running[from] + (running[to] - running[from]) * double(k - from) / double(to - from);
      if (std::abs(running[k] - line) > error)
        return false;
    }
    return true;
  };
  while (from < n) {
    std::size_t to = from + 1, reach = 1;
    for (; from + reach <= n && straight(from + reach); reach *= 2)
      to = from + reach;
    for (std::size_t more = reach / 2; more > 0; more /= 2)
      if (to + more <= n && straight(to + more))
        to += more;
    times.push_back(first + step * double(to));
    from = to;
  }
  return times;
}
} // namespace overbend::solver
