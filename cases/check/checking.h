// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"

#include <string>
#include <vector>

// Shared by the files that check a case. Lengths along the neck are x from the nut, in m.
namespace overbend::cases
{
// Throws CaseError at the line of the first of the names ("section.key") that the file itself
// gives; if it gives none of them, at the place to look for the first.
[[noreturn]] void refuse_any(const Case &result, const std::vector<std::string> &names,
                             const std::string &what, const std::string &remedy);
[[noreturn]] void refuse(const Case &result, const std::string &name, const std::string &what,
                         const std::string &remedy);

double join_position(const NeckShape &neck);
double board_end(const NeckShape &neck);

// Width of the board and depth of the shaft below the glue line, straight lines through the two
// measured values.
double width_at(const NeckShape &neck, double x);
double shaft_depth(const NeckShape &neck, double x);

// Iron, bar and probe against the neck and against each other.
void check_heat(const Case &result);

// Throws CaseError: a single strip, strips narrower together than the board at the nut, a strip
// that lies beside the neck, more strips than there may be.
void check_laminations(const Case &result);

// The rod against its channel, the shaft and the target.
void check_rod(const Case &result);

// What pulls or presses: against the headstock, the posts and the found bow.
void check_device(const Case &result);

// Where the clamp bears on the board: the turned-over cradle, a caul, turned-over supports.
struct OnBoard
{
  std::string key, what;   // key under [bench], and words
  double from = 0, to = 0; // x, m
};
std::vector<OnBoard> clamp_on_board(const Bench &bench);

// True if a rod of this kind can be slackened or set at all.
bool adjustable(const Rod &rod);
} // namespace overbend::cases
