// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/page/plan_file.h"

#include "solver/results/file_error.h"

#include <filesystem>
#include <fstream>
#include <type_traits>

namespace overbend::viz
{
namespace
{
constexpr int known_format = 7;

constexpr const char *remedy = "it is damaged or was changed by hand; make the plan again";

Json read_json(const std::string &path)
{
  std::ifstream in(path, std::ios::binary);
  if (!in)
    throw solver::FileError(path, "cannot be read", "name the folder of a finished plan");
  try {
    return Json::parse(in);
  } catch (const Json::exception &) { // also for a number beyond all bounds
    throw solver::FileError(path, "is not a plan", "make the plan again");
  }
}

bool is_known(const Json &json)
{
  const auto format = json.find("format"), number = json.find("format_number");
  return format != json.end() && *format == "overbend plan" && number != json.end() &&
         *number == known_format;
}
} // namespace

PlanFile::PlanFile(const std::string &from_folder)
    : folder(from_folder), path((std::filesystem::path(from_folder) / "plan.json").string()),
      json(read_json(path))
{
  if (!json.is_object() || !is_known(json))
    throw solver::FileError(path, "is not a plan of format number " + std::to_string(known_format),
                            "use the version of the program that wrote it, or plan again");
}

const Json &PlanFile::at(const std::string &pointer) const
{
  const Json::json_pointer place(pointer);
  if (!json.contains(place))
    throw solver::FileError(path, "has nothing at " + pointer, remedy);
  return json.at(place);
}

bool PlanFile::has(const std::string &pointer) const
{
  const Json::json_pointer place(pointer);
  return json.contains(place) && !json.at(place).is_null();
}

void PlanFile::read_by(const std::function<void()> &work) const
{
  try {
    work();
  } catch (const Json::exception &error) {
    throw solver::FileError(path, std::string("is not a whole plan (") + error.what() + ")",
                            remedy);
  }
}

template <typename Value>
Value PlanFile::get(const std::string &pointer) const
{
  const Json &value = at(pointer);
  try {
    // The library would cut a broken number, however large.
    if (!std::is_same_v<Value, int> || value.is_number_integer())
      return value.get<Value>();
  } catch (const Json::exception &) {
    // The same as a broken number.
  }
  throw solver::FileError(path, "holds another kind of value at " + pointer + " than it should",
                          remedy);
}

std::string PlanFile::text(const std::string &pointer) const
{
  return get<std::string>(pointer);
}

double PlanFile::number(const std::string &pointer) const
{
  return get<double>(pointer);
}

std::size_t PlanFile::size(const std::string &pointer) const
{
  return has(pointer) ? at(pointer).size() : 0;
}

bool PlanFile::refused() const
{
  return get<bool>("/verdict/refused");
}

bool PlanFile::simulated() const
{
  return size("/columns") > 0;
}

std::string PlanFile::in_main(const std::string &rest) const
{
  return "/columns/" + std::to_string(get<int>("/main_column")) + rest;
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
