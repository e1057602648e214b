// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/units.h"
#include "solver/text/plan_text_parts.h"
#include "solver/words/shop_words.h"

#include <cmath>

namespace overbend::solver::text
{
namespace
{
using cases::both_lengths;

void say(std::ostringstream &out, const std::string &words)
{
  out << folded(words, "    ", "    ");
}

std::string sticks(double twist)
{
  const std::string words = twist_in_words(twist);
  return words == "none" ? words
                         : words + ", " + both_lengths(std::abs(over_sticks(twist))) +
                               " at the tips of 300 mm (12 in) sticks";
}

bool on_both_ends(const cases::Case &c, const EdgeOnLine &e)
{
  return e.rest_a == c.found.rest_fret_a && e.rest_b == c.found.rest_fret_b;
}

// What a straightedge shows on one line: its gap, or the end gaps of one that rocks.
std::string edge(const cases::Case &c, const EdgeOnLine &e)
{
  if (e.rocks)
    return "rocks on fret " + std::to_string(e.hump_fret) + ", balanced " +
           both_lengths(e.end_gap) + " at each end";
  if (e.deepest_gap < least_end_gap)
    return "lies flat";
  return (on_both_ends(c, e) ? "gap "
                             : "rests on frets " + std::to_string(e.rest_a) + " and " +
                                   std::to_string(e.rest_b) + ", gap ") +
         both_lengths(e.deepest_gap) + " at fret " + std::to_string(e.deepest_gap_fret);
}

// The usual case, all three lines alike, in fewer words.
std::string edges(const cases::Case &c, const StageReadings &r)
{
  const auto all = [&](const auto &is) {
    return is(r.line[0].edge) && is(r.line[1].edge) && is(r.line[2].edge);
  };
  const auto each = [&](const auto &words) {
    std::string text;
    for (unsigned k = 0; k < 3; ++k)
      text += std::string(k > 0 ? ", " : "") + line_names[k] + " " + words(r.line[k].edge);
    return text;
  };
  const std::string edge_on = capital(edge_in_words(c)) + " from fret " +
                              std::to_string(c.found.rest_fret_a) + " to " +
                              std::to_string(c.found.rest_fret_b);
  if (all([](const EdgeOnLine &e) { return e.rocks; }))
    return edge_on + ": it rocks, and balanced shows the same gap at each end: " +
           each([](const EdgeOnLine &e) {
             return both_lengths(e.end_gap) + " (on fret " + std::to_string(e.hump_fret) + ")";
           });
  if (all([&](const EdgeOnLine &e) { return !e.rocks && on_both_ends(c, e); }))
    return edge_on + ": deepest gap " + each([](const EdgeOnLine &e) {
             return both_lengths(e.deepest_gap) + " (fret " + std::to_string(e.deepest_gap_fret) +
                    ")";
           });
  return edge_on + ": " + line_names[0] + " " + edge(c, r.line[0].edge) + "; " + line_names[1] +
         " " + edge(c, r.line[1].edge) + "; " + line_names[2] + " " + edge(c, r.line[2].edge);
}

void rows(std::ostringstream &out, const cases::Case &c, const StageReadings &r, bool marked)
{
  out << "      fret bass                   centre                 treble\n";
  for (const int fret : reading_frets(c)) {
    const bool here = marked && fret == c.found.bow_fret;
    out << (here ? "    > " : "      ") << fret << (fret < 10 ? "    " : "   ");
    for (unsigned line = 0; line < 3; ++line) {
      const auto at = std::size_t(fret - c.found.rest_fret_a);
      const std::string cell = signed_length(r.line[line].bow_by_fret.at(at));
      out << (line < 2 ? padded(cell, 23) : cell);
    }
    out << "\n";
  }
}
} // namespace

std::string fret_table(const cases::Case &c, const StageReadings &r, const std::string &mark,
                       bool strings)
{
  std::ostringstream out;
  rows(out, c, r, !mark.empty());
  const auto rests =
      std::to_string(c.found.rest_fret_a) + " and " + std::to_string(c.found.rest_fret_b);
  say(out, "(over the chord of " + rests_in_words(c) + "; - is past straight" +
               (mark.empty() ? "" : "; > " + mark) + ")");
  say(out, edges(c, r) + ".");
  if (strings)
    say(out, "String held down at frets " + rests + ", largest gap: bass " +
                 both_lengths(r.line[0].relief) + " at fret " +
                 std::to_string(r.line[0].relief_fret) + ", treble " +
                 both_lengths(r.line[2].relief) + " at fret " +
                 std::to_string(r.line[2].relief_fret) + ".");
  say(out, "Winding sticks on " + rests_in_words(c) + ": " + sticks(r.twist) + ".");
  return out.str();
}
} // namespace overbend::solver::text
