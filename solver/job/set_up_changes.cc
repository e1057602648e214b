// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/set_up_changes.h"

#include "cases/text/units.h"
#include "solver/words/device_names.h"

#include <cmath>

namespace overbend::solver
{
using cases::both_lengths;
using cases::both_temperatures;

std::vector<std::string> changes_in_words(const cases::Case &asked, const cases::Case &planned)
{
  std::vector<std::string> all;
  const cases::Heater &a = asked.heater, &p = planned.heater;
  if (std::abs(a.bar_temperature - p.bar_temperature) > 0.01)
    all.push_back("Bar at " + both_temperatures(p.bar_temperature) + " instead of " +
                  both_temperatures(a.bar_temperature) + ".");
  if (std::abs(a.to - p.to) > 1e-3)
    all.push_back("Bar to " + both_lengths(p.to) + " from the nut instead of " +
                  both_lengths(a.to) + ".");
  if (std::abs(a.width - p.width) > 1e-3)
    all.push_back("Bar " + both_lengths(p.width) + " wide instead of " + both_lengths(a.width) +
                  ".");
  if (asked.schedule.wrap != planned.schedule.wrap)
    all.push_back(planned.schedule.wrap ? "Wrap the neck in dry cloth." : "Do not wrap the neck.");
  if (planned.schedule.wrap && asked.schedule.wrap_foil != planned.schedule.wrap_foil)
    all.push_back("Lay kitchen foil under the cloth.");
  if (std::abs(asked.schedule.hold - planned.schedule.hold) > 30)
    all.push_back("Hold the heat for " + cases::clock(planned.schedule.hold) + " instead of " +
                  cases::clock(asked.schedule.hold) + ".");
  if (planned.schedule.second_reread && !asked.schedule.second_reread &&
      !asked.left_open.second_reread)
    all.push_back("Read it hot a second time.");
  if (std::abs(asked.bench.cradle_x - planned.bench.cradle_x) > 1e-3)
    all.push_back("Cradle " + both_lengths(planned.bench.cradle_x) + " from the nut instead of " +
                  both_lengths(asked.bench.cradle_x) + ".");
  if (asked.bench.device != planned.bench.device)
    all.push_back("Pull with the " + device_name(planned.bench.device) + " instead of the " +
                  device_name(asked.bench.device) + ".");
  if (asked.bench.stop_block && !planned.bench.stop_block)
    all.push_back("No stop block.");
  return all;
}
} // namespace overbend::solver
