// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Water in air. Temperatures in K, relative humidity 0..1 against liquid water (also below 0 degC,
// as weather services give it).
namespace overbend::materials
{
// Pressure of saturated vapour over water, Pa, by the formula of cases/case/humid_air.h.
// Throws std::domain_error outside -40 to 200 degC.
double saturation_pressure(double temperature);

// Humidity of air of a temperature whose dew point is known: p(dew point)/p(temperature).
// Throws std::domain_error for a dew point above the temperature.
double humidity_from_dew_point(double temperature, double dew_point);

// The inverse, by Newton on ln p. Throws std::domain_error for humidity 0 or above 1, or a dew
// point below -40 degC.
double dew_point(double temperature, double humidity);

// Humidity of air that is warmed or cooled from one temperature to another and neither given nor
// robbed of water: h p(from)/p(to), 1 where water condenses.
double humidity_after_heating(double from_temperature, double humidity, double to_temperature);
} // namespace overbend::materials
