// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/report/plan_report.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

// What the neck would read if the clamp were set to something else than planned, or the heat were a
// little more: by the plan's own sensitivities, without another run.
//
// Readings are affine in the overbend while the same pulls work and the line slides: a line that
// keeps the share k of the clamped way reads b = b_plan + k (o - o_plan), strung at the date asked.
// k of the middle line is that of the unit histories; slow and fast lines keep what leads from
// where the clamp does nothing, which all lines share, to what they read in the plan [C]. Of the
// heat: shares by the closed form of the sliding line (first_guess.h), as a ratio to the plan's.
namespace overbend::solver
{
struct WhatIfClamp
{
  double overbend = 0;            // bow that the clamp is set to when hot, as the bench reads it, m
  std::array<double, 3> strung{}; // slow, middle, fast line, m
  bool is_the_plan = false;
};

struct WhatIf
{
  int pass = 1;                   // the one that is to be done now
  std::vector<WhatIfClamp> clamp; // from the shallowest to the deepest
  std::string deepest_because;    // what the deepest is bound by; empty: only by the range
  // Strung reading of the middle line with a kelvin more at the bar and with an hour more, m; empty
  // where nothing heats it.
  std::optional<double> with_a_degree, with_an_hour;
};

// How far from the plan's way the table goes, as a share of it [E]. Readings strung of three
// clamps, 0.5 to 1.5 mm past straight, lay on one line to 0.003 mm for six set-ups of an electric
// neck with a bow of 1 mm (tests/jobs/grid).
constexpr double what_if_range = 0.3;

// Empty for a refusal, without a job, and where the line does not move.
std::optional<WhatIf> what_if(const PlanReport &report);
} // namespace overbend::solver
