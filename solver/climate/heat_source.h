// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "solver/climate/heat_bar.h"
#include "solver/model/model.h"
#include "solver/model/sampling.h"

#include <optional>

// What heats the neck in the heated phases: bar, iron, and the thermometer it is held by.
namespace overbend::solver
{
struct HeatSource
{
  HeatSource() = default;
  // On a board without a radius, held at the bar.
  HeatSource(cases::Heater of_case) : heater(std::move(of_case)) {}

  cases::Heater heater;
  double board_radius = 0;     // of the board under a flat bar, m; 0: the bar touches throughout
  std::optional<Sample> probe; // where the heat is held by the probe
  double hold_at = 0;          // K, what the probe is to show
};

// As the case says. Throws std::runtime_error if the heat is held by a probe that is off the neck.
HeatSource heat_source(const Model &model, const cases::Case &the_case);

// The probe's place in the axes of the model.
Vec3 probe_place(const cases::Case &the_case);

// Where the bar lies and how its nodes are laid; nothing of what it is made of.
BarOnBoard bar_outline(const cases::Heater &heater);

// The bar as the case lays it on the board, with its metal and the iron on it.
BarOnBoard make_bar(const HeatSource &source);
} // namespace overbend::solver
