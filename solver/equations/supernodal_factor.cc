// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/supernodal_factor.h"

#include "solver/equations/dense_blocks.h"
#include "solver/equations/second_thread.h"

#include <algorithm>

namespace overbend::solver
{
template <typename Real>
SupernodalFactor<Real>::SupernodalFactor(std::shared_ptr<const Supernodes> the_shape)
    : shape(std::move(the_shape)), left_over(shape->node.size())
{}

template <typename Real>
Real *SupernodalFactor<Real>::Stack::push(std::size_t n)
{
  if (data.size() < used + n)
    data.resize(std::max(used + n, 2 * data.size()));
  used += n;
  return data.data() + used - n;
}

template <typename Real>
bool SupernodalFactor<Real>::factorise(const SparseMatrix &matrix)
{
  value.assign(shape->n_values, Real(0));
  const std::uint32_t *place = shape->place.data();
  for (unsigned i = 0; i < matrix.size(); ++i)
    for (int k = matrix.row_start[i]; k < matrix.row_start[i + 1]; ++k) {
      if (matrix.column[k] > int(i))
        break; // columns ascend
      value[*place++] += Real(matrix.value[k]);
    }
  for (Stack &s : stack)
    s.used = 0;
  bool positive[2] = {};
  at_once([&] { positive[0] = factorise_nodes(shape->branch[0], stack[0], true); },
          [&] { positive[1] = factorise_nodes(shape->branch[1], stack[1], true); });
  return positive[0] && positive[1] && factorise_nodes(shape->top, stack[2], false);
}

// `tidy`: what is left over for a node lies on top of the stack and makes room once it is taken up.
template <typename Real>
bool SupernodalFactor<Real>::factorise_nodes(const std::vector<int> &nodes, Stack &own, bool tidy)
{
  for (const int s : nodes) {
    const Supernodes::Node &node = shape->node[s];
    const std::size_t n = std::size_t(node.n_below()) * node.n_below();
    std::size_t base = own.used;
    if (tidy && !shape->children[s].empty())
      base = left_over[shape->children[s].front()].at;
    Real *update = own.push(n);
    std::fill(update, update + n, Real(0));
    for (const int c : shape->children[s])
      take_up(node, shape->node[c], left_over[c].stack->data.data() + left_over[c].at, update);
    const BlockSize size{node.n_rows, node.n_columns};
    Real *const block = &value[node.values_at];
    if (!factorise_block(size, block))
      return false;
    if (n > 0)
      subtract_square(size, block, update);
    if (tidy && base + n < own.used) {
      std::copy(update, update + n, own.data.data() + base);
      own.used = base + n;
    }
    left_over[s] = {&own, own.used - n};
  }
  return true;
}

// Adds what a child left over to its parent's block and to what that leaves over.
template <typename Real>
void SupernodalFactor<Real>::take_up(const Supernodes::Node &parent, const Supernodes::Node &child,
                                     const Real *left, Real *update)
{
  const int n = child.n_below(), below = parent.n_below();
  const int *const rows = &shape->row[child.rows_at] + child.n_columns;
  const int *const rows_of_parent = &shape->row[parent.rows_at];
  std::vector<int> place(n);
  for (int i = 0, p = 0; i < n; ++i) {
    while (rows_of_parent[p] != rows[i])
      ++p;
    place[i] = p;
  }
  Real *const block = &value[parent.values_at];
  for (int j = 0; j < n; ++j) {
    const Real *const from = left + std::size_t(j) * n;
    const bool own = place[j] < parent.n_columns;
    const int first = own ? 0 : parent.n_columns; // place of the first row that `to` has
    Real *const to = own ? block + std::size_t(place[j]) * parent.n_rows
                         : update + std::size_t(place[j] - first) * below;
    for (int i = j; i < n; ++i)
      to[place[i] - first] += from[i];
  }
}

// `above` takes what belongs to rows of the top.
template <typename Real>
void SupernodalFactor<Real>::forward(const std::vector<int> &nodes, Columns &x,
                                     Columns &to_top) const
{
  std::vector<Real> update;
  for (const int s : nodes) {
    const Supernodes::Node &node = shape->node[s];
    const int *const rows = &shape->row[node.rows_at] + node.n_columns;
    const int inside = std::max(node.n_inside - node.n_columns, 0);
    update.resize(std::max<std::size_t>(update.size(), node.n_below()));
    for (std::size_t k = 0; k < x.size(); ++k) {
      std::fill_n(update.begin(), node.n_below(), Real(0));
      sweep_forward({node.n_rows, node.n_columns}, &value[node.values_at], &x[k][node.first],
                    update.data());
      for (int i = 0; i < inside; ++i)
        x[k][rows[i]] += update[i];
      for (int i = inside; i < node.n_below(); ++i)
        to_top[k][rows[i]] += update[i];
    }
  }
}

template <typename Real>
void SupernodalFactor<Real>::backward(const std::vector<int> &nodes, Columns &x) const
{
  std::vector<Real> known;
  for (auto s = nodes.rbegin(); s != nodes.rend(); ++s) {
    const Supernodes::Node &node = shape->node[*s];
    const int *const rows = &shape->row[node.rows_at] + node.n_columns;
    known.resize(std::max<std::size_t>(known.size(), node.n_below()));
    for (auto &column : x) {
      for (int i = 0; i < node.n_below(); ++i)
        known[i] = column[rows[i]];
      sweep_backward({node.n_rows, node.n_columns}, &value[node.values_at], &column[node.first],
                     known.data());
    }
  }
}

template <typename Real>
void SupernodalFactor<Real>::solve(std::vector<std::vector<double>> &x)
{
  const std::vector<int> &order = shape->order;
  for (Columns *columns : {&right, &above[0], &above[1]}) {
    columns->resize(x.size());
    for (auto &column : *columns)
      column.assign(order.size(), Real(0));
  }
  for (std::size_t k = 0; k < x.size(); ++k)
    for (std::size_t i = 0; i < order.size(); ++i)
      right[k][i] = Real(x[k][order[i]]);

  at_once([&] { forward(shape->branch[0], right, above[0]); },
          [&] { forward(shape->branch[1], right, above[1]); });
  for (std::size_t k = 0; k < x.size(); ++k)
    for (const int i : shape->top_row)
      right[k][i] += above[0][k][i] + above[1][k][i];
  forward(shape->top, right, above[0]);
  backward(shape->top, right);
  at_once([&] { backward(shape->branch[0], right); }, [&] { backward(shape->branch[1], right); });

  for (std::size_t k = 0; k < x.size(); ++k)
    for (std::size_t i = 0; i < order.size(); ++i)
      x[k][order[i]] = right[k][i];
}

template class SupernodalFactor<float>;
template class SupernodalFactor<double>;
} // namespace overbend::solver
