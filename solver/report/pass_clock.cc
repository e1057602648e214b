// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/pass_clock.h"

#include "cases/text/units.h"
#include "solver/words/shop_words.h"

#include <optional>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
constexpr double day = 24 * 3600;
} // namespace

PassClock pass_clock(const cases::Case &c, int pass)
{
  std::optional<double> start, zero, release;
  double time = 0, end = 0;
  bool clamped = false;
  for (const cases::Phase &phase : c.phases) {
    if (phase.pass == pass) {
      start = start.value_or(time);
      if (!zero && phase.heater && phase.cords)
        zero = time;
      if (!release && clamped && !phase.cords)
        release = time;
      clamped = phase.cords;
      end = time + phase.duration;
    }
    time += phase.duration;
  }
  if (!start)
    throw std::out_of_range("no phase of pass " + std::to_string(pass));
  return {*start, zero.value_or(*start), release.value_or(end), end};
}

int number_of_passes(const cases::Case &c)
{
  return c.phases.empty() ? 1 : c.phases.back().pass;
}

PassClock last_clock(const cases::Case &c)
{
  return pass_clock(c, number_of_passes(c));
}

double start_of(const cases::Case &c, unsigned phase)
{
  double time = 0;
  for (unsigned i = 0; i < phase; ++i)
    time += c.phases.at(i).duration;
  return time;
}

std::string when_it_begins(const cases::Case &c, unsigned phase)
{
  const PassClock clock = pass_clock(c, c.phases.at(phase).pass);
  const double time = start_of(c, phase);
  if (clock.after_release(time) > 1)
    return cases::clock(clock.after_release(time)) + " after release";
  const double now = clock.on_clock(time);
  // Long before the heat, the clock of the day means nothing.
  return now < -day ? cases::clock(-now) + " before" : clock_face(now);
}
} // namespace overbend::solver
