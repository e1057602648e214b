// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace overbend::cases
{
// Values of an instrument, in the language of a case file. What a case does not say is taken
// from its preset, then from the declared defaults. The sizes are middling values of the trade;
// they belong to no instrument in particular.
struct Preset
{
  std::string name, sentence;
  std::string text;
};

const std::vector<Preset> &presets();

// The preset of that name (blanks, hyphens and capitals do not matter), or nullptr.
const Preset *find_preset(const std::string &name);
} // namespace overbend::cases
