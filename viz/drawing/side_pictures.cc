// SPDX-License-Identifier: GPL-3.0-or-later
// The neck in its stages, as a straightedge meets it.
#include "viz/drawing/picture_set.h"

#include "solver/results/text_file.h"

#include <algorithm>

namespace overbend::viz
{
namespace
{
const Colour wood = {0.72, 0.52, 0.35};
constexpr double upper_edge = 0.865, lower_edge = 0.075, words_height = 0.065;
} // namespace

Picture PictureSet::beside_straight()
{
  std::vector<RunStory::Moment> moments = story.moments();
  // At the start nothing has happened yet.
  moments.erase(std::remove_if(moments.begin(), moments.end(),
                               [&](const RunStory::Moment &m) {
                                 return m.kind == RunStory::MomentKind::start && m.step > 0;
                               }),
                moments.end());
  moments.erase(std::unique(moments.begin(), moments.end(),
                            [](const RunStory::Moment &a, const RunStory::Moment &b) {
                              return a.step == b.step;
                            }),
                moments.end());
  heading("The neck and the straightedge", story.the_case().title);
  const double height = (upper_edge - lower_edge) / double((moments.size() + 1) / 2);
  std::vector<std::vector<double>> states;
  for (const RunStory::Moment &moment : moments)
    states.push_back(seen(moment.step));
  SideView side(results.mesh(), story.the_case(), shapes, bench);
  side.fit(states, (height - words_height) * picture_height / (0.5 * picture_width));
  std::string described;
  for (std::size_t m = 0; m < moments.size(); ++m) {
    const std::string &name = moments[m].name;
    const std::size_t step = moments[m].step;
    const double left = 0.5 * double(m % 2), top = upper_edge - double(m / 2) * height;
    const std::string reading = story.reading(step);
    vtkRenderer *const strip =
        canvas.add_strip({left, top - height, left + 0.5, top - words_height});
    const std::vector<Vec3> at = side.places(states[m]);
    const auto surface = shapes.outside(at);
    strip->AddActor(edge_actor(surface, {0.2, 0.2, 0.2}, 1.2));
    side.draw(canvas, strip, surface_actor(surface, wood), at, results.on_bench(step));
    canvas.text(left + 0.01, top - 0.018, name + ": " + story.moment(step), 18);
    canvas.text(left + 0.01, top - 0.046, reading, 18);
    described += name + (reading.empty() ? "" : ", " + reading) + "; ";
  }
  note_on_bending(side.times(), "blue: line over the rest frets; red: the bow at the fret where it "
                                "is read; grey: straight neck");
  return save("beside_straight",
              "The neck from the bass side at " + std::to_string(moments.size()) +
                  " moments, as a straightedge meets it: blue the line over the rest frets, red "
                  "the bow, grey the straight neck." +
                  scale_of_bending(side.times()),
              "Side views of the neck under a straightedge: " + described + "bending drawn " +
                  solver::number_text(side.times(), 3) + " times as large.");
}
} // namespace overbend::viz
