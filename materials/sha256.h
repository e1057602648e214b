// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace overbend::materials
{
// SHA-256 (FIPS 180-4) of a text, 64 hexadecimal digits.
std::string sha256(const std::string &text);
} // namespace overbend::materials
