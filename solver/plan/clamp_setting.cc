// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/clamp_setting.h"

#include "cases/declare/phases.h"

#include <algorithm>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
bool pulls_to_reading(const cases::Phase &phase)
{
  return phase.pull.kind == cases::Pull::Kind::to_reading;
}

double cold(double found, double straight, double overbend, double share)
{
  const double to = std::clamp(straight, std::min(found, overbend), std::max(found, overbend));
  return found + share * (to - found);
}
} // namespace

ClampSetting cold_setting(const PullRule &rule, const ClampSetting &overbend)
{
  return {cold(rule.found.bow, rule.straight.bow, overbend.bow, rule.cold_share),
          cold(rule.found.twist, rule.straight.twist, overbend.twist, rule.cold_share)};
}

std::vector<cases::Phase> with_setting(std::vector<cases::Phase> phases, const PullRule &rule,
                                       const ClampSetting &overbend)
{
  deciding_phase(phases);
  const ClampSetting first = cold_setting(rule, overbend);
  for (cases::Phase &phase : phases)
    if (pulls_to_reading(phase)) {
      const ClampSetting &to = phase.pull.decides ? overbend : first;
      phase.pull.bow = to.bow;
      phase.pull.twist = to.twist;
    }
  return phases;
}

std::vector<cases::Phase> with_second_setting(std::vector<cases::Phase> phases,
                                              const ClampSetting &setting)
{
  const std::optional<unsigned> at = cases::second_reading(phases);
  if (!at)
    throw std::logic_error("nobody reads a second time");
  cases::Pull &pull = phases[*at].pull;
  pull.kind = cases::Pull::Kind::to_reading;
  pull.bow = setting.bow;
  pull.twist = setting.twist;
  return phases;
}

unsigned deciding_phase(const std::vector<cases::Phase> &phases)
{
  for (unsigned i = 0; i < phases.size(); ++i)
    if (pulls_to_reading(phases[i]) && phases[i].pull.decides)
      return i;
  throw std::logic_error("a plan needs a phase that pulls to a reading");
}
} // namespace overbend::solver
