// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/report/plan_report.h"

#include <string>
#include <vector>

// How far bow and twist go in the months of play after the target is read: the least and the most
// of the steps of each phase of play, of the main column, as the bench reads them.
namespace overbend::solver
{
struct PlayMoment
{
  double value = 0;         // bow at the centre, m, or twist, rad
  double after_release = 0; // s
  std::string month;        // empty where the air is a table without months
};

struct PlayExtremes
{
  std::string phase;
  PlayMoment least_bow, most_bow, least_twist, most_twist;
};

// One a phase of play after the date asked; empty without any, or without a column.
std::vector<PlayExtremes> extremes_of_play(const PlanReport &report);
} // namespace overbend::solver
