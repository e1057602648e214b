// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace overbend::cases
{
constexpr std::size_t longest_key = 100; // bytes

// The TOML library as packaged (3.3) takes some texts on trust: it follows dotted keys as deep as
// they go until the stack ends, and reads on without a check at letters outside ASCII in a key and
// where a section begins with no name. Such texts are refused here, with their line. The text has
// to be UTF-8. Throws CaseError.
void refuse_what_the_parser_does_not_bear(const std::string &text, const std::string &file);
} // namespace overbend::cases
