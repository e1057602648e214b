// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/verification/grain_strip.h"

#include <optional>

// Beams glued up from strips side by side, laid out by the code that lays out a laminated shaft.
namespace overbend::tests
{
struct GluedStrip
{
  double width = 0; // m
  materials::Wood wood;
  cases::Grain grain{};
  double swelling_along = 1; // factor on that of the wood
};

// Gives a beam of a single block its strips, from bass to treble. built: moisture content (kg/kg)
// they were glued up at; none: they never swell.
void glue_up(Beam &beam, const std::vector<GluedStrip> &strips,
             std::optional<double> built = std::nullopt);

// Curvature (1/m) of the axis between a quarter and three quarters of the length, where the ends
// are far: of the bow up and down (forward positive, axis 2), or of that sideways (towards the
// treble side in the middle negative, axis 1).
double curvature(const Beam &beam, const std::vector<double> &displacement, unsigned axis);
} // namespace overbend::tests
