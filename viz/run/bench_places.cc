// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/run/bench_places.h"

#include "solver/results/file_error.h"
#include "viz/page/plan_file.h"

#include <filesystem>

namespace overbend::viz
{
namespace
{
void ask_plan(const std::string &folder, BenchPlaces &places)
{
  if (!std::filesystem::exists(std::filesystem::path(folder) / "plan.json"))
    return;
  try {
    const PlanFile plan(folder);
    if (!plan.has("/set_up"))
      return;
    places.bar_from = plan.number("/set_up/bar/from_m");
    places.bar_to = plan.number("/set_up/bar/to_m");
    places.bar_thickness = plan.number("/set_up/bar/thickness_m");
    places.cradle_x = plan.number("/set_up/cradle/x_m");
    places.cradle_width = plan.number("/set_up/cradle/width_m");
    for (std::size_t i = 0; i < plan.size("/set_up/cords/posts"); ++i) {
      const std::string post = "/set_up/cords/posts/" + std::to_string(i);
      places.pulled_at.push_back(
          {plan.number(post + "/x_m"), plan.number(post + "/y_m"), plan.number(post + "/z_m")});
    }
  } catch (const solver::FileError &) {
    // A plan of another format or a damaged one: the pictures do without what it chose.
  }
}
} // namespace

BenchPlaces bench_places(const std::string &folder, const cases::Case &c)
{
  BenchPlaces places;
  for (int fret = 1; fret <= c.neck.frets; ++fret)
    places.fret_x.push_back(cases::fret_position(c.neck.scale_length, fret));
  places.board_thickness = c.neck.board_thickness;
  places.bar_from = c.heater.from;
  places.bar_to = c.heater.to;
  places.bar_width = c.heater.width;
  places.bar_thickness = c.heater.thickness;
  places.cradle_x = c.bench.cradle_x;
  places.cradle_width = c.bench.cradle_width;
  places.turned_over = c.bench.turned_over;
  places.pulled_up = c.bench.turned_over || c.bench.device == cases::Device::caul;
  ask_plan(folder, places);
  return places;
}
} // namespace overbend::viz
