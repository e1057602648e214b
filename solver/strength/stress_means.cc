// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/strength/stress_means.h"

#include <cmath>

namespace overbend::solver
{
namespace
{
// Coefficients of the trilinear nearest to values at the Gauss points. 1 and t are at right angles
// to each other there, so each is a sum of its own; the mean square of t is 1/3.
using PointWeights = std::array<Trilinear, points_per_cell>;
PointWeights nearest_trilinear()
{
  const double at[3] = {-std::sqrt(0.6), 0, std::sqrt(0.6)};
  const double share[3] = {5. / 18, 8. / 18, 5. / 18};
  PointWeights weight{};
  for (unsigned q = 0; q < points_per_cell; ++q) {
    const unsigned i = q % 3, j = q / 3 % 3, k = q / 9;
    const auto value = trilinear({at[i], at[j], at[k]});
    for (unsigned n = 0; n < n_trilinear; ++n)
      weight[q][n] = value[n] * share[i] * share[j] * share[k] * (n & 1 ? 3 : 1) * (n & 2 ? 3 : 1) *
                     (n & 4 ? 3 : 1);
  }
  return weight;
}

// The stress of each wood in each cell as a trilinear; of a part of a cell its mean.
using Coefficients = std::array<materials::Vector6, n_trilinear>;

Coefficients of_whole_cell(const MechanicsState &state, std::size_t first)
{
  static const PointWeights weight = nearest_trilinear();
  Coefficients c{};
  for (unsigned q = 0; q < points_per_cell; ++q)
    for (unsigned k = 0; k < n_trilinear; ++k)
      for (unsigned s = 0; s < 6; ++s)
        c[k][s] += weight[q][k] * state.wood[first + q].stress[s];
  return c;
}

Coefficients of_part(const Model &model, const MechanicsState &state, const WoodPart &part)
{
  const std::size_t first = std::size_t(part.cell) * points_per_cell;
  Coefficients c{};
  double volume = 0;
  for (std::size_t p = first; p < first + points_per_cell; ++p) {
    if (!is_same_wood(model, part.cell, part.point, p))
      continue;
    volume += model.space.jxw[p];
    for (unsigned s = 0; s < 6; ++s)
      c[0][s] += model.space.jxw[p] * state.wood[p].stress[s];
  }
  for (double &s : c[0])
    s /= volume;
  return c;
}
} // namespace

StressMeans::StressMeans(const Model &model) : boxes(make_stress_boxes(model)) {}

std::vector<materials::Vector6> StressMeans::stress(const Model &model,
                                                    const MechanicsState &state) const
{
  std::vector<Coefficients> coefficient;
  coefficient.reserve(boxes.part.size());
  for (const WoodPart &part : boxes.part)
    coefficient.push_back(part.whole
                              ? of_whole_cell(state, std::size_t(part.cell) * points_per_cell)
                              : of_part(model, state, part));
  std::vector<materials::Vector6> mean(boxes.box.size(), materials::Vector6{});
  for (std::size_t b = 0; b < mean.size(); ++b)
    for (unsigned n = boxes.term_from[b]; n < boxes.term_from[b + 1]; ++n)
      for (unsigned k = 0; k < n_trilinear; ++k)
        for (unsigned s = 0; s < 6; ++s)
          mean[b][s] += boxes.term[n].weight[k] * coefficient[boxes.term[n].part][k][s];
  return mean;
}

std::vector<materials::Use> StressMeans::use(const Model &model, const MechanicsState &state,
                                             const std::vector<double> &temperature,
                                             const std::vector<double> &moisture) const
{
  constexpr unsigned middle_node = 13;
  std::vector<materials::Strengths> strength;
  strength.reserve(boxes.part.size());
  for (const WoodPart &part : boxes.part) {
    const PieceModel &wood = model.wood(model.wood_at(part.cell, part.point));
    const unsigned middle = model.space.cell_node[part.cell][middle_node];
    strength.push_back(materials::strengths(wood.law->wood(), temperature[middle],
                                            moisture.empty() ? wood.moisture : moisture[middle]));
  }
  std::vector<materials::Use> all;
  all.reserve(boxes.box.size());
  const std::vector<materials::Vector6> mean = stress(model, state);
  for (std::size_t b = 0; b < mean.size(); ++b)
    all.push_back(materials::use_of_strength(mean[b], strength[boxes.box[b].part]));
  return all;
}
} // namespace overbend::solver
