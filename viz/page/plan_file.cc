// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/page/plan_file.h"

#include "solver/results/file_error.h"

#include <filesystem>
#include <fstream>
#include <stdexcept>

namespace overbend::viz
{
namespace
{
constexpr int known_format = 5;

Json read_json(const std::string &path)
{
  std::ifstream in(path, std::ios::binary);
  if (!in)
    throw solver::FileError(path, "cannot be read", "name the folder of a finished plan");
  try {
    return Json::parse(in);
  } catch (const Json::parse_error &) {
    throw solver::FileError(path, "is not a plan", "make the plan again");
  }
}
} // namespace

PlanFile::PlanFile(const std::string &from_folder) : folder(from_folder)
{
  const std::string path = (std::filesystem::path(folder) / "plan.json").string();
  json = read_json(path);
  if (!json.is_object() || json.value("format", "") != "overbend plan" ||
      json.value("format_number", 0) != known_format)
    throw solver::FileError(path, "is not a plan of format number " + std::to_string(known_format),
                            "use the version of the program that wrote it, or plan again");
}

const Json &PlanFile::at(const std::string &pointer) const
{
  const Json::json_pointer place(pointer);
  if (!json.contains(place))
    throw std::out_of_range("the plan has no " + pointer);
  return json.at(place);
}

bool PlanFile::has(const std::string &pointer) const
{
  const Json::json_pointer place(pointer);
  return json.contains(place) && !json.at(place).is_null();
}

std::string PlanFile::text(const std::string &pointer) const
{
  return at(pointer).get<std::string>();
}

double PlanFile::number(const std::string &pointer) const
{
  return at(pointer).get<double>();
}

std::size_t PlanFile::size(const std::string &pointer) const
{
  return has(pointer) ? at(pointer).size() : 0;
}

bool PlanFile::refused() const
{
  return at("/verdict/refused").get<bool>();
}

bool PlanFile::simulated() const
{
  return size("/columns") > 0;
}

std::string PlanFile::in_main(const std::string &rest) const
{
  return "/columns/" + std::to_string(at("/main_column").get<int>()) + rest;
}

std::string PlanFile::phase(std::size_t number, const std::string &rest) const
{
  return in_main("/phases/" + std::to_string(number) + rest);
}

std::size_t PlanFile::n_phases() const
{
  return simulated() ? size(in_main("/phases")) : 0;
}
} // namespace overbend::viz
