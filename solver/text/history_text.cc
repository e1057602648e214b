// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/text/plan_text.h"

#include "cases/text/units.h"
#include "solver/text/plan_text_parts.h"
#include "solver/words/pull_names.h"
#include "solver/words/shop_words.h"

namespace overbend::solver
{
using cases::all_forces;
using cases::both_temperatures;
using text::padded;

std::string history_text(const cases::Case &c, const History &history, const Reading &as_built,
                         const std::function<HeatReading(double)> &heat)
{
  std::ostringstream out;
  out << "Bow over " << rests_in_words(c) << " at fret " << c.found.bow_fret
      << ", forward +; twist: treble corner of the nut up +\n";
  const auto line = [&](const std::string &moment, double time, const Reading &of_model) {
    const Reading r = at_bench(c, of_model, as_built);
    const HeatReading warm = heat(time);
    out << "  " << padded(moment, 28) << padded(clock_face(time), 12)
        << padded("bass " + signed_length(r.bow_bass), 27)
        << padded("centre " + signed_length(r.bow), 29)
        << padded("treble " + signed_length(r.bow_treble), 29)
        << padded(cases::degrees(r.twist), 10) << "probe " << both_temperatures(warm.probe);
    if (warm.moisture)
      out << ", moisture there " << fixed(100 * warm.moisture->probe, 1) << " %, skin "
          << fixed(100 * warm.moisture->skin, 1) << " %, core "
          << fixed(100 * warm.moisture->core, 1) << " %";
    out << "\n";
  };
  for (const PhaseEnd &end : history.phases) {
    const cases::Phase &phase = c.phases[end.phase];
    line(phase.name + ": start", end.time - phase.duration, end.reading_at_start);
    line(phase.name + ": end", end.time, end.reading);
    const auto names = pull_names(c);
    for (std::size_t k = 0; k < names.size() && phase.cords; ++k)
      out << "    " << names[k] << " at most " << all_forces(end.largest_cord[k]) << "\n";
  }
  for (const std::string &note : history.notes)
    out << "  note: " << note << "\n";
  return out.str();
}
} // namespace overbend::solver
