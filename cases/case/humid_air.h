// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

// Air by relative humidity and by dew point. Only what the reader needs to hold one of the two.
namespace overbend::cases
{
// Pressure of water vapour at saturation over water, Pa, at a temperature in K: Hyland and Wexler
// 1983, the form of the ASHRAE Handbook of Fundamentals (coefficients read in published code), made
// for 0 to 200 degC and within 2 % of published values for supercooled water down to -40 degC.
//   ln p = C8/T + C9 + C10 T + C11 T^2 + C12 T^3 + C13 ln T
double saturation_pressure(double temperature);

// Relative humidity of air whose dew point is given, 1 at saturation. Both in K.
double humidity_at(double temperature, double dew_point);

// The humidity that air keeps when it is brought to another temperature without gaining or losing
// water: what does not fit condenses, so 1 at most.
double humidity_after(double humidity, double from_temperature, double to_temperature);
} // namespace overbend::cases
