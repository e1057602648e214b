// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case.h"

// Air by relative humidity and by dew point. Only what the reader needs to hold one of the two.
namespace overbend::cases
{
// Pressure of water vapour at saturation, Pa, at a temperature in K. Magnus formula over water,
//   e_s = 611.2 Pa exp(17.62 t / (243.12 + t)), t in degC,
// with the constants of Sonntag 1990 as in the guide of the World Meteorological Organization [M].
// Stated for -45 to 60 degC to 0.6 %; at 95 degC it is 2 % high.
double saturation_pressure(double temperature);

// Relative humidity of air whose dew point is given, 1 at saturation. Both in K.
double humidity_at(double temperature, double dew_point);

// The humidity that air keeps when it is brought to another temperature without gaining or losing
// water: what does not fit condenses, so 1 at most.
double humidity_after(double humidity, double from_temperature, double to_temperature);
} // namespace overbend::cases
