// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/set_up_open.h"

#include "cases/declare/phases.h"

namespace overbend::cases
{
namespace
{
bool all_open(const LeftOpen &open)
{
  return open.bar_temperature && open.bar_ends && open.bar_width && open.wrap && open.wrap_foil &&
         open.hold && open.second_reread && open.device && open.cradle;
}
} // namespace

LeftOpen left_open(const Case &result)
{
  LeftOpen open;
  if (result.phases_listed)
    return open;
  const auto is_open = [&](const char *key) { return result.lines.count(key) == 0; };
  open.bar_temperature =
      is_open("heater.bar_temperature") && result.heater.source != HeatSource::parked;
  open.bar_ends = is_open("heater.to") && is_open("heater.iron_to");
  open.bar_width = is_open("heater.width");
  open.wrap = is_open("schedule.wrap");
  open.wrap_foil = is_open("schedule.wrap_foil") && is_open("room.wrap_resistance");
  open.hold = is_open("schedule.hold");
  open.second_reread = is_open("schedule.second_reread") && result.schedule.reread;
  open.device = is_open("bench.device") && is_open("bench.posts") && !result.bench.stop_block;
  open.cradle = is_open("bench.cradle");
  return open;
}

bool fixes_set_up(const Case &result)
{
  return !result.phases_listed && !all_open(result.left_open);
}

Case with_set_up_open(const Case &result)
{
  if (result.phases_listed)
    return result;
  Case open = result;
  open.left_open = {true, true, true, true, true, true, true, true, true};
  open.bench.stop_block = false;
  open.phases = scheduled_phases(open);
  return open;
}
} // namespace overbend::cases
