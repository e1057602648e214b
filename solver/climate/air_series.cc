// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/air_series.h"

#include "cases/climate.h"
#include "materials/damp_air.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr double finest = 300, coarsest = 21600; // s between samples

double shortest_interval(const cases::Climate &climate, double duration)
{
  double shortest = duration;
  for (std::size_t k = 1; k < climate.points.size(); ++k)
    shortest = std::min(shortest, climate.points[k].time - climate.points[k - 1].time);
  return shortest;
}
} // namespace

bool leaves_out_breathing(const cases::Phase &phase)
{
  return phase.duration > breathing_until &&
         shortest_interval(phase.climate, phase.duration) <= day_window / 2;
}

AirSeries::AirSeries(const cases::Phase &phase, double begin, double lag, double start)
    : first(begin), last(begin + phase.duration), smooth(phase.duration > told_in_days_from)
{
  knot = shortest_interval(phase.climate, phase.duration);
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
  for (std::size_t k = 0; k <= n; ++k)
    running.push_back(smooth ? mean(first + step * double(k), 0, [](double t, double) { return t; })
                             : samples[k].temperature);
}

double AirSeries::shown(double time) const
{
  const double place = std::clamp((time - first) / step, 0., double(running.size() - 1));
  const std::size_t k = std::min(std::size_t(place), running.size() - 2);
  return running[k] + (place - double(k)) * (running[k + 1] - running[k]);
}

double AirSeries::mean(double time, double dt, const std::function<double(double, double)> &f) const
{
  const double width = smooth ? std::max(dt, day_window) : dt;
  double from = time + dt / 2 - width / 2;
  // A window that reaches beyond the phase is moved into it.
  from = std::clamp(from, first, std::max(first, last - width));
  return mean_between(from, std::min(last, from + width), f);
}

double AirSeries::mean_within(double time, double dt,
                              const std::function<double(double, double)> &f) const
{
  const double from = std::clamp(time, first, last);
  return mean_between(from, std::clamp(time + dt, from, last), f);
}

double AirSeries::mean_between(double from, double to,
                               const std::function<double(double, double)> &f) const
{
  // Trapezoidal rule over the samples inside, the ends taken at the nearest ones.
  const std::size_t n = samples.size() - 1;
  const std::size_t a = std::min(n, std::size_t(std::lround((from - first) / step))),
                    b = std::min(n, std::size_t(std::lround((to - first) / step)));
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
