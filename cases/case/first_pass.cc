// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/first_pass.h"

namespace overbend::cases
{
Case as_it_stands(const Case &the_case)
{
  Case now = the_case;
  if (!the_case.first_pass.done())
    return now;
  Found &found = now.found;
  const double moved = *the_case.first_pass.bow - found.bow_centre;
  for (double *bow : {&found.bow_bass, &found.bow_centre, &found.bow_treble})
    *bow += moved;
  for (std::optional<double> *bow :
       {&found.strung_bow, &found.strung_bow_rod_slack, &found.bow_rod_loaded})
    if (*bow)
      **bow += moved;
  if (the_case.first_pass.twist)
    found.twist = the_case.first_pass.twist;
  return now;
}
} // namespace overbend::cases
