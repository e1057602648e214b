// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/strips.h"
#include "cases/check/checking.h"
#include "cases/text/units.h"

#include <algorithm>

namespace overbend::cases
{
namespace
{
// Strips of the trade are 3 to 11 [E]; more are a slip of the pen.
constexpr std::size_t most_strips = 30;
// Rounding of a rule, m.
constexpr double slack = 0.5e-3;

std::string name_of(std::size_t index)
{
  return "lamination[" + std::to_string(index + 1) + "]";
}
} // namespace

void check_laminations(const Case &result)
{
  const NeckShape &neck = result.neck;
  const std::vector<Lamination> &strips = neck.laminations;
  if (strips.empty())
    return;
  if (strips.size() == 1)
    refuse(result, name_of(0), "a shaft of a single strip is one piece",
           "tell its wood and grain under [shaft] and leave [[lamination]] out, or add the other "
           "strips from bass to treble");
  if (strips.size() > most_strips)
    refuse(result, name_of(most_strips),
           "there are more than " + std::to_string(most_strips) + " strips",
           "take the thinnest together with their neighbours");
  const double together = total_width(strips);
  if (together < neck.nut_width - slack)
    refuse(result, name_of(0),
           "the strips are " + both_lengths(together) +
               " wide together, less than the board at the nut (" + both_lengths(neck.nut_width) +
               ")",
           "measure the outer strips where they are widest, or as wide as the blank was; the taper "
           "may cut through them");
  const double widest = std::max(width_at(neck, board_end(neck)),
                                 neck.headstock.laminated ? neck.headstock.width : 0);
  const std::vector<double> lines = lines_between(strips);
  const bool off_bass = lines.front() < -widest / 2;
  if (off_bass || lines.back() > widest / 2)
    refuse(result, name_of(off_bass ? 0 : strips.size() - 1) + ".width",
           std::string("the outer strip on the ") + (off_bass ? "bass" : "treble") +
               " side lies beside the neck, which is " + both_lengths(widest) +
               " wide at its widest",
           "check the widths; all strips together lie with their middle on the centre line");
}
} // namespace overbend::cases
