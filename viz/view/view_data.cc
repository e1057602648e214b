// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/view/view_data.h"

#include "viz/page/html.h"
#include "viz/page/show.h"
#include "viz/run/edge_frame.h"
#include "viz/run/run_story.h"
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

// How a field is coloured: what grows, what has a sign, what has a limit at 100 %.
enum class Colours { growing, signed_, use };

struct FieldWord
{
  const char *field, *shown, *unit;
  Colours colours = Colours::growing;
  double times = 1; // from the stored to the shown unit
  // The other unit of the trade: value * factor + offset; no name: there is none.
  const char *other = "";
  double factor = 1, offset = 0;
};
// Those that are in the results are shown.
const std::array<FieldWord, 4> wood_fields = {
    FieldWord{"stress_along_grain", "stress along the grain", "MPa", Colours::signed_},
    FieldWord{"temperature", "temperature", "°C", Colours::growing, 1, "°F", 1.8, 32},
    FieldWord{"use_of_strength", "strength in use", "%", Colours::use, 100},
    FieldWord{"moisture", "moisture", "%"}};
const std::array<FieldWord, 2> glue_fields = {
    FieldWord{"glue_slip", "slip of the glue", "mm", Colours::growing, 1, "thou", 1 / 0.0254},
    FieldWord{"glue_shear", "shear in the glue", "MPa"}};

const char *word(Colours colours)
{
  return colours == Colours::signed_ ? "signed" : colours == Colours::use ? "use" : "growing";
}

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

// Of amounts the one that 997 of 1000 stay below: at corners and ends computed values grow without
// end, and a scale to there would leave all else without colour.
double without_corners(std::vector<double> amounts)
{
  const auto most = amounts.begin() + long(0.997 * double(amounts.size() - 1));
  std::nth_element(amounts.begin(), most, amounts.end());
  return *most;
}

// From where to where the colours go.
std::array<double, 2> colours_of(const FieldWord &word, const std::vector<double> &values)
{
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  std::vector<double> amounts;
  for (const double value : values)
    amounts.push_back(std::abs(value));
  const double most = std::max(without_corners(amounts), 1e-9);
  switch (word.colours) {
  case Colours::signed_:
    return {-most, most};
  case Colours::use:
    return {0, 100};
  case Colours::growing:
    break;
  }
  return *low >= 0 && *low < 0.2 * most ? std::array<double, 2>{0, most}
                                        : std::array<double, 2>{*low, std::max(*high, *low + 1e-9)};
}

class Packer
{
public:
  Packer(const RunStory &from, const PlanFile &plan)
      : story(from), file(from.results()), frame(file.mesh(), from.the_case())
  {
    for (std::size_t s = 0; s < plan.size("/stages"); ++s) {
      const std::string at = "/stages/" + std::to_string(s);
      const auto step = step_of(file, plan.at(at));
      if (!step)
        continue;
      steps.push_back(*step);
      motions.push_back(frame.motion(file.field(*step, "displacement")));
      stages.push_back(
          {{"name", plan.text(at + "/name")},
           {"moment", typeset(story.moment(*step))},
           {"bow", typeset(text_of(plan.at(at + "/reading/bow_centre_m"), As::bow))},
           {"twist", typeset(text_of(plan.at(at + "/reading/twist_rad"), As::twist))}});
    }
  }

  template <typename Fields>
  Json part(const Surface &surface, const std::vector<double> &nodes, const char *displacement,
            const Fields &fields)
  {
    for (const double x : surface.nodes)
      append(bytes, float(1e3 * x));
    for (const unsigned i : surface.triangles)
      append(bytes, std::uint32_t(i));
    for (const unsigned i : surface.edges)
      append(bytes, std::uint32_t(i));
    Json out = {{"nodes", surface.nodes.size() / 3},
                {"triangles", surface.triangles.size() / 3},
                {"edges", surface.edges.size() / 2}};
    const double step = pack_displacement(surface, nodes, displacement);
    out["step"] = step;
    out["fields"] = Json::array();
    for (const FieldWord &field : fields)
      if (!steps.empty() && file.has_field(steps.front(), field.field))
        out["fields"].push_back(pack_field(surface, field));
    return out;
  }

  // Frets as lines across the board, the line over the rest frets (mm), and the fret of the bow.
  Json landmarks(const Surface &skin) const
  {
    const cases::Case &c = story.the_case();
    std::vector<double> places;
    for (int fret = 1; fret <= c.neck.frets; ++fret)
      places.push_back(cases::fret_position(c.neck.scale_length, fret));
    Json frets = Json::array();
    const auto point = [](const AcrossTop::Point &p) { return Json{p.a, p.b, p.share}; };
    for (const AcrossTop &line : across_top(skin, places))
      frets.push_back({point(line.bass), point(line.centre), point(line.treble)});
    const auto mm = [](const std::array<double, 3> &p) {
      return Json{1e3 * p[0], 1e3 * p[1], 1e3 * p[2]};
    };
    return {{"frets", frets},
            {"rest", {mm(frame.near_nut()), mm(frame.near_body())}},
            {"bow_fret", c.found.bow_fret}};
  }

  Json stages = Json::array();
  std::string bytes;

private:
  double pack_displacement(const Surface &surface, const std::vector<double> &nodes,
                           const char *name)
  {
    std::vector<std::vector<double>> all;
    double largest = 1e-9;
    for (std::size_t s = 0; s < steps.size() && !surface.source.empty(); ++s) {
      const std::vector<double> u = frame.without(motions[s], nodes, file.field(steps[s], name));
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

  Json pack_field(const Surface &surface, const FieldWord &field)
  {
    std::vector<double> all;
    for (const std::size_t step : steps) {
      const std::vector<double> values = file.field(step, field.field);
      for (const unsigned node : surface.source)
        all.push_back(field.times * values.at(node));
    }
    const auto [low, high] = std::minmax_element(all.begin(), all.end());
    const double min = *low, range = std::max(*high - *low, 1e-9);
    for (const double value : all)
      append(bytes, std::uint16_t(std::lround(65535 * (value - min) / range)));
    const auto colours = colours_of(field, all);
    Json out = {{"name", field.shown},
                {"unit", field.unit},
                {"min", min},
                {"max", min + range},
                {"from", colours[0]},
                {"to", colours[1]},
                {"colours", word(field.colours)}};
    if (*field.other != 0)
      out["other"] = {{"unit", field.other}, {"factor", field.factor}, {"offset", field.offset}};
    return out;
  }

  const RunStory &story;
  const ResultsFile &file;
  EdgeFrame frame;
  std::vector<std::size_t> steps;
  std::vector<EdgeFrame::Motion> motions;
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
  const RunStory story(plan.folder);
  const solver::MeshData &mesh = story.results().mesh();
  Packer packer(story, plan);
  if (packer.stages.empty()) {
    data.why_not = "There is no view of the neck because its results hold none of the stages.";
    return data;
  }
  const Surface wood_skin = skin(mesh);
  Json description;
  const Json wood = packer.part(wood_skin, mesh.nodes, "displacement", wood_fields);
  const Json glue = packer.part(glue_skin(mesh), mesh.glue.nodes, "glue_displacement", glue_fields);
  description["stages"] = packer.stages;
  description["wood"] = wood;
  description["glue"] = glue;
  description["landmarks"] = packer.landmarks(wood_skin);
  data.description = description.dump();
  data.bytes = base64(packer.bytes);
  return data;
}
} // namespace overbend::viz
