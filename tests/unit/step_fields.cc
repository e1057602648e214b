// SPDX-License-Identifier: GPL-3.0-or-later
// Nodal stresses of the results file.
#include "solver/run/step_fields.h"

#include "cases/read/read_case.h"
#include "mesh/make_neck_mesh.h"
#include "solver/plan/plan.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>

using namespace overbend;
using namespace overbend::solver;

namespace
{
// A stress of the neck (xx yy zz xy yz xz) turned into wood axes (LL, RR, TT, RT, LT, LR).
materials::Vector6 to_wood(const std::array<Vec3, 3> &grain, const std::array<double, 6> &s)
{
  const double neck[3][3] = {{s[0], s[3], s[5]}, {s[3], s[1], s[4]}, {s[5], s[4], s[2]}};
  const auto part = [&](unsigned a, unsigned b) {
    double sum = 0;
    for (unsigned i = 0; i < 3; ++i)
      for (unsigned j = 0; j < 3; ++j)
        sum += grain[a][i] * neck[i][j] * grain[b][j];
    return sum;
  };
  return {part(0, 0), part(1, 1), part(2, 2), part(1, 2), part(0, 2), part(0, 1)};
}

// A stress that grows linearly along each axis, different in each component, Pa.
std::array<double, 6> linear_stress(const Vec3 &p)
{
  std::array<double, 6> s{};
  for (unsigned i = 0; i < 6; ++i)
    s[i] = 1e6 * (i + 1) + 1e7 * p[0] * (i + 2.) - 2e8 * p[1] * (i - 2.) + 3e8 * p[2];
  return s;
}

std::array<std::vector<double>, 3> places_of_points(const Space &space)
{
  std::array<std::vector<double>, 3> at;
  for (unsigned i = 0; i < 3; ++i) {
    std::vector<double> nodal;
    for (const Vec3 &p : space.position)
      nodal.push_back(p[i]);
    at[i] = at_points(space, nodal);
  }
  return at;
}

// Puts the linear stress into every point, in the axes of its wood.
void stress_linearly(const Model &model, MechanicsState &state)
{
  const auto at = places_of_points(model.space);
  for (std::size_t p = 0; p < state.wood.size(); ++p)
    state.wood[p].stress = to_wood(model.grain_at(unsigned(p / points_per_cell), p),
                                   linear_stress({at[0][p], at[1][p], at[2][p]}));
}

// Largest difference of the nodal stresses from the linear one, as a share of the largest stress.
double worst_stress(const Space &space, const StepFields &fields)
{
  double worst = 0, hardest = 0;
  for (unsigned n = 0; n < space.n_nodes; ++n)
    for (unsigned i = 0; i < 6; ++i) {
      const double expected = linear_stress(space.position[n])[i];
      worst = std::max(worst, std::abs(fields.stress[i][n] - expected));
      hardest = std::max(hardest, std::abs(expected));
    }
  return worst / hardest;
}
} // namespace

// The cells map positions with the same quadratics that carry the stresses to the nodes, so a
// linear stress comes out exactly, also in curved cells and slanting grain [C].
TEST(StepFields, LinearStressReachesTheNodesUnchanged)
{
  cases::Case c = cases::preset_case("steel-string acoustic");
  c.neck.shaft.grain = {0.4, 0.05, -0.08};
  c.neck.headstock.piece = c.neck.shaft;
  const mesh::NeckMesh neck = mesh::make_neck_mesh(c.neck, 0.5);
  const PlanInput input{c, neck, materials::tables(), [](const std::string &) {}, {}};
  const Workbench bench(input.the_case, input.mesh, input.tables, {});
  MechanicsState state = unstressed(bench.model);
  stress_linearly(bench.model, state);
  for (std::size_t g = 0; g < state.glue.size(); ++g)
    state.glue[g].slip = {3e-6, -4e-6};
  const std::vector<double> warm(bench.model.space.n_nodes, 300.);
  const StepFields fields = step_fields(bench.model, bench.means, state, warm, 5, "test");
  EXPECT_LT(worst_stress(bench.model.space, fields), 1e-9);
  const GluePoint &glued = bench.model.glue_point.front();
  EXPECT_NEAR(fields.slip[glued.upper], 5e-6, 1e-12) << "amount of both directions";
  EXPECT_NEAR(fields.slip[unsigned(glued.lower)], 5e-6, 1e-12);
}

