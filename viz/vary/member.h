// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/show/variants.h"

#include <optional>
#include <string>
#include <vector>

// One case of a study, on disk, and what its plan came to.
namespace overbend::viz
{
struct Member
{
  std::size_t number = 0; // from 1
  cases::Variant variant;
  std::string case_file, folder; // of the plan
  std::string why_not;           // it has no plan because
};

// What a plan came to. Lengths in m, K and s; what a refusal before any simulation lacks is empty.
struct Outcome
{
  std::string verdict;
  std::optional<double> set_point, hold, overbend, strung, strung_slow, strung_fast;
  std::size_t passes = 0;
  std::string hardest; // what comes nearest to its limit
  double share = 0;    // of that limit
};

// The words that plan it.
std::vector<std::string> plan_words(const std::string &program, const Member &member);

// Whether its folder holds a finished plan of just this case.
bool is_planned(const Member &member);

// Of its plan.json. solver::FileError if there is none.
Outcome outcome_of(const Member &member);
} // namespace overbend::viz
