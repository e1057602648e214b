// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/tables.h"

// Pull of strings and take-up of tuners.
namespace overbend::materials
{
// Tension (N) of each string of a set, treble to bass, on a scale of length L (m), tuned a number
// of semitones above standard pitch: T = mass (2 L f)^2 (Mersenne).
std::vector<double> tensions(const StringSet &set, double scale_length, double semitones = 0);

// Sum of tensions().
double total_tension(const StringSet &set, double scale_length, double semitones = 0);

// Cord wound up by one turn of the button, m: pi (post + cord diameter)/ratio.
double take_up_per_turn(const Tuner &tuner, double cord_diameter);
} // namespace overbend::materials