// Each point is turned back by the axes of its own strip, and used against its own strength.
TEST(StepFields, OfAShaftOfStripsTakeTheWoodOfThePoint)
{
  cases::Case c = cases::preset_case("electric");
  c.neck.laminations = {{0.027, {"sugar maple", {0.4, 0.05, -0.08}}},
                        {0.004, {"wenge", {1.2, 0, 0.1}}},
                        {0.027, {"Honduras mahogany", {0, -0.06, 0}}}};
  c.neck.headstock.laminated = true;
  const mesh::NeckMesh neck = mesh::make_neck_mesh(c.neck, 0.5);
  const PlanInput input{c, neck, materials::tables(), [](const std::string &) {}, {}};
  const Workbench bench(input.the_case, input.mesh, input.tables, {});
  const Model &model = bench.model;
  ASSERT_TRUE(model.strips.has_value());
  MechanicsState state = unstressed(model);
  stress_linearly(model, state);
  const std::vector<double> warm(model.space.n_nodes, 300.);
  EXPECT_LT(worst_stress(model.space, step_fields(model, bench.means, state, warm, 5, "test")),
            1e-9);

  // Only one wood of a cell under a pull along its grain: its share of that wood's strength.
  unsigned cut = 0;
  std::map<unsigned, double> expected;
  for (unsigned cell = 0; cell < model.space.n_cells; ++cell) {
    const std::size_t first = std::size_t(cell) * points_per_cell;
    const unsigned one = model.wood_at(cell, first), other = model.wood_at(cell, first + 26);
    if (one == other)
      continue;
    ++cut;
    constexpr double pull = 20e6;
    for (std::size_t p = first; p < first + points_per_cell; ++p)
      state.wood[p].stress = {model.wood_at(cell, p) == other ? pull : 0, 0, 0, 0, 0, 0};
    const auto &wood = model.wood(other).law->wood();
    expected[cell] = pull / materials::strengths(wood, 300, 0.1).tension_along;
  }
  EXPECT_GT(cut, 10u);
  const std::vector<double> damp(model.space.n_nodes, 0.1);
  const auto use = bench.means.use(model, state, warm, damp);
  std::map<unsigned, double> most;
  for (std::size_t b = 0; b < use.size(); ++b) {
    double &now = most[bench.means.boxes.part[bench.means.boxes.box[b].part].cell];
    now = std::max(now, use[b].share);
  }
  for (const auto &[cell, share] : expected)
    EXPECT_NEAR(most.at(cell), share, 1e-12);
}

