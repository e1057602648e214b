// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>
#include <string>

namespace overbend::mesh
{
// A neck that cannot be built as described: what is wrong, and what to change.
class ShapeError : public std::invalid_argument
{
public:
  ShapeError(std::string what_is_wrong, std::string what_to_do)
      : std::invalid_argument(what_is_wrong + "; " + what_to_do), problem(std::move(what_is_wrong)),
        remedy(std::move(what_to_do))
  {}

  std::string problem, remedy;
};
} // namespace overbend::mesh
