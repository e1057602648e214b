// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/moisture_system.h"

#include "solver/model/cell_forms.h"

#include <algorithm>

namespace overbend::solver
{
namespace
{
// Weight of a node in the mean over its cell (Simpson's rule in each direction).
double simpson(unsigned a)
{
  double weight = 1;
  for (unsigned d = 0; d < 3; ++d, a /= 3)
    weight *= a % 3 == 1 ? 4. / 6 : 1. / 6;
  return weight;
}

double cell_mean(const std::array<unsigned, nodes_per_cell> &nodes,
                 const std::vector<double> &nodal)
{
  double sum = 0;
  for (unsigned a = 0; a < nodes_per_cell; ++a)
    sum += simpson(a) * nodal[nodes[a]];
  return sum;
}
} // namespace

MoistureSystem::MoistureSystem(const Model &the_model, const MoistureSurroundings &surroundings)
    : model(the_model), glue_conductance(surroundings.glue_conductance)
{
  make_pattern();
  make_cells();
  make_surface(surroundings);
}

void MoistureSystem::make_pattern()
{
  PatternBuilder pattern(model.space.n_nodes);
  for (const auto &cell : model.space.cell_node)
    pattern.add_group({cell.begin(), cell.end()});
  for (const GluePoint &p : model.glue_point)
    if (p.lower >= 0)
      pattern.add_group({p.upper, static_cast<unsigned>(p.lower)});
  diffusion = pattern.build();
}

void MoistureSystem::make_cells()
{
  const Space &space = model.space;
  capacity.assign(space.n_nodes, 0.);
  for (unsigned c = 0; c < space.n_cells; ++c) {
    const double density = model.wood(model.wood_at_middle(c)).dry_density;
    if (!(density > 0))
      continue;
    wet_cell.push_back(c);
    const CellForms forms = cell_forms(space, c, model.grain(c)[0]);
    spread.insert(spread.end(), forms.spread.begin(), forms.spread.end());
    along.insert(along.end(), forms.along.begin(), forms.along.end());
    const auto &n = space.cell_node[c];
    for (unsigned a = 0; a < nodes_per_cell; ++a)
      for (unsigned b = 0; b < nodes_per_cell; ++b) {
        capacity[n[a]] += density * forms.mass[a * nodes_per_cell + b];
        entry.push_back(unsigned(&diffusion.at(n[a], n[b]) - diffusion.value.data()));
      }
  }
}

void MoistureSystem::make_surface(const MoistureSurroundings &surroundings)
{
  const Space &space = model.space;
  for (const auto &[id, coating] : surroundings.coating) {
    const auto faces = space.boundary.find(id);
    if (faces == space.boundary.end())
      continue;
    const auto &cover = surroundings.cover;
    std::map<unsigned, double> strength;
    for (const BoundaryFace &face : faces->second) {
      const double density = model.wood(model.wood_at_middle(face.cell)).dry_density;
      for (unsigned q = 0; q < nodes_per_face; ++q) {
        const bool under = cover && cover->on_board && cover->board_face == id;
        const double open = under ? 1 - covered_share(space, face, q, *cover) : 1;
        strength[face.node[q]] += density * face.weight[q] * open;
      }
    }
    for (const auto &[node, s] : strength)
      if (s > 0)
        points.push_back({node, s, coating});
  }
  conductance.assign(points.size(), 0.);
}

void MoistureSystem::connect(unsigned a, unsigned b, double flow)
{
  diffusion.at(a, a) += flow;
  diffusion.at(b, b) += flow;
  diffusion.at(a, b) -= flow;
  diffusion.at(b, a) -= flow;
}

void MoistureSystem::set_coefficients(const std::vector<double> &temperature,
                                      const std::vector<double> &moisture,
                                      const std::vector<double> &vapour)
{
  const Space &space = model.space;
  std::fill(diffusion.value.begin(), diffusion.value.end(), 0.);
  for (std::size_t w = 0; w < wet_cell.size(); ++w) {
    const unsigned c = wet_cell[w];
    const PieceModel &piece = model.wood(model.wood_at_middle(c));
    const double T = cell_mean(space.cell_node[c], temperature),
                 m = cell_mean(space.cell_node[c], moisture);
    const double across = piece.dry_density * materials::diffusion_across(piece.law->wood(), T, m);
    const double more =
        piece.dry_density * materials::diffusion_along(piece.law->wood(), T, m) - across;
    for (std::size_t ab = w * pairs_per_cell; ab < (w + 1) * pairs_per_cell; ++ab)
      diffusion.value[entry[ab]] += across * spread[ab] + more * along[ab];
  }
  for (const GluePoint &p : model.glue_point)
    if (p.lower >= 0)
      connect(p.upper, unsigned(p.lower), glue_conductance * p.weight);
  for (std::size_t k = 0; k < points.size(); ++k) {
    const SurfacePoint &p = points[k];
    conductance[k] = p.strength * vapour[k] *
                     materials::surface_emission(*p.coating.finish, p.coating.condition,
                                                 materials::reference_temperature, moisture[p.node],
                                                 p.coating.cloth);
    diffusion.at(p.node, p.node) += conductance[k];
  }
}

std::vector<double> MoistureSystem::load(const std::vector<double> &rest) const
{
  std::vector<double> result(size(), 0.);
  for (std::size_t k = 0; k < points.size(); ++k)
    result[points[k].node] += conductance[k] * rest[k];
  return result;
}

double MoistureSystem::inflow(const std::vector<double> &rest,
                              const std::vector<double> &moisture) const
{
  double sum = 0;
  for (std::size_t k = 0; k < points.size(); ++k)
    sum += conductance[k] * (rest[k] - moisture[points[k].node]);
  return sum;
}

double MoistureSystem::water(const std::vector<double> &moisture) const
{
  double sum = 0;
  for (unsigned n = 0; n < size(); ++n)
    sum += capacity[n] * moisture[n];
  return sum;
}
} // namespace overbend::solver
