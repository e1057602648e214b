// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/run/step_fields.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace overbend::solver
{
namespace
{
constexpr unsigned n_stresses = 7; // six along the axes of the neck, one along the grain

using PointValues = std::array<std::array<double, n_stresses>, points_per_cell>;

// Value of the quadratic through the three Gauss points of [0, 1], at the nodes 0, 1/2, 1.
std::array<std::array<double, 3>, 3> gauss_to_nodes()
{
  const double g = std::sqrt(0.15);
  const std::array<double, 3> point = {0.5 - g, 0.5, 0.5 + g}, node = {0, 0.5, 1};
  std::array<std::array<double, 3>, 3> e{};
  for (unsigned n = 0; n < 3; ++n)
    for (unsigned q = 0; q < 3; ++q) {
      e[n][q] = 1;
      for (unsigned r = 0; r < 3; ++r)
        if (r != q)
          e[n][q] *= (node[n] - point[r]) / (point[q] - point[r]);
    }
  return e;
}

// Stress from wood axes (LL, RR, TT, RT, LT, LR) to those of the neck (xx yy zz xy yz xz).
std::array<double, 6> to_neck(const std::array<Vec3, 3> &grain, const materials::Vector6 &s)
{
  const double wood[3][3] = {{s[0], s[5], s[4]}, {s[5], s[1], s[3]}, {s[4], s[3], s[2]}};
  const auto component = [&](unsigned i, unsigned j) {
    double sum = 0;
    for (unsigned a = 0; a < 3; ++a)
      for (unsigned b = 0; b < 3; ++b)
        sum += grain[a][i] * wood[a][b] * grain[b][j];
    return sum;
  };
  return {component(0, 0), component(1, 1), component(2, 2),
          component(0, 1), component(1, 2), component(0, 2)};
}

class NodeMeans
{
public:
  explicit NodeMeans(const Space &space_)
      : space(space_), volume(space_.n_nodes, 0.), use(space_.n_nodes, 0.)
  {
    for (auto &field : stress)
      field.assign(space.n_nodes, 0.);
  }

  void add_cell(const Model &model, const MechanicsState &state, unsigned cell, double used)
  {
    static const auto to_nodes = gauss_to_nodes();
    PointValues at_point{};
    double size = 0;
    for (unsigned q = 0; q < points_per_cell; ++q) {
      const std::size_t p = std::size_t(cell) * points_per_cell + q;
      const materials::Vector6 &s = state.wood[p].stress;
      const auto neck = to_neck(model.grain_at(cell, p), s);
      std::copy(neck.begin(), neck.end(), at_point[q].begin());
      at_point[q][6] = s[0];
      size += space.jxw[p];
    }
    for (unsigned n = 0; n < nodes_per_cell; ++n) {
      const unsigned node = space.cell_node[cell][n];
      volume[node] += size;
      use[node] += size * used;
      for (unsigned q = 0; q < points_per_cell; ++q) {
        const double w =
            to_nodes[n % 3][q % 3] * to_nodes[n / 3 % 3][q / 3 % 3] * to_nodes[n / 9][q / 9];
        for (unsigned i = 0; i < n_stresses; ++i)
          stress[i][node] += size * w * at_point[q][i];
      }
    }
  }

  void finish()
  {
    for (unsigned n = 0; n < space.n_nodes; ++n) {
      if (!(volume[n] > 0))
        continue;
      use[n] /= volume[n];
      for (auto &field : stress)
        field[n] /= volume[n];
    }
  }

  const Space &space;
  std::vector<double> volume, use;
  std::array<std::vector<double>, n_stresses> stress;
};

// Of each cell, its most used box.
std::vector<double> most_used(const Model &model, const StressMeans &means,
                              const MechanicsState &state, const std::vector<double> &temperature,
                              const std::vector<double> &moisture)
{
  std::vector<double> used(model.space.n_cells, 0.);
  const std::vector<materials::Use> use = means.use(model, state, temperature, moisture);
  for (std::size_t b = 0; b < use.size(); ++b) {
    double &most = used[means.boxes.part[means.boxes.box[b].part].cell];
    most = std::max(most, use[b].share);
  }
  return used;
}

std::vector<double> as_built(const Model &model)
{
  std::vector<double> moisture(model.space.n_nodes, 0.);
  for (unsigned c = 0; c < model.space.n_cells; ++c)
    for (const unsigned n : model.space.cell_node[c])
      moisture[n] = model.wood(model.wood_at_middle(c)).moisture;
  return moisture;
}

// The boundary faces whose nine nodes all belong to the upper side of a line.
GlueSurface glue_surface(const Model &model)
{
  GlueSurface surface;
  std::vector<std::map<unsigned, int>> point_of(model.glue_line.size());
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const GluePoint &p = model.glue_point[g];
    point_of[p.line][p.upper] = int(g);
    const Vec3 &place = model.space.position[p.upper];
    surface.nodes.insert(surface.nodes.end(), place.begin(), place.end());
  }
  for (std::size_t line = 0; line < point_of.size(); ++line) {
    GlueSurface::Line shown{model.glue_line[line].name, {}};
    const auto &point = point_of[line];
    for (const auto &[id, faces] : model.space.boundary)
      for (const BoundaryFace &face : faces) {
        if (std::any_of(face.node.begin(), face.node.end(),
                        [&](unsigned n) { return point.count(n) == 0; }))
          continue;
        for (const int lexicographic : vtk_face_node)
          shown.faces.push_back(point.at(face.node[std::size_t(lexicographic)]));
      }
    if (!shown.faces.empty())
      surface.lines.push_back(std::move(shown));
  }
  return surface;
}

void add_glue(const Model &model, const MechanicsState &state, StepFields &fields)
{
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const GluePoint &p = model.glue_point[g];
    const double slip = std::hypot(state.glue[g].slip[0], state.glue[g].slip[1]);
    const materials::Vector2 shear = model.glue_line[p.line].law->traction(state.glue[g]);
    fields.slip[p.upper] = slip;
    if (p.lower >= 0)
      fields.slip[unsigned(p.lower)] = slip;
    fields.glue_slip.push_back(slip);
    fields.glue_shear.push_back(std::hypot(shear[0], shear[1]));
    for (unsigned i = 0; i < 3; ++i)
      fields.glue_displacement.push_back(state.displacement[3 * p.upper + i]);
  }
}
} // namespace

