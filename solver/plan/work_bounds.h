// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/plan/demand.h"
#include "solver/plan/plan.h"

#include <optional>
#include <vector>

// What a simulated correction asks of bench and neck, as shares of what each may bear: a share of 1
// is at the limit. The limits are numbers of the tables (limits.toml, tuners.toml) and of the case
// (the cords). A plan stays within them by going back along the line from the found neck to its
// target.
namespace overbend::solver
{
// How far past straight a setting bends the neck, against the most that is allowed; as built
// included, as the straightedge reads it.
double overbend_share(const ClampSetting &setting, const Reading &as_built, double scale_length,
                      const materials::WorkLimits &limits);

// All demands of the column's full run over the phases, the largest share first. Strength counts in
// phases with cords only: what strings do afterwards no setting can mend.
std::vector<Demand> demands(const PlanColumn &column, const cases::Case &the_case,
                            const std::vector<cases::Phase> &phases,
                            const materials::Tables &tables);

// Largest pressure of the cradle's pad at one step as a share of what the back bears across the
// grain, at the warmest and dampest place under the pad. moisture may be empty: as built.
Peak pad_use(const Model &model, const cases::Case &the_case, const StepRecord &step,
             const std::vector<double> &temperature, const std::vector<double> &moisture);

// Raises the peaks by one step of a history: wood, glue lines, and the back under the cradle's pad.
void watch_peaks(Peaks &peaks, const Workbench &workbench, const cases::Case &the_case,
                 const StepRecord &step, const MechanicsState &state,
                 const std::vector<double> &temperature, const std::vector<double> &moisture);
} // namespace overbend::solver
