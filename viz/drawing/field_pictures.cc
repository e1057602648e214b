// SPDX-License-Identifier: GPL-3.0-or-later
// The neck coloured by what the wood bears and by how warm it is, and its glue lines by slip.
#include "viz/drawing/picture_set.h"

#include "cases/text/units.h"
#include "solver/results/file_error.h"
#include "solver/results/text_file.h"
#include "solver/words/shop_words.h"
#include "viz/drawing/views.h"
#include "viz/page/plan_file.h"

#include <algorithm>
#include <cmath>
#include <filesystem>

namespace overbend::viz
{
namespace
{
constexpr double worth_a_number = 0.2; // share of strength

std::string number(double value)
{
  return solver::number_text(value, 3);
}

std::string signed_number(double value)
{
  return (value < 0 ? "\u2212" : "+") + number(std::abs(value));
}

std::string degrees(double celsius)
{
  return solver::fixed(celsius, 0) + " \u00b0C (" + solver::fixed(1.8 * celsius + 32, 0) +
         " \u00b0F)";
}
} // namespace

std::vector<PictureSet::Probe> PictureSet::extremes(const std::vector<double> &value,
                                                    const std::string &unit) const
{
  const std::vector<double> &nodes = results.mesh().nodes;
  std::vector<Probe> probes;
  const auto [least, largest] = std::minmax_element(value.begin(), value.end());
  for (const auto most : {least, largest}) {
    const std::size_t n = std::size_t(most - value.begin());
    probes.push_back(
        {{nodes[3 * n], nodes[3 * n + 1], nodes[3 * n + 2]}, signed_number(*most) + " " + unit});
  }
  return probes;
}

// Of the plan: the most that each part uses at any time, a long load counted as such.
std::vector<PictureSet::Probe> PictureSet::strength_by_part() const
{
  std::vector<Probe> probes;
  if (!std::filesystem::exists(std::filesystem::path(folder) / "plan.json"))
    return probes;
  try {
    const PlanFile plan(folder);
    const std::string all = plan.simulated() ? plan.in_main("/peaks/use_of_strength") : "/none";
    for (std::size_t i = 0; i < plan.size(all); ++i) {
      const std::string part = all + "/" + std::to_string(i);
      const double share = plan.number(part + "/share_of_strength");
      if (share >= worth_a_number && !plan.has(part + "/glue_shear_Pa"))
        probes.push_back(
            {{plan.number(part + "/x_m"), plan.number(part + "/y_m"), plan.number(part + "/z_m")},
             plan.text(part + "/region") + " " + solver::fixed(100 * share, 0) + " %"});
    }
  } catch (const solver::FileError &) {
    probes.clear(); // a plan of another format: the colours stand alone
  }
  return probes;
}

double PictureSet::cut_at() const
{
  constexpr double beside = 1e-3; // m, of the channel's wall
  const double wall = story.the_case().neck.rod.channel_width / 2;
  return wall > 0 ? wall + beside : 0;
}

std::vector<PictureSet::Probe> PictureSet::temperatures(const std::vector<double> &value) const
{
  const cases::Case &c = story.the_case();
  const std::vector<double> &nodes = results.mesh().nodes;
  const double top = c.neck.board_thickness, deep = -0.03, aside = 0.045; // m
  const double near_nut = cases::fret_position(c.neck.scale_length, 1),
               join = cases::fret_position(c.neck.scale_length, c.neck.join_fret);
  const double y = cut_at();
  std::vector<Probe> probes = {{{near_nut, y, top}, "board", aside},
                               {{c.probe.x, y, 0}, "glue line", 1.2 * aside},
                               {{c.probe.x, y, deep}, "back", -aside},
                               {{join, y, 0}, "glue line", 1.2 * aside},
                               {{join, y, deep}, "back", -aside}};
  for (Probe &probe : probes) {
    const std::size_t n = bench.nearest(probe.place);
    probe.place = {nodes[3 * n], nodes[3 * n + 1], nodes[3 * n + 2]};
    probe.words += " " + degrees(value[n]);
  }
  return probes;
}

Picture PictureSet::stress()
{
  const auto extreme = story.extreme("stress_along_grain");
  const auto value = results.field(extreme.step, "stress_along_grain");
  const ColourScale scale = around_zero(value, "stress along the grain", "MPa");
  const auto [least, largest] = std::minmax_element(value.begin(), value.end());
  const std::string when = story.moment(extreme.step);
  const double times = times_for(extreme.step);
  heading("Stress along the grain, when it is highest",
          when + "; with dots: the most that presses and pulls anywhere");
  above_and_below(extreme.step, value, scale, extremes(value, "MPa"));
  draw_legend(canvas, scale);
  note_on_bending(times);
  const std::string range = number(*least) + " to " + number(*largest) + " MPa";
  return save("stress",
              "Stress along the grain at its highest, " + when + ": " + range + "." +
                  scale_of_bending(times),
              "The bent neck from above and from below, coloured by stress along the grain, " +
                  range + ".");
}

Picture PictureSet::strength()
{
  const auto extreme = story.extreme("use_of_strength");
  const ColourScale scale = scale_of_use();
  auto value = results.field(extreme.step, "use_of_strength");
  for (double &v : value)
    v *= 100;
  const std::string most = solver::fixed(100 * extreme.largest, 0) + " %";
  const std::string when = story.moment(extreme.step);
  const double times = times_for(extreme.step);
  const std::vector<Probe> parts = strength_by_part();
  heading("Use of the wood's strength",
          "colours: when it is highest, " + when + ", " + most +
              (parts.empty() ? ""
                             : "; with dots: the most of each part at any time, time under load "
                               "counted"));
  above_and_below(extreme.step, value, scale, parts);
  draw_legend(canvas, scale);
  note_on_bending(times);
  std::string told;
  for (const Probe &part : parts)
    told += (told.empty() ? " Most of each part at any time, time under load counted: " : ", ") +
            part.words;
  return save(
      "strength",
      "Share of the wood's strength in use at its highest, " + most + ", " + when +
          "; the glue lines are judged apart." + told + (told.empty() ? "" : ".") +
          scale_of_bending(times),
      "The bent neck from above and from below, coloured by the share of strength in use, up to " +
          most + ".");
}

Picture PictureSet::temperature()
{
  const std::size_t step = *story.end_of_heating();
  const auto value = results.field(step, "temperature");
  const auto [least, largest] = std::minmax_element(value.begin(), value.end());
  const ColourScale scale = temperature_scale(*least, *largest);
  const std::string when = story.moment(step);
  const double times = times_for(step);
  heading("Temperature at the end of heating", when + "; dark frame over the board: the bar");
  coloured_strip({0, 0.505, 1, 0.865}, "from above", step, value, scale, true, {});
  cut_strip(
      {0, 0.145, 1, 0.505},
      std::string(cut_at() > 0 ? "cut just beside the rod's channel" : "cut along the middle") +
          "; black: glue lines; a line every 5 \u00b0C (9 \u00b0F)",
      step, value, scale, temperatures(value));
  draw_legend(canvas, scale);
  note_on_bending(times);
  const std::string range = number(*least) + " to " + number(*largest) + " \u00b0C (" +
                            number(1.8 * *least + 32) + " to " + number(1.8 * *largest + 32) +
                            " \u00b0F)";
  return save("temperature",
              "Temperature at the end of heating, " + when + ": " + range + "." +
                  scale_of_bending(times),
              "The neck from above and cut along, coloured by temperature, " + range + ".");
}

Picture PictureSet::slip()
{
  const auto extreme = story.extreme("glue_slip");
  const ColourScale scale = slip_scale(extreme.largest);
  std::vector<RunStory::Moment> moments = story.moments();
  moments.erase(std::remove_if(moments.begin(), moments.end(),
                               [](const RunStory::Moment &m) {
                                 return m.kind == RunStory::MomentKind::start ||
                                        m.kind == RunStory::MomentKind::released;
                               }),
                moments.end());
  const auto &lines = results.mesh().glue.lines;
  const bool scarf = std::any_of(lines.begin(), lines.end(),
                                 [](const auto &line) { return line.name == "scarf"; });
  heading("Slip of the glue lines, against the neck as built",
          std::string("from above, wood taken away, bass side below") +
              (scarf ? "; the scarf joint's line drawn in the place of the headstock" : ""));
  const double height = 0.72 / double(moments.size());
  for (std::size_t m = 0; m < moments.size(); ++m) {
    const double top = 0.87 - double(m) * height;
    glue_strip({0, top - height, 1, top}, moments[m].name + ": " + story.moment(moments[m].step),
               moments[m].step, scale);
  }
  draw_legend(canvas, scale);
  canvas.text(0.02, 0.04, "Drawn straight and true to scale.", 20);
  const std::string most = cases::both_lengths(1e-3 * extreme.largest);
  std::string named;
  for (const RunStory::Moment &moment : moments)
    named += (named.empty() ? "" : ", ") + moment.name;
  return save("slip", "Slip of the glue lines (" + named + "); at most " + most + ".",
              "Glue lines from above, coloured by how far they have slipped, up to " + most + ".");
}
} // namespace overbend::viz
