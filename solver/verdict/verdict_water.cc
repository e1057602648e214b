// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/verdict/verdict_water.h"

#include "materials/sorption.h"
#include "solver/model/build_model.h"
#include "solver/model/cell_forms.h"
#include "solver/verdict/verdict.h"
#include "solver/words/shop_words.h"

#include <cmath>

namespace overbend::solver
{
namespace
{
bool waits_before_heat(const cases::Case &c)
{
  for (const cases::Phase &phase : c.phases) {
    if (phase.heater)
      return false;
    if (phase.kind == cases::PhaseKind::condition)
      return true;
  }
  return false;
}
} // namespace

double mean_moisture(const Model &model, const std::vector<double> &moisture)
{
  const std::vector<double> volume = node_volumes(model.space);
  double water = 0, all = 0;
  for (std::size_t n = 0; n < volume.size(); ++n) {
    water += volume[n] * moisture.at(n);
    all += volume[n];
  }
  return water / all;
}

Verdict judge_water(const cases::Case &c, double moisture)
{
  Verdict v;
  const double humidity =
      materials::rest_humidity(c.room.temperature, moisture, sorption_branch(c));
  const double limit = materials::tables().limits.condition_humidity;
  if (std::abs(humidity - c.room.humidity) < limit || !is_heated(c) || waits_before_heat(c))
    return v;
  const bool damp = humidity > c.room.humidity;
  const auto percent = [](double share) { return fixed(100 * share, 0) + " %"; };
  v.refuse("The wood is too " + std::string(damp ? "damp" : "dry") + " for this shop: with " +
               percent(moisture) + " of water it would be at rest in air of " + percent(humidity) +
               " humidity, and the shop has " + percent(c.room.humidity) +
               ". It moves by itself until it has come to rest, and heat " +
               (damp ? "would dry it in the clamp and let its glue slide further than planned."
                     : "would dry it further, and its glue would hardly slide."),
           {"let it stand in the shop's air, strings off, until it reads the same for a week (some "
            "weeks under a closed finish), then read it again and plan from that"},
           Verdict::condition_first);
  return v;
}
} // namespace overbend::solver
