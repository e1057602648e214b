// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/intake/intake.h"

#include "cases/intake/gap_curve.h"
#include "cases/intake/intake_words.h"

#include <algorithm>

// Gaps under the straightedge as answers: the bows follow from them.
namespace overbend::cases
{
void Intake::add_gap(EdgeLine line, int fret, const std::string &gap)
{
  answers_.take_gap(line, fret, gap);
  std::vector<int> &told = order_[static_cast<std::size_t>(line)];
  told.erase(std::remove(told.begin(), told.end(), fret), told.end());
  told.push_back(fret);
}

std::string Intake::gap_value(EdgeLine line, const std::string &text)
{
  std::string gap = text;
  const int fret = take_fret(gap);
  add_gap(line, fret, gap);
  const Gaps &gaps = answers_.gaps(line);
  const double scale = answers_.scale_length();
  return "  Fret " + std::to_string(fret) + ", " + name_of(line) + ": " +
         both_lengths(gaps.at(fret)) + "\n" +
         (scale > 0 ? gap_curve(gaps, scale, answers_.rests()) + "   " +
                          shape_in_words(gaps, scale, answers_.rests()) + "\n"
                    : "   No curve: the scale length is not known yet.\n");
}
} // namespace overbend::cases
