// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/fret_heights.h"
#include "cases/case/strips.h"
#include "cases/text/units.h"
#include "solver/readings/fret_surface.h"
#include "solver/readings/neck_angle.h"
#include "solver/text/plan_text.h"
#include "solver/verdict/verdict_need.h"
#include "solver/words/shop_words.h"

#include <sstream>

namespace overbend::solver
{
std::string case_in_short(const cases::Case &c)
{
  std::ostringstream out;
  out << "  bow " << bow_in_words(c.found.bow_centre) << " at fret " << c.found.bow_fret << " over "
      << rests_in_words(c) << ", twist "
      << (c.found.twist ? twist_in_words(*c.found.twist) : "unknown") << "\n";
  if (!c.readings.fret_heights.empty())
    out << folded("frets against the level ones: " +
                      cases::fret_heights_in_words(c.readings.fret_heights),
                  "  ", "    ");
  if (const std::string words = frets_in_words(c); !words.empty())
    out << folded(words, "  ", "    ");
  if (const auto angle = neck_angle(c, materials::tables().limits))
    out << folded("neck angle: " + in_words(*angle), "  ", "    ");
  out << "  shaft " << cases::shaft_in_words(c.neck) << ", board " << c.neck.board.wood
      << ", board glue " << c.board_glue.kind.value_or("unknown") << "\n";
  for (const cases::Phase &phase : c.phases)
    out << "  phase \"" << phase.name << "\", " << cases::clock(phase.duration) << "\n";
  return out.str();
}
} // namespace overbend::solver
