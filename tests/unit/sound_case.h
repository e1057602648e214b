// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/read/read_case.h"

namespace overbend::tests
{
constexpr double celsius = 273.15, degree = 3.14159265358979323846 / 180;

// A case that nothing speaks against before it is simulated.
inline cases::Case sound_case()
{
  cases::Case c = cases::preset_case("electric");
  c.found.bow_bass = c.found.bow_centre = c.found.bow_treble = 1e-3;
  c.found.twist = 0.5 * degree;
  c.board_glue.kind = "white PVA";
  c.finish = cases::Finish::polyester;
  c.binding = cases::Binding::none;
  return c;
}
} // namespace overbend::tests
