// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/bench/board_lines.h"

#include "solver/model/sampling.h"

#include <cmath>

namespace overbend::solver
{
namespace
{
Row vertical(const Sample &sample)
{
  Row row;
  for (std::size_t k = 0; k < sample.node.size(); ++k)
    row.emplace_back(3 * sample.node[k] + 2, sample.weight[k]);
  return row;
}

void append(Row &row, const Row &part, double factor)
{
  for (const auto &[index, coefficient] : part)
    row.emplace_back(index, factor * coefficient);
}
} // namespace

BoardLines::BoardLines(const cases::Case &the_case, const mesh::NeckMesh &mesh, const Model &model)
{
  const mesh::ReadingLine *source[3] = {&mesh.bass, &mesh.centre, &mesh.treble};
  const int a = the_case.found.rest_fret_a, b = the_case.found.rest_fret_b;
  const int fret = the_case.found.bow_fret;
  for (unsigned k = 0; k < 3; ++k) {
    for (const auto &p : source[k]->at_fret) {
      line[k].x.push_back(p[0]);
      line[k].y.push_back(p[1]);
      line[k].height.push_back(
          vertical(find_on_face(model.space, unsigned(mesh::Face::board_top), p[0], p[1])));
    }
    const auto &x = line[k].x;
    const double share = (x[fret] - x[a]) / (x[b] - x[a]);
    append(bow_row[k], line[k].height[a], 1 - share);
    append(bow_row[k], line[k].height[b], share);
    append(bow_row[k], line[k].height[fret], -1);
  }
  append(twist_row, line[2].height[a], 1 / distance_across(a));
  append(twist_row, line[0].height[a], -1 / distance_across(a));
  append(twist_row, line[2].height[b], -1 / distance_across(b));
  append(twist_row, line[0].height[b], 1 / distance_across(b));
}

double BoardLines::distance_across(int fret) const
{
  return line[2].y[fret] - line[0].y[fret];
}

BoardShape BoardLines::shape(const std::vector<double> &displacement) const
{
  BoardShape result;
  SampledLine *target[3] = {&result.bass, &result.centre, &result.treble};
  for (unsigned k = 0; k < 3; ++k) {
    target[k]->x = line[k].x;
    for (const Row &row : line[k].height)
      target[k]->z.push_back(evaluate(row, displacement));
  }
  return result;
}
} // namespace overbend::solver
