// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/picture_set.h"

#include "cases/text/units.h"
#include "solver/results/text_file.h"
#include "solver/words/shop_words.h"
#include "viz/drawing/views.h"

#include <algorithm>
#include <cmath>
#include <filesystem>

namespace overbend::viz
{
namespace
{
namespace fs = std::filesystem;

const Colour wood = {0.72, 0.52, 0.35}, straight_grey = {0.62, 0.62, 0.62};

std::string number(double value)
{
  return solver::number_text(value, 3);
}

constexpr Frame upper_half{0, 0.5, 1, 0.865}, lower_half{0, 0.14, 1, 0.495};

void append(std::vector<Vec3> &all, const std::vector<Vec3> &more)
{
  all.insert(all.end(), more.begin(), more.end());
}
} // namespace

PictureSet::PictureSet(const std::string &of)
    : folder(of), story(of), results(story.results()), shapes(results.mesh()),
      canvas(picture_width, picture_height), times(story.magnification())
{
  make_pictures_folder(folder);
}

Pictures PictureSet::draw()
{
  Pictures drawn;
  drawn.pictures = {beside_straight(), stress(), strength()};
  if (story.end_of_heating())
    drawn.pictures.push_back(temperature());
  else
    drawn.why_not += "no picture of the temperature: no phase has a heater. ";
  if (!results.mesh().glue.lines.empty())
    drawn.pictures.push_back(slip());
  else
    drawn.why_not += "no picture of slip: the neck has no glue line. ";
  if (!drawn.why_not.empty())
    drawn.why_not.pop_back();
  return drawn;
}

void PictureSet::heading(const std::string &title, const std::string &under)
{
  canvas.clear();
  canvas.text(0.02, 0.955, title, 34);
  canvas.text(0.02, 0.9, under, 22);
}

std::string PictureSet::scale_of_bending() const
{
  return times > 1 ? " Bending drawn " + number(times) + " times as large as it is."
                   : " Bending drawn true to scale.";
}

void PictureSet::note_on_bending(const std::string &more)
{
  canvas.text(0.02, 0.04, scale_of_bending().substr(1), 20);
  canvas.text(0.98, 0.04, more, 20, Align::end);
}

Picture PictureSet::save(const std::string &name, const std::string &caption,
                         const std::string &alternative)
{
  const std::string file = "pictures/" + name + ".png";
  canvas.write_png((fs::path(folder) / file).string());
  return {file, caption, alternative};
}

vtkRenderer *PictureSet::labelled_strip(const Frame &frame, const std::string &label)
{
  constexpr double line = 0.035;
  canvas.text(frame.left + 0.02, frame.top - 0.5 * line, label, 20);
  return canvas.add_strip({frame.left, frame.bottom, frame.right, frame.top - line});
}

std::vector<Vec3> PictureSet::places(std::size_t step) const
{
  return moved(results.mesh().nodes, results.field(step, "displacement"), times);
}

void PictureSet::coloured_strip(const Frame &frame, const std::string &label, std::size_t step,
                                const std::vector<double> &value, const ColourScale &scale,
                                const Vec3 &towards)
{
  vtkRenderer *const strip = labelled_strip(frame, label);
  const std::vector<Vec3> at = places(step);
  const auto surface = shapes.outside(at, value);
  strip->AddActor(coloured_actor(surface, scale));
  strip->AddActor(edge_actor(surface, line_dark, 1.2));
  canvas.look(strip, towards, at);
}

void PictureSet::cut_strip(const Frame &frame, const std::string &label, std::size_t step,
                           const std::vector<double> &value, const ColourScale &scale)
{
  vtkRenderer *const strip = labelled_strip(frame, label);
  const std::vector<Vec3> at = places(step);
  strip->AddActor(coloured_actor(shapes.middle_cut(at, value), scale));
  canvas.look(strip, from_bass_level, at);
}

void PictureSet::glue_strip(const Frame &frame, const std::string &label, std::size_t step,
                            const ColourScale &scale)
{
  draw_glue_lines(canvas, labelled_strip(frame, label), shapes, results.mesh(),
                  results.field(step, "glue_slip"), scale);
}

Picture PictureSet::beside_straight()
{
  const std::vector<RunStory::Moment> moments = story.moments();
  heading("The neck beside the straight one", story.the_case().title);
  const std::vector<Vec3> straight = moved(results.mesh().nodes, {}, 1);
  std::vector<Vec3> all = straight;
  for (const RunStory::Moment &moment : moments)
    append(all, places(moment.step));
  const double height = 0.79 / double((moments.size() + 1) / 2);
  std::string described;
  for (std::size_t m = 0; m < moments.size(); ++m) {
    const std::string &name = moments[m].name;
    const std::size_t step = moments[m].step;
    const double left = 0.5 * double(m % 2), top = 0.865 - double(m / 2) * height;
    const std::string reading = story.reading(step);
    canvas.text(left + 0.02, top - 0.02, name + ": " + story.moment(step), 20);
    canvas.text(left + 0.02, top - 0.055, reading, 18);
    vtkRenderer *const strip = canvas.add_strip({left, top - height, left + 0.5, top - 0.07});
    const auto ghost = shapes.outside(straight), bent = shapes.outside(places(step));
    strip->AddActor(surface_actor(ghost, straight_grey, 0.35));
    strip->AddActor(edge_actor(ghost, straight_grey, 1));
    strip->AddActor(surface_actor(bent, wood));
    strip->AddActor(edge_actor(bent, line_dark, 1.2));
    canvas.look(strip, from_bass, all);
    described += name + (reading.empty() ? "" : ", " + reading) + "; ";
  }
  note_on_bending("grey: straight");
  return save("beside_straight",
              "The neck from the bass side at " + std::to_string(moments.size()) +
                  " moments, beside the straight one (grey)." + scale_of_bending(),
              "Side views of the neck beside the straight one: " + described + "bending drawn " +
                  number(times) + " times as large.");
}

Picture PictureSet::stress()
{
  const auto extreme = story.extreme("stress_along_grain");
  const double most = round_up(std::max(-extreme.least, extreme.largest));
  ColourScale scale = from_zero(most, "stress along the grain, MPa (+ pulls, \u2212 presses)");
  scale.from = -most;
  scale.labels = 2 * scale.labels - 1;
  const auto value = results.field(extreme.step, "stress_along_grain");
  const auto [least, largest] = std::minmax_element(value.begin(), value.end());
  const std::string when = story.moment(extreme.step);
  heading("Stress along the grain, when it is highest", when);
  coloured_strip(upper_half, "from above", extreme.step, value, scale, from_above);
  coloured_strip(lower_half, "from below", extreme.step, value, scale, from_below);
  canvas.colour_bar(scale);
  note_on_bending();
  const std::string range = number(*least) + " to " + number(*largest) + " MPa";
  return save("stress",
              "Stress along the grain at its highest, " + when + ": " + range + "." +
                  scale_of_bending(),
              "The bent neck from above and from below, coloured by stress along the grain, " +
                  range + ".");
}

Picture PictureSet::strength()
{
  const auto extreme = story.extreme("use_of_strength");
  const ColourScale scale =
      from_zero(100 * extreme.largest, "share of the wood's strength in use, %");
  auto value = results.field(extreme.step, "use_of_strength");
  for (double &v : value)
    v *= 100;
  const std::string most = solver::fixed(100 * extreme.largest, 0) + " %";
  const std::string when = story.moment(extreme.step);
  heading("Use of the wood's strength, when it is highest: " + most,
          when + "; 100 % breaks; the glue lines are judged apart");
  coloured_strip(upper_half, "from above", extreme.step, value, scale, from_above);
  coloured_strip(lower_half, "from below", extreme.step, value, scale, from_below);
  canvas.colour_bar(scale);
  note_on_bending();
  return save(
      "strength",
      "Share of the wood's strength in use at its highest, " + most + ", " + when + "." +
          scale_of_bending(),
      "The bent neck from above and from below, coloured by the share of strength in use, up to " +
          most + ".");
}

Picture PictureSet::temperature()
{
  const std::size_t step = *story.end_of_heating();
  const auto value = results.field(step, "temperature");
  const auto [least, largest] = std::minmax_element(value.begin(), value.end());
  const ColourScale scale = temperature_scale({*least, *largest, step});
  const std::string when = story.moment(step);
  heading("Temperature at the end of heating", when);
  coloured_strip(upper_half, "from above", step, value, scale, from_above);
  cut_strip(lower_half, "cut along the middle (white: rod channel)", step, value, scale);
  canvas.colour_bar(scale);
  note_on_bending();
  const std::string range = number(*least) + " to " + number(*largest) + " \u00b0C (" +
                            number(1.8 * *least + 32) + " to " + number(1.8 * *largest + 32) +
                            " \u00b0F)";
  return save(
      "temperature",
      "Temperature at the end of heating, " + when + ": " + range + "." + scale_of_bending(),
      "The neck from above and cut along its middle, coloured by temperature, " + range + ".");
}

Picture PictureSet::slip()
{
  const auto extreme = story.extreme("glue_slip");
  const ColourScale scale = from_zero(extreme.largest, slip_label);
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
  const double height = 0.73 / double(moments.size());
  for (std::size_t m = 0; m < moments.size(); ++m) {
    const double top = 0.87 - double(m) * height;
    glue_strip({0, top - height, 1, top}, moments[m].name + ": " + story.moment(moments[m].step),
               moments[m].step, scale);
  }
  canvas.colour_bar(scale);
  canvas.text(0.02, 0.04, "Drawn straight and true to scale.", 20);
  const std::string most = cases::both_lengths(1e-3 * extreme.largest);
  std::string named;
  for (const RunStory::Moment &moment : moments)
    named += (named.empty() ? "" : ", ") + moment.name;
  return save("slip", "Slip of the glue lines (" + named + "); at most " + most + ".",
              "Glue lines from above, coloured by how far they have slipped, up to " + most + ".");
}
} // namespace overbend::viz
