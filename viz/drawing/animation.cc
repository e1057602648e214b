// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/animation.h"

#include "solver/results/text_file.h"
#include "viz/drawing/canvas.h"
#include "viz/drawing/film.h"
#include "viz/drawing/neck_shapes.h"
#include "viz/drawing/views.h"

#include <cmath>
#include <filesystem>
#include <map>

namespace overbend::viz
{
namespace
{
namespace fs = std::filesystem;

class Animation
{
public:
  explicit Animation(const std::string &folder)
      : story(folder), results(story.results()), shapes(results.mesh()),
        canvas(film_width, film_height), times(story.magnification())
  {
    const RunStory::Extreme warm = story.extreme("temperature");
    heat = temperature_scale(warm.least, warm.largest);
    has_glue = !results.mesh().glue.lines.empty();
    if (has_glue)
      slip = slip_scale(story.extreme("glue_slip").largest);
    for (const RunStory::PhaseSteps &phase : story.phases())
      for (const std::size_t step : {phase.first, phase.last})
        for (const Vec3 &p :
             moved(results.mesh().nodes, results.field(step, "displacement"), times))
          everywhere.push_back(p);
  }

  const std::vector<unsigned char> &draw(const FilmFrame &frame)
  {
    canvas.clear();
    const std::string &phase = results.phase(frame.step);
    const double now = results.time(frame.step), then = results.time(next(frame));
    canvas.text(0.02, 0.95, story.moment(phase, now + frame.share * (then - now)), 30);
    canvas.text(0.02, 0.895, story.the_case().title, 18);
    draw_neck(frame);
    if (has_glue)
      draw_glue(frame);
    draw_legend(canvas, heat, 0.06, 0.46);
    canvas.text(0.98, 0.95, "bending drawn " + solver::number_text(times, 3) + " times as large",
                18, Align::end);
    canvas.text(0.98, 0.905, "every phase lasts as long in the film: read the clock", 18,
                Align::end);
    return canvas.pixels();
  }

private:
  std::size_t next(const FilmFrame &frame) const
  {
    return frame.share > 0 ? frame.step + 1 : frame.step;
  }

  // Neighbours in the film read the same two steps: keep the last ones read.
  const std::vector<double> &stored(std::size_t step, const char *field)
  {
    std::map<std::size_t, std::vector<double>> &kept = read[field];
    while (kept.size() > 2)
      kept.erase(kept.begin());
    const auto found = kept.find(step);
    return found != kept.end() ? found->second
                               : kept.emplace(step, results.field(step, field)).first->second;
  }

  std::vector<double> between(const FilmFrame &frame, const char *field)
  {
    std::vector<double> value = stored(frame.step, field);
    const std::vector<double> &to = stored(next(frame), field);
    for (std::size_t n = 0; n < value.size(); ++n)
      value[n] += frame.share * (to[n] - value[n]);
    return value;
  }

  void draw_neck(const FilmFrame &frame)
  {
    vtkRenderer *const strip = canvas.add_strip({0, has_glue ? 0.42 : 0.16, 1, 0.87});
    const auto surface =
        shapes.outside(moved(results.mesh().nodes, between(frame, "displacement"), times),
                       between(frame, "temperature"));
    strip->AddActor(coloured_actor(surface, heat));
    strip->AddActor(edge_actor(surface, line_dark, 1));
    canvas.look(strip, from_above, everywhere);
  }

  void draw_glue(const FilmFrame &frame)
  {
    vtkRenderer *const strip = canvas.add_strip({0, 0.16, 1, 0.375});
    draw_glue_lines(canvas, strip, shapes, results.mesh(), between(frame, "glue_slip"), slip);
    canvas.text(0.02, 0.395, "glue lines from above", 18);
    draw_legend(canvas, slip, 0.54, 0.94);
  }

  RunStory story;
  const solver::ResultsFile &results;
  NeckShapes shapes;
  Canvas canvas;
  double times;
  bool has_glue = false;
  ColourScale heat, slip;
  std::vector<Vec3> everywhere;
  std::map<std::string, std::map<std::size_t, std::vector<double>>> read;
};
} // namespace

std::vector<FilmFrame> film_frames(const RunStory &story)
{
  constexpr int still = frames_per_second, moving = 2 * frames_per_second;
  std::vector<FilmFrame> frames;
  for (const RunStory::PhaseSteps &phase : story.phases()) {
    const auto steps = double(phase.last - phase.first);
    const int count = phase.last == phase.first ? still : moving;
    for (int k = 0; k < count; ++k) {
      const double place = steps * k / (count - 1);
      const auto step = std::min(phase.first + std::size_t(place), phase.last);
      frames.push_back({step, step == phase.last ? 0 : place - std::floor(place)});
    }
  }
  frames.insert(frames.end(), still, {story.last_step(), 0});
  return frames;
}

Pictures make_animation(const std::string &folder)
{
  const std::string file = "pictures/history.mp4";
  make_pictures_folder(folder);
  const RunStory story(folder);
  Film film((fs::path(folder) / file).string(), film_width, film_height, frames_per_second);
  Animation animation(folder);
  for (const FilmFrame &frame : film_frames(story))
    film.add(animation.draw(frame));
  film.finish();
  return {{{file,
            "The whole history: the neck coloured by temperature, the glue lines by slip. Bending "
            "drawn " +
                solver::number_text(story.magnification(), 3) +
                " times as large as it is. Every phase lasts as long in the film: read the clock.",
            "Film of the neck from above through all phases, with the clock."}},
          ""};
}
} // namespace overbend::viz
