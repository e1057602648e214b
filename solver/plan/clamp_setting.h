// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <vector>

namespace overbend::solver
{
// What the neck is brought to in the clamp: centre bow (m) and twist (rad), as the model reads.
struct ClampSetting
{
  double bow = 0, twist = 0;
};

// How the pulls of a pass follow from its overbend.
//
// The overbend is pulled when the line is soft, at the hot re-readings (Pull::decides). The cold
// pull before it only brings the neck straight, to see that everything holds: further, it would
// take force that the soft neck does not need. Without a hot re-reading the cold pull decides.
struct PullRule
{
  ClampSetting found;    // where the clamp does nothing
  ClampSetting straight; // what the bench reads as straight and without twist
  double cold_share = 1; // of the way from found to the cold reading, where a limit binds there
};

// The cold reading for an overbend: straight, but never beyond the overbend itself, bow and twist
// each for itself; cold_share of the way to it.
ClampSetting cold_setting(const PullRule &rule, const ClampSetting &overbend);

// The phases with their pulls to a reading filled in. std::logic_error without such a pull.
std::vector<cases::Phase> with_setting(std::vector<cases::Phase> phases, const PullRule &rule,
                                       const ClampSetting &overbend);

// The phases with what pulls let up, or taken up, to `setting` at the second hot reading.
// std::logic_error without such a reading.
std::vector<cases::Phase> with_second_setting(std::vector<cases::Phase> phases,
                                              const ClampSetting &setting);

// First phase in which the overbend is pulled. std::logic_error without one.
unsigned deciding_phase(const std::vector<cases::Phase> &phases);
} // namespace overbend::solver
