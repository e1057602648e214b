// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/view/view_data.h"

#include "solver/results/results_reader.h"
#include "viz/page/html.h"
#include "viz/view/surface.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <filesystem>
#include <optional>

namespace overbend::viz
{
namespace
{
using solver::ResultsFile;

struct FieldWord
{
  const char *field, *shown, *unit;
  // The other unit of the trade: value * factor + offset; no name: there is none.
  const char *other = "";
  double factor = 1, offset = 0;
};
// Those that are in the results are shown.
const std::array<FieldWord, 4> wood_fields = {
    FieldWord{"stress_along_grain", "stress along the grain", "MPa"},
    FieldWord{"temperature", "temperature", "°C", "°F", 1.8, 32},
    FieldWord{"moisture", "moisture", "%"}, FieldWord{"use_of_strength", "use of strength", "1"}};
const std::array<FieldWord, 2> glue_fields = {
    FieldWord{"glue_slip", "slip of the glue", "mm", "thou", 1 / 0.0254},
    FieldWord{"glue_shear", "shear in the glue", "MPa"}};

template <typename T>
void append(std::string &bytes, T value)
{
  std::array<char, sizeof(T)> raw;
  std::memcpy(raw.data(), &value, sizeof(T));
  bytes.append(raw.data(), raw.size());
}

// First or last step of a phase.
std::optional<std::size_t> step_of(const ResultsFile &file, const Json &stage)
{
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < file.n_steps(); ++i)
    if (file.phase(i) == stage.at("phase").get<std::string>()) {
      if (!found || stage.at("moment") == "end")
        found = i;
    }
  return found;
}

class Packer
{
public:
  Packer(const ResultsFile &from, const PlanFile &plan) : file(from)
  {
    for (const Json &stage : plan.at("/stages"))
      if (const auto step = step_of(file, stage)) {
        steps.push_back(*step);
        stages.push_back(stage.at("name"));
      }
  }

  template <typename Fields>
  Json part(const Surface &surface, const char *displacement, const Fields &fields)
  {
    for (const double x : surface.nodes)
      append(bytes, float(1e3 * x));
    for (const unsigned i : surface.triangles)
      append(bytes, std::uint32_t(i));
    Json out = {{"nodes", surface.nodes.size() / 3}, {"triangles", surface.triangles.size() / 3}};
    const double step = pack_displacement(surface, displacement);
    out["step"] = step;
    out["fields"] = Json::array();
    for (const FieldWord &word : fields)
      if (!steps.empty() && file.has_field(steps.front(), word.field))
        out["fields"].push_back(pack_field(surface, word));
    return out;
  }

  Json stages = Json::array();
  std::string bytes;

private:
  double pack_displacement(const Surface &surface, const char *name)
  {
    std::vector<std::vector<double>> all;
    double largest = 1e-9;
    for (const std::size_t step : steps) {
      const std::vector<double> u = file.field(step, name);
      std::vector<double> here;
      for (const unsigned node : surface.source)
        for (unsigned i = 0; i < 3; ++i) {
          here.push_back(1e3 * u.at(3 * std::size_t(node) + i));
          largest = std::max(largest, std::abs(here.back()));
        }
      all.push_back(here);
    }
    const double unit = largest / 32767;
    for (const auto &stage : all)
      for (const double value : stage)
        append(bytes, std::int16_t(std::lround(value / unit)));
    return unit;
  }

  Json pack_field(const Surface &surface, const FieldWord &word)
  {
    std::vector<double> all;
    for (const std::size_t step : steps) {
      const std::vector<double> values = file.field(step, word.field);
      for (const unsigned node : surface.source)
        all.push_back(values.at(node));
    }
    const auto [low, high] = std::minmax_element(all.begin(), all.end());
    const double min = *low, range = std::max(*high - *low, 1e-9);
    for (const double value : all)
      append(bytes, std::uint16_t(std::lround(65535 * (value - min) / range)));
    Json out = {{"name", word.shown}, {"unit", word.unit}, {"min", min}, {"max", min + range}};
    if (*word.other != 0)
      out["other"] = {{"unit", word.other}, {"factor", word.factor}, {"offset", word.offset}};
    return out;
  }

  const ResultsFile &file;
  std::vector<std::size_t> steps;
};
} // namespace

ViewData view_data(const PlanFile &plan)
{
  ViewData data;
  const auto path = std::filesystem::path(plan.folder) / "results.h5";
  if (!plan.has("/stages") || !std::filesystem::exists(path)) {
    data.why_not = "There is no view of the neck because this plan has no computed fields.";
    return data;
  }
  const ResultsFile file(path.string());
  Packer packer(file, plan);
  Json description;
  const Json wood = packer.part(skin(file.mesh()), "displacement", wood_fields);
  const Json glue = packer.part(glue_skin(file.mesh()), "glue_displacement", glue_fields);
  if (packer.stages.empty()) {
    data.why_not = "There is no view of the neck because its results hold none of the stages.";
    return data;
  }
  description["stages"] = packer.stages;
  description["wood"] = wood;
  description["glue"] = glue;
  data.description = description.dump();
  data.bytes = base64(packer.bytes);
  return data;
}
} // namespace overbend::viz
