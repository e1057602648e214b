// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <functional>
#include <utility>
#include <vector>

// Air that changes while a phase lasts, and how warm the neck is in it.
//
// The neck follows the air as one lump, dT/dt = (T_air - T)/lag: beside steps of hours and days its
// own differences (some kelvin for an hour) do not count. A phase of more than three days is told
// in means over a day: what is shown is the running mean, and what depends on temperature or
// humidity in a curved way (creep shift, softening, diffusion, rest at the surface) is averaged
// over the true course within the step, at least over a day: the mean of the rates, for a glue line
// lives in the hot hours, not the rate of the mean. A phase of more than four weeks whose air
// changes within half a day is told in means over a week, so that what comes once a week (a hot
// evening) does not move what is shown. Steps need not follow the hours then.
// What this leaves out: thermal bow within the day or week, and order within a step. The skin takes
// up and loses water within the day, and each swing lets loaded wood creep; therefore moisture
// itself is followed by the hour and the steps are told how far it went up and down
// (solver/climate/moisture.h), in phases of up to two weeks; in longer ones a week at a time is
// followed so (solver/climate/moisture_breathing.h). Measured on the week of
// cases/car-and-stage.csv, an electric neck on a coarse mesh, strung: the bow grows by 0.0391 mm
// told in days (26 steps) and by 0.0389 mm followed by the hour (213 steps); without the breathing
// it would be 0.0252 mm. Switched off one by one, thermal strain and slip of the glue change this
// difference by nothing; without moisture there is none (0.0229 and 0.0232 mm)
// (tests/benchmarks/winter.cc --hours).
namespace overbend::solver
{
constexpr double told_in_days_from = 3 * 86400;   // s
constexpr double told_in_weeks_from = 28 * 86400; // s
constexpr double day_window = 86400;              // s
// Moisture is followed by the hour in phases told in days up to this long, s.
constexpr double breathing_until = 14 * 86400;

// Air that changes within half a day for longer than moisture is followed by the hour: the skin's
// breathing is followed for a week at a time and carried over the rest.
bool samples_breathing(const cases::Phase &phase);

class AirSeries
{
public:
  // begin: time of the phase's start, s; lag: s; start: temperature of the neck there, K.
  AirSeries(const cases::Phase &phase, double begin, double lag, double start);

  double begin() const { return first; }
  double end() const { return last; }
  bool in_days() const { return smooth; }
  // Told in days, but the skin of the wood takes up and loses water within them: air that changes
  // within half a day ...
  bool swings() const { return smooth && knot <= day_window / 2; }
  // ... in a phase that is not too long to follow moisture by the hour.
  bool breathes() const { return swings() && last - first <= breathing_until; }
  // Times between which the air may bend, s: a step that follows the course is not longer.
  double spacing() const { return knot; }

  // Temperature of the neck as it is shown: the running mean of a day or a week, or as it is.
  double shown(double time) const;
  // Mean of f(temperature of the neck (K), vapour pressure of the air (Pa)) over a step, and over
  // at least the window of the running mean in a phase told in days or weeks.
  double mean(double time, double dt, const std::function<double(double, double)> &f) const;
  // The same over the step and no more, also in a phase told in days.
  double mean_within(double time, double dt, const std::function<double(double, double)> &f) const;
  // Times and shown temperatures such that straight lines between them err by less than `error`, K.
  std::vector<double> bends(double error) const;

private:
  void find_running();
  std::size_t nearest(double time) const;
  std::pair<std::size_t, std::size_t> window_around(double time, double dt) const;
  double mean_between(std::size_t a, std::size_t b,
                      const std::function<double(double, double)> &f) const;

  struct Sample
  {
    double temperature, vapour;
  };
  double first = 0, last = 0, step = 0, knot = 0, window = day_window;
  bool smooth = false;
  std::vector<Sample> samples; // from begin to end, `step` apart
  std::vector<double> running; // shown temperature at the samples
};
} // namespace overbend::solver
