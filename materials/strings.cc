// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/strings.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace overbend::materials
{
std::vector<double> tensions(const StringSet &set, double scale_length, double semitones)
{
  std::vector<double> pull;
  for (const String &string : set.strings) {
    const double speed = 2 * scale_length * string.frequency * std::exp2(semitones / 12);
    pull.push_back(string.mass * speed * speed);
  }
  return pull;
}

double total_tension(const StringSet &set, double scale_length, double semitones)
{
  const std::vector<double> pull = tensions(set, scale_length, semitones);
  return std::accumulate(pull.begin(), pull.end(), 0.);
}

double take_up_per_turn(const Tuner &tuner, double cord_diameter)
{
  return std::acos(-1.) * (tuner.post_diameter + cord_diameter) / tuner.ratio;
}

PostLimit post_limit(const Tuner &tuner, double daily_tension, PostLoad load)
{
  double refuse = tuner.refuse_share * daily_tension;
  if (load == PostLoad::sideways)
    refuse = std::max(refuse, tuner.side_floor);
  else
    refuse =
        tuner.kind == TunerKind::worm ? tuner.along_limit : std::min(refuse, tuner.along_limit);
  return {refuse * tuner.caution_share / tuner.refuse_share, refuse};
}
} // namespace overbend::materials
