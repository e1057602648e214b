// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json.hpp>

#include <functional>
#include <string>

namespace overbend::viz
{
using Json = nlohmann::ordered_json;

// The plan.json of a finished run: the only source of the numbers on card and report.
class PlanFile
{
public:
  // Errors: solver::FileError (missing, not a plan, another format number).
  explicit PlanFile(const std::string &folder);

  // Value at a JSON pointer (RFC 6901). A file that is damaged, or was changed by hand, lacks it or
  // holds another kind of value there: FileError naming the place.
  const Json &at(const std::string &pointer) const;
  bool has(const std::string &pointer) const; // and is not null
  std::string text(const std::string &pointer) const;
  double number(const std::string &pointer) const;
  std::size_t size(const std::string &pointer) const; // of a list; 0 if there is none

  bool refused() const;   // nothing is to be clamped or heated now
  bool simulated() const; // has a column
  // Pointer into the column that the steps are written for.
  std::string in_main(const std::string &rest) const;
  // The same for the reading of a moment of a phase: "/phases/3/at_end/reading".
  std::string phase(std::size_t number, const std::string &rest) const;
  std::size_t n_phases() const;

  // Does work that reads values out of what at() gave; what it finds of another kind than it should
  // be is a FileError too.
  void read_by(const std::function<void()> &work) const;

  const std::string folder;

private:
  template <typename Value>
  Value get(const std::string &pointer) const;

  std::string path;
  Json json;
};
} // namespace overbend::viz
