// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/picture_set.h"

#include "solver/results/text_file.h"
#include "viz/drawing/views.h"

#include <algorithm>
#include <cmath>
#include <filesystem>

namespace overbend::viz
{
namespace
{
constexpr Frame upper_half{0, 0.505, 1, 0.865}, lower_half{0, 0.145, 1, 0.505};
constexpr double label_height = 0.035;
constexpr double under_the_top = 1e-3; // m: what lies deeper is seen from below

std::string number(double value)
{
  return solver::number_text(value, 3);
}

// Places and what the bar needs over them.
std::vector<Vec3> with_head_room(std::vector<Vec3> places)
{
  constexpr double bar = 0.016; // m
  Vec3 top = *std::max_element(places.begin(), places.end(),
                               [](const Vec3 &a, const Vec3 &b) { return a[2] < b[2]; });
  top[2] += bar;
  places.push_back(top);
  return places;
}
} // namespace

PictureSet::PictureSet(const std::string &of)
    : folder(of), story(of), results(story.results()), shapes(results.mesh()),
      frame(results.mesh(), story.the_case()), bench(of, story.the_case(), results.mesh()),
      canvas(picture_width, picture_height)
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
  canvas.text(0.02, 0.9, under, 20);
}

std::string PictureSet::scale_of_bending(double times) const
{
  return times > 1 ? " Bending drawn " + number(times) + " times as large as it is."
                   : " Bending drawn true to scale.";
}

void PictureSet::note_on_bending(double times, const std::string &more)
{
  canvas.text(0.02, 0.04, scale_of_bending(times).substr(1), 20);
  canvas.text(0.98, 0.04, more, 20, Align::end);
}

Picture PictureSet::save(const std::string &name, const std::string &caption,
                         const std::string &alternative)
{
  const std::string file = "pictures/" + name + ".png";
  canvas.write_png((std::filesystem::path(folder) / file).string());
  return {file, caption, alternative};
}

vtkRenderer *PictureSet::labelled_strip(const Frame &place, const std::string &label)
{
  canvas.text(place.left + 0.02, place.top - 0.5 * label_height, label, 20);
  return canvas.add_strip({place.left, place.bottom, place.right, place.top - label_height});
}

std::vector<double> PictureSet::seen(std::size_t step) const
{
  const std::vector<double> u = results.field(step, "displacement");
  return frame.without(frame.motion(u), results.mesh().nodes, u);
}

double PictureSet::times_for(std::size_t step) const
{
  const double aspect = (upper_half.top - upper_half.bottom - label_height) * picture_height /
                        ((upper_half.right - upper_half.left) * picture_width);
  return fitting_magnification(results.mesh().nodes, {seen(step)}, from_above, 0.95 * aspect);
}

Vec3 PictureSet::show(vtkRenderer *strip, const Probe &probe, const std::vector<Vec3> &at)
{
  const Vec3 from = at[bench.nearest(probe.place)];
  Vec3 to = from;
  to[2] += probe.lift;
  if (probe.lift != 0)
    strip->AddActor(path_actor({{from, to}}, line_dark, 1.2));
  // Near the body a text would run out of the picture.
  if (from[0] > 0.6 * story.the_case().neck.scale_length)
    canvas.label(strip, to, probe.words + " \u2022", 18, Align::end);
  else
    canvas.label(strip, to, "\u2022 " + probe.words, 18);
  to[2] *= 1.1; // the text's own height
  return to;
}

void PictureSet::above_and_below(std::size_t step, const std::vector<double> &value,
                                 const ColourScale &scale, const std::vector<Probe> &probes)
{
  coloured_strip(upper_half, "from above", step, value, scale, true, probes);
  coloured_strip(lower_half, "from below", step, value, scale, false, probes);
}

void PictureSet::coloured_strip(const Frame &place, const std::string &label, std::size_t step,
                                const std::vector<double> &value, const ColourScale &scale,
                                bool above, const std::vector<Probe> &probes)
{
  vtkRenderer *const strip = labelled_strip(place, label);
  const std::vector<Vec3> at = moved(results.mesh().nodes, seen(step), times_for(step));
  const auto surface = shapes.outside(at, value);
  strip->AddActor(coloured_actor(surface, scale));
  strip->AddActor(edge_actor(surface, line_dark, 1.2));
  if (!scale.marks.empty())
    strip->AddActor(line_actor(NeckShapes::levels(surface, scale.marks), {0, 0, 0}, 1.5));
  bench.draw_frets(strip, surface);
  bench.draw_bench(strip, at, results.on_bench(step));
  if (above)
    for (const BenchShapes::FretNode &one : bench.numbered_frets())
      canvas.label(strip, at[one.node], std::to_string(one.fret), 14, Align::centre);
  for (const Probe &probe : probes)
    if ((probe.place[2] > -under_the_top) == above)
      show(strip, probe, at);
  canvas.look(strip, above ? from_above : from_below, with_head_room(at));
}

void PictureSet::cut_strip(const Frame &place, const std::string &label, std::size_t step,
                           const std::vector<double> &value, const ColourScale &scale,
                           const std::vector<Probe> &probes)
{
  vtkRenderer *const strip = labelled_strip(place, label);
  const solver::MeshData &mesh = results.mesh();
  const double times = times_for(step);
  const std::vector<Vec3> at = moved(mesh.nodes, seen(step), times);
  const auto cut = shapes.cut_along(cut_at(), at, value);
  strip->AddActor(coloured_actor(cut, scale));
  std::vector<double> every_five;
  for (double level = scale.from + 5; level < scale.to; level += 5)
    every_five.push_back(level);
  strip->AddActor(line_actor(NeckShapes::levels(cut, every_five), {0.25, 0.25, 0.25}, 1));
  if (!mesh.glue.lines.empty()) {
    const std::vector<double> u = results.field(step, "glue_displacement");
    const std::vector<Vec3> glue =
        moved(mesh.glue.nodes,
              frame.without(frame.motion(results.field(step, "displacement")), mesh.glue.nodes, u),
              times);
    for (std::size_t line = 0; line < mesh.glue.lines.size(); ++line)
      strip->AddActor(line_actor(shapes.glue_cut(line, cut_at(), glue), {0, 0, 0}, 3));
  }
  bench.draw_bench(strip, at, results.on_bench(step));
  std::vector<Vec3> all = with_head_room(at);
  for (const Probe &probe : probes)
    all.push_back(show(strip, probe, at));
  canvas.look(strip, from_bass_level, all);
}

void PictureSet::glue_strip(const Frame &place, const std::string &label, std::size_t step,
                            const ColourScale &scale)
{
  vtkRenderer *const strip = labelled_strip(place, label);
  draw_glue_lines(canvas, strip, shapes, results.mesh(), results.field(step, "glue_slip"), scale);
  bench.draw_frets(strip, shapes.outside(moved(results.mesh().nodes, {}, 1)));
}
} // namespace overbend::viz
