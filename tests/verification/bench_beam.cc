// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/bench_beam.h"

#include "cases/read/read_case.h"
#include "mesh/neck_mesh.h"
#include "solver/model/interfaces.h"

#include <cmath>

namespace overbend::tests
{
namespace
{
// Bearing of the neck's end in the body per area, N/m^3, as solver/bench/bench.cc has it.
constexpr double joint_stiffness = 2e12;

cases::Case case_of(const mesh::LayeredBeam &shape,
                    const std::function<void(cases::Case &)> &change)
{
  cases::Case c =
      cases::parse_case("preset = \"electric\"\n[found]\nbow = \"0.6 mm\"\n", "beam.toml");
  c.neck.scale_length = 2 * shape.length;
  c.neck.join_fret = 12;
  c.neck.nut_width = c.neck.width_at_12 = shape.width;
  c.neck.board_thickness = shape.board_thickness;
  c.neck.headstock.kind = cases::HeadstockKind::flat;
  c.neck.headstock.angle = c.neck.headstock.face_step = 0;
  c.neck.rod = {};
  c.tuners.layout = cases::TunerLayout::both_sides;
  c.tuners.first_post = c.tuners.last_post = 0;
  c.tuners.across = shape.width / 2;
  c.tuners.kind = "nylon roller 16:1"; // cords straight down from where the posts are
  c.bench.device = cases::Device::posts;
  c.bench.cradle_x = shape.length / 2;
  if (change)
    change(c);
  return c;
}

// The end at x = 0 is the headstock; without a board the top is what the strings run along.
solver::Model &with_headstock(solver::Model &model)
{
  auto &boundary = model.space.boundary;
  const auto same = [&](mesh::Face as, mesh::Face there) {
    if (boundary.count(unsigned(as)) == 0)
      boundary[unsigned(as)] = boundary.at(unsigned(there));
  };
  same(mesh::Face::headstock_face, mesh::Face::headstock_other);
  same(mesh::Face::board_glue_lower, mesh::Face::board_top);
  same(mesh::Face::board_nut_end, mesh::Face::headstock_other);
  return model;
}
} // namespace

materials::Wood rigid_in_shear(double modulus)
{
  return elastic(modulus, modulus, 1e13);
}

solver::BenchSetup bare_bench()
{
  solver::BenchSetup setup;
  setup.nut = false;
  return setup;
}

BenchBeam::BenchBeam(const mesh::LayeredBeam &shape, const BeamMaterials &materials,
                     const std::function<void(cases::Case &)> &change)
    : beam(shape, materials), c(case_of(shape, change)),
      bench(std::make_unique<solver::Bench>(c, with_headstock(beam.model), materials::tables())),
      mechanics(beam.model)
{}

std::vector<double> BenchBeam::at_once(const solver::BenchSetup &setup,
                                       const solver::BenchOffsets &offsets,
                                       const std::vector<double> &extra_load, double warmth)
{
  const solver::MechanicsState start = solver::unstressed(beam.model);
  const double T = materials::reference_temperature;
  mechanics.begin(start, std::vector<double>(beam.model.space.n_nodes, T),
                  std::vector<double>(beam.model.space.n_nodes, T + warmth), 0);
  std::vector<double> load = bench->load(setup);
  for (std::size_t i = 0; i < extra_load.size(); ++i)
    load[i] += extra_load[i];
  springs = bench->springs(setup, offsets, warmth);
  displacement = start.displacement;
  mechanics.equilibrate(springs, load, displacement);
  return displacement;
}

std::vector<double> BenchBeam::end_moment(double moment) const
{
  std::vector<unsigned> nodes;
  for (const auto &n : solver::face_nodes(beam.model.space, unsigned(mesh::Face::headstock_other)))
    nodes.push_back(n.node);
  std::vector<double> load = beam.no_load();
  // A turn about y lowers what lies at larger x: the nut end goes up.
  solver::add_times(solver::spread_moment(beam.model.space, nodes, {0, 1, 0}), moment, load);
  return load;
}

double BenchBeam::curvature(double x, double step) const
{
  const auto w = [&](double at) { return solver::evaluate(beam.lift(at), displacement); };
  return (w(x - step) - 2 * w(x) + w(x + step)) / (step * step);
}

double BenchBeam::joint_give() const
{
  return 12 / (joint_stiffness * beam.shape.width * std::pow(beam.shape.shaft_depth, 3));
}
} // namespace overbend::tests
