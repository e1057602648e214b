// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/plan_neck.h"

#include "cases/read/read_case.h"
#include "mesh/make_neck_mesh.h"

#include <algorithm>
#include <memory>

namespace overbend::tests
{
namespace
{
// Pa: over a whole neck nothing against the wood.
constexpr double no_modulus = 0.1;
} // namespace

cases::Case shipped_case(const std::string &name, double resolution)
{
  cases::Case c = cases::read_case(std::string(OVERBEND_SOURCE_DIR) + "/cases/" + name + ".toml");
  c.numerics.resolution = resolution;
  return c;
}

materials::Tables elastic_tables()
{
  materials::Tables tables = materials::tables();
  for (materials::Wood &wood : tables.woods) {
    wood.creep_instant = 0;
    wood.creep_time.clear();
    wood.creep_share.clear();
    wood.irrecoverable_share = 0;
    wood.drop_along = wood.drop_shear = 0;
    wood.drop_across = {0, 0, 0};
    wood.expansion = {0, 0, 0};
  }
  return tables;
}

PlanNeck::PlanNeck(cases::Case checked_case, materials::Tables own_tables)
    : c(std::move(checked_case)), tables(std::move(own_tables)),
      mesh(mesh::make_neck_mesh(c.neck, c.numerics.resolution)), input{c,
                                                                       mesh,
                                                                       tables,
                                                                       [](const std::string &) {},
                                                                       {}},
      work(input.the_case, input.mesh, input.tables, {})
{}

void PlanNeck::replace_glue(unsigned line, double modulus)
{
  solver::GlueLineModel &model = work.model.glue_line[line];
  materials::Glue glue = model.glue;
  double glass = glue.plateau;
  for (const double branch : glue.branch_modulus)
    glass += branch;
  glue.branch_modulus.clear();
  glue.branch_time.clear();
  glue.plateau = modulus > 0 ? modulus : glass;
  glue.bulk_modulus += 4. / 3 * (glass - glue.plateau);
  const double thickness =
      line == solver::scarf_line ? c.scarf_glue.thickness : c.board_glue.thickness;
  model.law = std::make_shared<materials::GlueLaw>(glue, thickness, c.room.humidity);
}

void PlanNeck::make_glass(unsigned line)
{
  replace_glue(line, 0);
}

void PlanNeck::make_free(unsigned line)
{
  replace_glue(line, no_modulus);
}

bool PlanNeck::has_line(unsigned line) const
{
  return std::any_of(work.model.glue_point.begin(), work.model.glue_point.end(),
                     [line](const solver::GluePoint &p) { return p.line == line; });
}

std::vector<double> PlanNeck::under(const std::vector<double> &load,
                                    const std::vector<solver::Spring> &more_springs)
{
  const solver::MechanicsState start = solver::unstressed(work.model);
  const std::vector<double> cold(work.model.space.n_nodes, materials::reference_temperature);
  work.mechanics.begin(start, cold, cold, 0);
  solver::BenchSetup bare;
  bare.nut = false;
  std::vector<double> u = start.displacement;
  std::vector<solver::Spring> springs = work.bench.springs(bare, {}, 0);
  springs.insert(springs.end(), more_springs.begin(), more_springs.end());
  work.mechanics.equilibrate(springs, load, u);
  return u;
}

std::vector<double> PlanNeck::no_load() const
{
  return std::vector<double>(work.model.n_unknowns(), 0.);
}

std::vector<double> PlanNeck::cord_pull(double bass, double treble) const
{
  std::vector<double> load = no_load();
  solver::add_times(work.bench.cord_row(0), -bass, load);
  solver::add_times(work.bench.cord_row(1), -treble, load);
  return load;
}

std::vector<double> PlanNeck::headstock_torque() const
{
  std::vector<unsigned> nodes;
  for (const solver::FaceNode &n :
       solver::face_nodes(work.model.space, unsigned(mesh::Face::headstock_face)))
    nodes.push_back(n.node);
  std::vector<double> load = no_load();
  solver::add_times(solver::spread_moment(work.model.space, nodes, {1, 0, 0}), 1., load);
  return load;
}

solver::History PlanNeck::run(const std::vector<cases::Phase> &phases,
                              const solver::ThermalHistory &heat, const solver::Progress &start,
                              solver::SimulationOptions options)
{
  options.bow_error = c.numerics.bow_error;
  return solver::simulate(work.neck(), phases, work.planned_strings, heat, start, options);
}

solver::Progress PlanNeck::unstressed() const
{
  solver::Progress start;
  start.state = solver::unstressed(work.model);
  return start;
}
} // namespace overbend::tests
