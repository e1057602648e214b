// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/animation.h"

#include "solver/results/text_file.h"
#include "viz/drawing/canvas.h"
#include "viz/drawing/film.h"
#include "viz/drawing/side_view.h"
#include "viz/drawing/views.h"

#include <filesystem>
#include <map>

namespace overbend::viz
{
namespace
{
namespace fs = std::filesystem;

constexpr Colour heated = {0.98, 0.80, 0.64}, clamped = {0.78, 0.85, 0.93},
                 off = {0.93, 0.93, 0.93}, now_black = {0, 0, 0};
constexpr Frame phases_strip = {0.02, 0.178, 0.98, 0.2};

class Animation
{
public:
  explicit Animation(const std::string &folder)
      : story(folder), results(story.results()), shapes(results.mesh()),
        frame(results.mesh(), story.the_case()), bench(folder, story.the_case(), results.mesh()),
        side(results.mesh(), story.the_case(), shapes, bench), canvas(film_width, film_height)
  {
    const RunStory::Extreme warm = story.extreme("temperature");
    heat = temperature_scale(warm.least, warm.largest);
    has_glue = !results.mesh().glue.lines.empty();
    if (has_glue)
      slip = slip_scale(story.extreme("glue_slip").largest);
    std::vector<std::vector<double>> states;
    for (const RunStory::PhaseSteps &phase : story.phases()) {
      starts.push_back(phase.first);
      for (const std::size_t step : {phase.first, phase.last})
        states.push_back(seen(results.field(step, "displacement")));
    }
    side.fit(states, (upper.top - upper.bottom) * film_height / film_width);
    frames_ = film_frames(activity(story), starts);
  }

  const std::vector<FilmFrame> &frames() const { return frames_; }
  double times() const { return side.times(); }

  const std::vector<unsigned char> &draw(std::size_t number)
  {
    canvas.clear();
    const FilmFrame &at = frames_[number];
    say(at);
    draw_neck(at);
    if (has_glue)
      draw_glue(at);
    draw_phases(number);
    draw_legend(canvas, heat, 0.08, 0.46);
    return canvas.pixels();
  }

private:
  std::size_t next(const FilmFrame &at) const { return at.share > 0 ? at.step + 1 : at.step; }

  std::vector<double> seen(const std::vector<double> &u) const
  {
    return frame.without(frame.motion(u), results.mesh().nodes, u);
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

  std::vector<double> between(const FilmFrame &at, const char *field)
  {
    std::vector<double> value = stored(at.step, field);
    const std::vector<double> &to = stored(next(at), field);
    for (std::size_t n = 0; n < value.size(); ++n)
      value[n] += at.share * (to[n] - value[n]);
    return value;
  }

  void say(const FilmFrame &at)
  {
    // On the way from one phase to the next it is the next one's doing.
    const std::string &phase = results.phase(next(at));
    const double now = results.time(at.step), then = results.time(next(at));
    canvas.text(0.02, 0.95, story.moment(phase, now + at.share * (then - now)), 28);
    const auto bow = story.bow_at(at.step), to = story.bow_at(next(at));
    if (bow && to)
      canvas.text(0.02, 0.895, story.reading_of(*bow + at.share * (*to - *bow)), 24);
    canvas.text(0.98, 0.95, "bending drawn " + solver::number_text(times(), 3) + " times as large",
                18, Align::end);
    canvas.text(0.98, 0.905, "blue: line over the rest frets; red: bow", 18, Align::end);
  }

  void draw_neck(const FilmFrame &at)
  {
    vtkRenderer *const strip = canvas.add_strip(upper);
    const std::vector<Vec3> places = side.places(seen(between(at, "displacement")));
    const auto surface = shapes.outside(places, between(at, "temperature"));
    strip->AddActor(edge_actor(surface, line_dark, 1));
    side.draw(canvas, strip, coloured_actor(surface, heat), places, results.on_bench(next(at)));
  }

  void draw_glue(const FilmFrame &at)
  {
    vtkRenderer *const strip = canvas.add_strip({0, 0.21, 1, 0.4});
    draw_glue_lines(canvas, strip, shapes, results.mesh(), between(at, "glue_slip"), slip);
    canvas.text(0.02, 0.395, "glue lines from above", 18);
    draw_legend(canvas, slip, 0.56, 0.94);
  }

  // The phases side by side, as long as they last in the film, with a mark at this frame.
  void draw_phases(std::size_t number)
  {
    const double width = phases_strip.right - phases_strip.left;
    const auto place = [&](std::size_t n) {
      return phases_strip.left + width * double(n) / double(frames_.size());
    };
    const double x = place(number);
    canvas.box({x - 0.002, phases_strip.bottom - 0.006, x + 0.002, phases_strip.top + 0.006},
               now_black); // what is painted first lies over the rest
    std::size_t from = 0;
    for (std::size_t n = 1; n <= frames_.size(); ++n) {
      if (n < frames_.size() &&
          results.phase(next(frames_[n])) == results.phase(next(frames_[from])))
        continue;
      const solver::OnBench &on = results.on_bench(next(frames_[from]));
      canvas.box({place(from) + 0.001, phases_strip.bottom, place(n), phases_strip.top},
                 on.heated    ? heated
                 : on.clamped ? clamped
                              : off);
      from = n;
    }
  }

  static constexpr Frame upper = {0, 0.42, 1, 0.865};
  RunStory story;
  const solver::ResultsFile &results;
  NeckShapes shapes;
  EdgeFrame frame;
  BenchShapes bench;
  SideView side;
  Canvas canvas;
  bool has_glue = false;
  ColourScale heat, slip;
  std::vector<std::size_t> starts;
  std::vector<FilmFrame> frames_;
  std::map<std::string, std::map<std::size_t, std::vector<double>>> read;
};
} // namespace

Pictures make_animation(const std::string &folder)
{
  const std::string file = "pictures/history.mp4";
  make_pictures_folder(folder);
  Film film((fs::path(folder) / file).string(), film_width, film_height, frames_per_second);
  Animation animation(folder);
  for (std::size_t n = 0; n < animation.frames().size(); ++n)
    film.add(animation.draw(n));
  film.finish();
  return {
      {{file,
        "The whole history: the neck under a straightedge, coloured by temperature, the glue "
        "lines by slip. Bending drawn " +
            solver::number_text(animation.times(), 3) +
            " times as large as it is. The film goes on by what happens, not by the clock: read "
            "the clock. Strip below: the phases, orange with the bar on, blue in the clamp.",
        "Film of the neck from the side under a straightedge through all phases, with reading "
        "and clock."}},
      ""};
}
} // namespace overbend::viz