MeshData mesh_data(const Model &model)
{
  const Space &space = model.space;
  MeshData mesh;
  for (const Vec3 &p : space.position)
    mesh.nodes.insert(mesh.nodes.end(), p.begin(), p.end());
  for (unsigned c = 0; c < space.n_cells; ++c) {
    for (const int lexicographic : vtk_node)
      mesh.cells.push_back(int(space.cell_node[c][std::size_t(lexicographic)]));
    mesh.piece.push_back(int(space.piece[c]));
  }
  mesh.glue = glue_surface(model);
  return mesh;
}

StepFields step_fields(const Model &model, const StressMeans &stress_means,
                       const MechanicsState &state, const std::vector<double> &temperature,
                       double time, const std::string &phase, const std::vector<double> &moisture)
{
  const Space &space = model.space;
  const std::vector<double> water = moisture.empty() ? as_built(model) : moisture;
  const std::vector<double> used = most_used(model, stress_means, state, temperature, water);
  NodeMeans means(space);
  for (unsigned c = 0; c < space.n_cells; ++c)
    means.add_cell(model, state, c, used[c]);
  means.finish();

  StepFields fields;
  fields.time = time;
  fields.phase = phase;
  fields.displacement.assign(state.displacement.begin(),
                             state.displacement.begin() + space.n_dofs());
  fields.temperature = temperature;
  fields.moisture = water;
  for (unsigned i = 0; i < 6; ++i)
    fields.stress[i] = std::move(means.stress[i]);
  fields.stress_along_grain = std::move(means.stress[6]);
  fields.use_of_strength = std::move(means.use);
  fields.slip.assign(space.n_nodes, 0.);
  add_glue(model, state, fields);
  return fields;
}
} // namespace overbend::solver
