// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/run/picture_list.h"

#include "solver/results/file_error.h"
#include "solver/results/text_file.h"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <fstream>

namespace overbend::viz
{
namespace
{
namespace fs = std::filesystem;

std::string list_path(const std::string &folder, const std::string &name)
{
  return (fs::path(folder) / "pictures" / name).string();
}
} // namespace

void write_list(const std::string &folder, const std::string &name, const Pictures &pictures)
{
  nlohmann::ordered_json list = {{"pictures", nlohmann::ordered_json::array()},
                                 {"why_not", pictures.why_not}};
  for (const Picture &p : pictures.pictures)
    list["pictures"].push_back(
        {{"file", p.file}, {"caption", p.caption}, {"alternative_text", p.alternative_text}});
  solver::write_text_file(list_path(folder, name), list.dump(2) + "\n");
}

Pictures read_list(const std::string &folder, const std::string &name)
{
  const std::string path = list_path(folder, name);
  std::ifstream in(path);
  if (!in)
    throw solver::FileError(path, "is not there", "draw the pictures first");
  try {
    const auto list = nlohmann::json::parse(in);
    Pictures read;
    read.why_not = list.at("why_not");
    for (const auto &p : list.at("pictures")) {
      const Picture picture{p.at("file"), p.at("caption"), p.at("alternative_text")};
      if (fs::exists(fs::path(folder) / picture.file))
        read.pictures.push_back(picture);
    }
    return read;
  } catch (const nlohmann::json::exception &) {
    throw solver::FileError(path, "is not a list of pictures", "draw the pictures again");
  }
}
} // namespace overbend::viz
