// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/plan/plan.h"

#include <optional>
#include <string>
#include <vector>

// What the reading after a free warming (heat without cords and strings) tells. A soft line lets a
// neck go back by itself from its bow b to q b, q the share in the wood (closed form of complete
// slip, trade practice [E]); how far it comes within the time depends on how soft the line is.
namespace overbend::solver
{
// The computed course of one line: bows at the centre as the bench reads them, m.
struct FreeCourse
{
  materials::LineSpeed speed = materials::LineSpeed::middle;
  double before = 0, after = 0;
  double all_slipped = 0; // where a line that is soft to the last would bring it: q b and what is
                          // as built
  double slip_share = 0;  // 1 - q, as the start was found
};

// The phase at whose end a neck warmed free is read again: the last one without heat, cords and
// strings right after the (first) free warming; none without a free warming.
std::optional<unsigned> free_reading_phase(const std::vector<cases::Phase> &phases);

// "slow line", "middle line", "fast line".
std::string line_in_words(materials::LineSpeed speed);

// None without a free warming in the history.
std::optional<FreeCourse> free_course(const cases::Case &the_case, const History &history,
                                      const Diagnosis &diagnosis, materials::LineSpeed speed);

// In shop words: what each line would read, and what the bench's own reading then says. Lines from
// slow to fast, at least one.
std::string free_warming_text(const std::vector<FreeCourse> &lines);
} // namespace overbend::solver
