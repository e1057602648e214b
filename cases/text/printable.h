// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

// Text that somebody else wrote, made fit to stand in one line of a terminal, a file or a page.
namespace overbend::cases
{
// Length of the sequence of UTF-8 at the position, 0 if there is no valid one.
std::size_t utf8_length(const std::string &text, std::size_t at);

// Whether the sequence at the position is a character that is obeyed instead of shown: controls of
// ASCII and their second set, separators of lines, marks that turn the direction of the text.
bool is_control(const std::string &text, std::size_t at);

// Controls and bytes that are no UTF-8 as what they are: \n, \t, \x1b, \u202e.
std::string printable(const std::string &text);

// Its first characters and how long it is, where it is longer than anybody reads.
std::string shortened(const std::string &text, std::size_t most = 60);
} // namespace overbend::cases
