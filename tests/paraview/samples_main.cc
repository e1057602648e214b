// SPDX-License-Identifier: GPL-3.0-or-later
// Runs a case like `simulate` and writes, beside its results, what the readings' own sampling
// (solver/model/sampling.h) gives at three points and three steps, in double precision:
//   samples.csv    block index of the step, x y z [m], name of the field in results.xdmf,
//   component,
//                  value in the unit of the field
// Usage: paraview_samples CASE FOLDER
#include "cases/read/read_case.h"
#include "mesh/make_neck_mesh.h"
#include "mesh/neck_profile.h"
#include "solver/model/sampling.h"
#include "solver/report/plan_report.h"
#include "solver/results/text_file.h"
#include "solver/run/run_output.h"
#include "viz/paraview/paraview_opener.h"

#include <cstdio>
#include <filesystem>
#include <iostream>

namespace
{
using namespace overbend;
using namespace overbend::solver;

// Three places where the bench reads: the probe, the board's top at the fret of the readings (a
// hair below it: a viewer finds nothing on the very surface), the glue plane on the treble half.
std::vector<Vec3> points(const cases::Case &c, const mesh::NeckMesh &neck)
{
  const double half = mesh::NeckProfile(c.neck).half_width(c.probe.x);
  const auto &top = neck.centre.at_fret.at(std::size_t(c.found.bow_fret));
  const auto &near_nut = neck.treble.at_fret.at(1);
  return {{c.probe.x, 0.9 * c.probe.across * half, c.probe.height + 0.5e-3},
          {top[0], top[1] + 0.1e-3, top[2] - 0.5e-3},
          {near_nut[0] + 1e-3, 0.5 * near_nut[1], 2e-3}};
}

std::string line(std::size_t step, const Vec3 &p, const char *field, unsigned component,
                 double value)
{
  char text[300];
  std::snprintf(text, sizeof text, "%zu,%.12g,%.12g,%.12g,%s,%u,%.12g\n", step, p[0], p[1], p[2],
                field, component, value);
  return text;
}

int run(const char *case_file, const std::string &folder)
{
  const cases::Case c = cases::read_case(case_file);
  const mesh::NeckMesh neck = mesh::make_neck_mesh(c.neck, c.numerics.resolution);
  const PlanInput input{c, neck, materials::tables(), [](const std::string &) {}, {}};
  Workbench work(input.the_case, input.mesh, input.tables, {});
  const ThermalHistory heat = heat_of(work, c.phases);
  const FoundNeck found = find_start(work.neck(), work.found_strings);
  std::vector<Sample> samples;
  const std::vector<Vec3> places = points(c, neck);
  for (const Vec3 &p : places)
    samples.push_back(find_point(work.model.space, p));

  FieldOutput fields(folder, work, c.phases, heat, make_record(case_file, c.text, {}, 1));
  std::vector<std::string> lines;
  SimulationOptions options;
  options.observe = [&](const StepRecord &step, const MechanicsState &state) {
    fields.observe(step, state);
    const std::size_t index = fields.steps() - 1;
    std::string all;
    for (std::size_t p = 0; p < places.size(); ++p) {
      for (unsigned i = 0; i < 3; ++i)
        all += line(index, places[p], "displacement [m]", i,
                    samples[p].component(state.displacement, i));
      all += line(index, places[p], "temperature [degC]", 0,
                  samples[p].value(heat.at(step.time)) - 273.15);
    }
    lines.push_back(all);
  };
  simulate(work.neck(), c.phases, work.planned_strings, heat, found.progress, options);
  fields.finish({}, make_record(case_file, c.text, {}, 1));
  viz::write_paraview_opener(folder, viz::opener_view(folder));
  const std::size_t n = lines.size();
  write_text_file((std::filesystem::path(folder) / "samples.csv").string(),
                  "step,x,y,z,field,component,value\n" + lines[n / 4] + lines[n / 2] +
                      lines[n - 1]);
  return 0;
}
} // namespace

int main(int argc, char **argv)
{
  if (argc != 3) {
    std::cerr << "usage: paraview_samples CASE FOLDER\n";
    return 2;
  }
  try {
    return run(argv[1], argv[2]);
  } catch (const std::exception &error) {
    std::cerr << error.what() << "\n";
    return 1;
  }
}
