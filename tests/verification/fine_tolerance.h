// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace overbend::tests
{
// Of the equation solver, where symmetry is looked for to a millionth: its usual tolerance is a
// share of the forces of swelling that wood holds within itself, and a slack neck bends by little of
// them (3e-8 leaves 1e-5 of the bow).
constexpr double fine_tolerance = 1e-10;
} // namespace overbend::tests
