// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/words/phase_names.h"

namespace overbend::solver
{
std::string without_pass(const std::string &name, int pass)
{
  const std::string ending = ", pass " + std::to_string(pass);
  return name.size() > ending.size() &&
                 name.compare(name.size() - ending.size(), ending.size(), ending) == 0
             ? name.substr(0, name.size() - ending.size())
             : name;
}
} // namespace overbend::solver
