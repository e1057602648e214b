// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/read_case.h"
#include "mesh/make_neck_mesh.h"
#include "mesh/neck_grid.h"
#include "solver/equations/timing_clock.h"
#include "solver/plan/plan.h"

#include <cstdio>
#include <stdexcept>
#include <string>

// section_settles CASE RESOLUTION [MORE...]: what a neck without warp reads after the phases of the
// case, which name their pulls, on the section of a resolution and on finer ones. Cells along the
// neck stay as the first has them. MORE: "outer=3" (columns of the outer region), "board=2" and so
// on, each a run of its own; "all=2" multiplies all counts of the section by it. Each run is made
// with moisture and without, the latter to see what drying has to do with it.
namespace overbend
{
namespace
{
void multiply(mesh::GridCounts &counts, unsigned by)
{
  for (unsigned *count : {&counts.channel, &counts.middle, &counts.outer, &counts.fillet,
                          &counts.rod, &counts.lower, &counts.lower_head, &counts.board})
    *count *= by;
}

// "outer=3"
void change(mesh::GridCounts &counts, const std::string &word)
{
  const auto sign = word.find('=');
  if (sign == std::string::npos)
    throw std::invalid_argument("not a change of the counts: " + word);
  const std::string key = word.substr(0, sign);
  const auto value = static_cast<unsigned>(std::stoul(word.substr(sign + 1)));
  if (key == "all")
    multiply(counts, value);
  else if (key == "middle")
    counts.middle = value;
  else if (key == "outer")
    counts.outer = value;
  else if (key == "rod")
    counts.rod = value;
  else if (key == "lower")
    counts.lower = counts.lower_head = value;
  else if (key == "board")
    counts.board = value;
  else
    throw std::invalid_argument("not a count of the section: " + key);
}

void print(const cases::Case &c, const solver::History &history, const char *name, double seconds)
{
  std::size_t release = 1;
  while (release + 1 < c.phases.size() && c.phases[release].kind != cases::PhaseKind::release)
    ++release;
  const double clamped = history.phases[release - 1].reading.bow;
  const double released = history.phases[release].reading_at_start.bow;
  std::printf("  %-16s clamped %+.4f released %+.4f (share %.4f) at the end %+.4f mm, %zu steps, "
              "%.0f s\n",
              name, 1e3 * clamped, 1e3 * released, released / clamped,
              1e3 * history.phases.back().reading.bow, history.steps.size(), seconds);
  std::fflush(stdout);
}

void run(const cases::Case &c, const mesh::NeckProfile &profile, const mesh::GridCounts &counts,
         const std::string &name)
{
  const mesh::NeckMesh mesh = mesh::make_neck_mesh(profile, counts);
  const solver::PlanInput input{c, mesh, materials::tables(), [](const std::string &) {}, {}};
  solver::Workbench work(input.the_case, input.mesh, input.tables, {});
  std::printf("%s: %u unknowns\n", name.c_str(), work.model.n_unknowns());
  const auto heat = solver::heat_of(work, c.phases);
  const auto moisture = solver::moisture_of(work, c.phases, heat);
  for (const bool dries : {true, false}) {
    const double from = solver::clock_seconds();
    solver::Progress start;
    start.state = solver::unstressed(work.model);
    solver::SimulationOptions options;
    options.bow_error = c.numerics.bow_error;
    if (dries)
      options.moisture = &moisture;
    const auto history =
        solver::simulate(work.neck(), c.phases, work.planned_strings, heat, start, options);
    print(c, history, dries ? "with moisture" : "without moisture", solver::clock_seconds() - from);
  }
}
} // namespace
} // namespace overbend

int main(int count, char **words)
{
  using namespace overbend;
  if (count < 3)
    return 2;
  const cases::Case c = cases::read_case(words[1]);
  const mesh::NeckProfile profile(c.neck);
  const mesh::GridCounts counts = mesh::grid_counts(profile, std::stod(words[2]));
  run(c, profile, counts, std::string("resolution ") + words[2]);
  for (int i = 3; i < count; ++i) {
    mesh::GridCounts finer = counts;
    change(finer, words[i]);
    run(c, profile, finer, words[i]);
  }
  return 0;
}
