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

// How a cord loads its post: sideways, as the string does, or along it, out of the headstock.
enum class PostLoad { sideways, along };

// Pull on one post from which to be careful and from which to refuse, N. With T the tension (N)
// that the set puts on the post every day, c and r the shares of the table (1.2 and 1.5):
//   sideways: no from max(r T, floor), caution from max(c T, floor c/r); the floor is 0 for all but
//     worm gears of steel strings, which bear that much in any set;
//   along: no from the table's limit, and for all but worm gears from r T if that is less.
// Source: estimate, tuners.toml [E].
struct PostLimit
{
  double caution = 0, refuse = 0;
};
PostLimit post_limit(const Tuner &tuner, double daily_tension, PostLoad load);
} // namespace overbend::materials
