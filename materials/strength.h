// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/wood_law.h"

#include <string>
#include <vector>

// How much of the strength of wood a stress uses, by the criterion of Norris (1962, Forest Products
// Laboratory report 1816, from memory), made for wood. In each of the planes LR, LT and RT
//
//   u^2 = (s_a/X_a)^2 - s_a s_b/(X_a X_b) + (s_b/X_b)^2 + (t_ab/S_ab)^2
//
// X in tension or compression by the sign of the stress; u = 1 is failure, and u grows in
// proportion to the load. A strength no source gives drops out of the sum: see missing_modes().
namespace overbend::materials
{
// Strengths of one wood at one temperature and moisture, Pa; infinite if unknown.
struct Strengths
{
  double tension_along, compression_along;
  double tension_across, compression_across;
  double shear_along, shear_rolling;
};

// Bending strength (taken for tension along the grain), compression and shear follow moisture by
// Eq. 5-3 of the Wood Handbook where their green value is known, and stay at 12 % where it is not.
// Tension across stays at 12 %: the equation is not made for it. All fall with temperature by Table
// 5-15, exponentially through its value at 50 degC.
Strengths strengths(const Wood &wood, double temperature, double moisture);

struct Use
{
  double share = 0;      // 1 is failure
  const char *mode = ""; // the largest single part: "tension along the grain", ...
};

Use use_of_strength(const Vector6 &stress, const Strengths &strengths);
Use use_of_strength(const Vector6 &stress, const Wood &wood, double temperature, double moisture);

// What the criterion cannot see for this wood, in words.
std::vector<std::string> missing_modes(const Wood &wood);

// Strength under a load that lasts (s) against one of 5 minutes: SL(t)/SL(300 s) with the Madison
// curve SL = 18.3 + 108.4 t^-0.0464 percent (read in Forests 12 (2021) 1148). Held at 1 s.
double duration_factor(double time);

// Share of strength that a load uses which has been held for a time (s): the share of a test of 5
// minutes over the factor above. A shorter load counts as one of 5 minutes.
double lasting_share(double share, double held);

// How long a changing load has been held, by its shares of strength as time goes on: since the
// share was last below 90 % [E] of what it is now. Less than that hardly adds to what breaks it: by
// the curve above, a tenth less load lasts some twenty times as long.
class HeldLoad
{
public:
  // The time (s) for which the load of this moment has been held. Times must not fall.
  double held(double time, double share);

private:
  struct Level
  {
    double since, share; // from then on never below the share
  };
  std::vector<Level> level; // shares rise
};
} // namespace overbend::materials
