// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/climate/heat.h"
#include "solver/climate/moisture.h"
#include "solver/mechanics/mechanics.h"

// What heat and moisture do over a step of the mechanics.
namespace overbend::solver
{
// Fields at both ends. moisture may be null: as the neck was built. In a phase told in days
// (solver/climate/air_series.h) with the reduced time of the true course of temperature over that
// of its shown ends: of wood at the moisture of the tables' reference, since the local one cancels;
// of glue at the humidity of each point, since its softening point moves with it.
StepClimate climate_between(const Model &model, const ThermalHistory &heat,
                            const MoistureHistory *moisture, double from, double to);

// Largest change of ln a in glue that can flow within a step of dt.
double glue_log_change(const Model &model, const StepClimate &climate, double dt);
} // namespace overbend::solver
