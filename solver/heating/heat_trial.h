// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/heating/heat_choice.h"
#include "solver/plan/workbench.h"

#include <vector>

// A history of heat that a choice of heat is made from, and what it changes in the case.
namespace overbend::solver
{
// The phases up to the end of the heat, for a trial.
std::vector<cases::Phase> until_the_heat_ends(const cases::Case &c);

struct Trial
{
  ThermalHistory heat;
  std::vector<cases::Phase> phases;
  HeatPlaces places;
};

Trial try_heat(const cases::Case &c, const Workbench &workbench);

// Places with the bar at another temperature: what they have above the room grows with the bar's.
HeatPlaces scaled(const HeatPlaces &p, double room, double factor);

// Hottest bar that keeps a place within its limit.
double hottest_bar(double bar, double room, double place, double limit);

// As wide as the board at fret 12, in whole mm: the edges of the line are its coldest places, and
// what they keep of their stiffness holds the rest.
void widen_bar(cases::Case &c);

void lay_bar(cases::Case &c);

void remake(cases::Case &c);
} // namespace overbend::solver
