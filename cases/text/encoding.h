// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace overbend::cases
{
// Throws CaseError with the line where a text is not UTF-8 or holds a zero byte.
void check_encoding(const std::string &text, const std::string &file);

// The text without the byte-order mark that spreadsheets and editors of Windows put in front.
std::string without_byte_order_mark(const std::string &text);
} // namespace overbend::cases