// The glue surface covers the area that the points of its line stand for, and carries what the
// glue's law says.
TEST(StepFields, GlueLinesAreSurfacesWithTheirSlipAndShear)
{
  const cases::Case c = cases::preset_case("electric");
  const mesh::NeckMesh neck = mesh::make_neck_mesh(c.neck, 0.5);
  const PlanInput input{c, neck, materials::tables(), [](const std::string &) {}, {}};
  const Workbench bench(input.the_case, input.mesh, input.tables, {});
  const MeshData mesh = mesh_data(bench.model);
  ASSERT_FALSE(mesh.glue.lines.empty());
  ASSERT_EQ(mesh.glue.n_nodes(), bench.model.glue_point.size());
  for (const GlueSurface::Line &line : mesh.glue.lines) {
    double corners = 0, points = 0;
    const auto at = [&](std::size_t face, unsigned corner, unsigned i) {
      return mesh.glue.nodes[3 * std::size_t(line.faces[9 * face + corner]) + i];
    };
    for (std::size_t f = 0; f < line.n_faces(); ++f) {
      Vec3 d{}, e{};
      for (unsigned i = 0; i < 3; ++i) {
        d[i] = at(f, 2, i) - at(f, 0, i);
        e[i] = at(f, 3, i) - at(f, 1, i);
      }
      corners += 0.5 * std::hypot(d[1] * e[2] - d[2] * e[1], d[2] * e[0] - d[0] * e[2],
                                  d[0] * e[1] - d[1] * e[0]);
    }
    for (const GluePoint &p : bench.model.glue_point)
      if (bench.model.glue_line[p.line].name == line.name)
        points += p.weight;
    EXPECT_NEAR(corners, points, 1e-3 * points) << line.name << ": edges are nearly straight";
  }
  MechanicsState state = unstressed(bench.model);
  state.glue[7].slip = {3e-6, -4e-6};
  state.glue[7].branch[0] = {3e5, 4e5};
  const std::size_t upper = bench.model.glue_point[7].upper;
  state.displacement[3 * upper + 2] = 1e-3;
  const std::vector<double> warm(bench.model.space.n_nodes, 300.);
  const StepFields fields = step_fields(bench.model, bench.means, state, warm, 5, "test");
  ASSERT_EQ(fields.glue_slip.size(), mesh.glue.n_nodes());
  EXPECT_NEAR(fields.glue_slip[7], 5e-6, 1e-15);
  EXPECT_EQ(fields.glue_displacement[3 * 7 + 2], 1e-3);
  const materials::Vector2 shear =
      bench.model.glue_line[bench.model.glue_point[7].line].law->traction(state.glue[7]);
  EXPECT_DOUBLE_EQ(fields.glue_shear[7], std::hypot(shear[0], shear[1]));
  EXPECT_GT(fields.glue_shear[7], 1e5);
  EXPECT_EQ(fields.glue_shear[8], 0);
}

// Each cell of the results file is the same cell: its middle node is the mean of its corners where
// cells are straight, and every edge's node lies between the edge's ends (VTK's order: corners 0-3
// below, 4-7 above; node 8 on the edge 0-1).
TEST(StepFields, CellsKeepTheirNodesInVtkOrder)
{
  const cases::Case c = cases::preset_case("classical");
  const mesh::NeckMesh neck = mesh::make_neck_mesh(c.neck, 0.5);
  const PlanInput input{c, neck, materials::tables(), [](const std::string &) {}, {}};
  const Workbench bench(input.the_case, input.mesh, input.tables, {});
  const MeshData mesh = mesh_data(bench.model);
  ASSERT_EQ(mesh.n_cells(), bench.model.space.n_cells);
  const auto node = [&](std::size_t cell, unsigned k) {
    const auto n = std::size_t(mesh.cells[27 * cell + k]);
    return Vec3{mesh.nodes[3 * n], mesh.nodes[3 * n + 1], mesh.nodes[3 * n + 2]};
  };
  const unsigned edge[12][2] = {{0, 1}, {1, 2}, {2, 3}, {3, 0}, {4, 5}, {5, 6},
                                {6, 7}, {7, 4}, {0, 4}, {1, 5}, {2, 6}, {3, 7}};
  for (std::size_t cell = 0; cell < mesh.n_cells(); ++cell)
    for (unsigned e = 0; e < 12; ++e) {
      const Vec3 a = node(cell, edge[e][0]), b = node(cell, edge[e][1]), m = node(cell, 8 + e);
      double length = 0, off = 0;
      for (unsigned i = 0; i < 3; ++i) {
        length += (b[i] - a[i]) * (b[i] - a[i]);
        off += std::pow(m[i] - (a[i] + b[i]) / 2, 2);
      }
      EXPECT_LT(std::sqrt(off), 0.25 * std::sqrt(length)) << "cell " << cell << ", edge " << e;
    }
}
