// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/factor_sweep.h"

#include "solver/equations/parallel.h"

#include <cholmod.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <thread>

// BLAS by its Fortran names: those for C are found first in the slow copy that the GNU Scientific
// Library has of them, and deal.II brings that library along.
extern "C" {
void strsv_(const char *part, const char *transposed, const char *diagonal, const int *n,
            const float *a, const int *column_distance, float *x, const int *distance);
void sgemv_(const char *transposed, const int *n_rows, const int *n_columns, const float *alpha,
            const float *a, const int *column_distance, const float *x, const int *distance_x,
            const float *beta, float *y, const int *distance_y);
}

namespace overbend::solver
{
namespace
{
constexpr double balanced = 0.04;    // share of the work by which the threads may differ
constexpr double largest_top = 0.15; // share of the work that may be left to one thread
const int one = 1;

// Runs work(0) and work(1) at once.
template <typename Work>
void on_two_threads(const Work &work)
{
  if (on_one_thread()) {
    work(1);
    work(0);
    return;
  }
  std::thread other([&] { work(1); });
  work(0);
  other.join();
}
} // namespace

// The parent of a supernode holds the first row below its triangle, and comes after it.
struct FactorSweep::Tree
{
  std::vector<int> parent; // -1: none
  std::vector<double> work, work_of_branch;
  double all = 0;

  Tree(const std::vector<Supernode> &nodes, const std::vector<int> &row)
  {
    std::vector<int> node_of_column;
    for (std::size_t s = 0; s < nodes.size(); ++s) {
      node_of_column.insert(node_of_column.end(), nodes[s].n_columns, int(s));
      work.push_back(double(nodes[s].n_columns) * nodes[s].n_rows);
      all += work.back();
    }
    work_of_branch = work;
    for (std::size_t s = 0; s < nodes.size(); ++s) {
      const bool has_parent = nodes[s].n_below() > 0;
      parent.push_back(has_parent ? node_of_column[row[nodes[s].rows_at + nodes[s].n_columns]]
                                  : -1);
      if (has_parent)
        work_of_branch[parent[s]] += work_of_branch[s];
    }
  }

  std::vector<int> children(int s) const
  {
    std::vector<int> found;
    for (std::size_t c = 0; c < parent.size(); ++c)
      if (parent[c] == s)
        found.push_back(int(c));
    return found;
  }

  // Gives each branch, heaviest first, to the thread that has less so far. Returns the difference.
  double share_out(std::vector<int> &roots, std::vector<int> &thread_of_root) const
  {
    std::stable_sort(roots.begin(), roots.end(),
                     [&](int a, int b) { return work_of_branch[a] > work_of_branch[b]; });
    std::array<double, 2> load{};
    thread_of_root.clear();
    for (const int root : roots) {
      const int thread = load[1] < load[0];
      load[thread] += work_of_branch[root];
      thread_of_root.push_back(thread);
    }
    return std::abs(load[0] - load[1]);
  }
};

FactorSweep::FactorSweep(const cholmod_factor &factor)
{
  const auto *const super = static_cast<const int *>(factor.super);
  const auto *const rows_at = static_cast<const int *>(factor.pi);
  const auto *const values_at = static_cast<const int *>(factor.px);
  const auto *const rows = static_cast<const int *>(factor.s);
  const auto *const permutation = static_cast<const int *>(factor.Perm);
  for (std::size_t s = 0; s < factor.nsuper; ++s)
    supernode.push_back({super[s], super[s + 1] - super[s], rows_at[s + 1] - rows_at[s],
                         std::size_t(rows_at[s]), std::size_t(values_at[s])});
  row.assign(rows, rows + factor.ssize);
  order.assign(permutation, permutation + factor.n);
  divide(Tree(supernode, row));
}

void FactorSweep::take_values(const cholmod_factor &factor)
{
  const auto *const values = static_cast<const double *>(factor.x);
  value.assign(values, values + factor.xsize);
}

// Cuts the heaviest branch below its root until the threads have equal work.
void FactorSweep::divide(const Tree &tree)
{
  std::vector<int> roots = tree.children(-1), thread_of_root;
  std::vector<char> is_top(supernode.size(), 0);
  double work_of_top = 0;
  while (tree.share_out(roots, thread_of_root) > balanced * tree.all) {
    const int heaviest = roots.front();
    work_of_top += tree.work[heaviest];
    const std::vector<int> below = tree.children(heaviest);
    if (below.empty() || work_of_top > largest_top * tree.all)
      break;
    is_top[heaviest] = 1;
    roots.erase(roots.begin());
    roots.insert(roots.end(), below.begin(), below.end());
  }

  std::vector<int> thread(supernode.size(), -1);
  for (std::size_t k = 0; k < roots.size(); ++k)
    thread[roots[k]] = thread_of_root[k];
  for (std::size_t s = supernode.size(); s-- > 0;)
    if (!is_top[s] && thread[s] < 0)
      thread[s] = thread[tree.parent[s]];
  for (std::size_t s = 0; s < supernode.size(); ++s)
    (is_top[s] ? top : branch[thread[s]]).push_back(int(s));
  count_rows_inside(is_top);
}

void FactorSweep::count_rows_inside(const std::vector<char> &is_top)
{
  std::vector<char> row_is_top(order.size(), 0);
  for (const int s : top)
    for (int i = 0; i < supernode[s].n_columns; ++i) {
      row_is_top[supernode[s].first + i] = 1;
      top_row.push_back(supernode[s].first + i);
    }
  // The rows of a supernode lie on its way to the root, so those of its branch come first.
  for (std::size_t s = 0; s < supernode.size(); ++s) {
    Supernode &node = supernode[s];
    const int *const rows = &row[node.rows_at];
    node.n_inside =
        is_top[s]
            ? node.n_rows
            : int(std::count_if(rows, rows + node.n_rows, [&](int i) { return !row_is_top[i]; }));
  }
}

void FactorSweep::solve_triangle(const Supernode &node, const char *transposed, float *x) const
{
  strsv_("L", transposed, "N", &node.n_columns, &value[node.values_at], &node.n_rows, x, &one);
}

// `above` takes what belongs to rows of the top.
void FactorSweep::forward(const std::vector<int> &nodes, Columns &x, Columns &above) const
{
  const float unit = 1, zero = 0;
  std::vector<float> update;
  for (const int s : nodes) {
    const Supernode &node = supernode[s];
    const int below = node.n_below();
    const int *const rows = &row[node.rows_at] + node.n_columns;
    update.resize(std::max<std::size_t>(update.size(), below));
    for (std::size_t k = 0; k < x.size(); ++k) {
      float *const own = &x[k][node.first];
      solve_triangle(node, "N", own);
      if (below == 0)
        continue;
      sgemv_("N", &below, &node.n_columns, &unit, &value[node.values_at] + node.n_columns,
             &node.n_rows, own, &one, &zero, update.data(), &one);
      const int inside = node.n_inside - node.n_columns;
      for (int i = 0; i < inside; ++i)
        x[k][rows[i]] -= update[i];
      for (int i = std::max(inside, 0); i < below; ++i)
        above[k][rows[i]] -= update[i];
    }
  }
}

void FactorSweep::backward(const std::vector<int> &nodes, Columns &x) const
{
  const float unit = 1, minus = -1;
  std::vector<float> known;
  for (auto s = nodes.rbegin(); s != nodes.rend(); ++s) {
    const Supernode &node = supernode[*s];
    const int below = node.n_below();
    const int *const rows = &row[node.rows_at] + node.n_columns;
    known.resize(std::max<std::size_t>(known.size(), below));
    for (auto &column : x) {
      for (int i = 0; i < below; ++i)
        known[i] = column[rows[i]];
      if (below > 0)
        sgemv_("T", &below, &node.n_columns, &minus, &value[node.values_at] + node.n_columns,
               &node.n_rows, known.data(), &one, &unit, &column[node.first], &one);
      solve_triangle(node, "T", &column[node.first]);
    }
  }
}

void FactorSweep::solve(std::vector<std::vector<double>> &x) const
{
  Columns y(x.size(), std::vector<float>(order.size()));
  for (std::size_t k = 0; k < x.size(); ++k)
    for (std::size_t i = 0; i < order.size(); ++i)
      y[k][i] = float(x[k][order[i]]);

  Columns above[2];
  above[0] = above[1] = Columns(x.size(), std::vector<float>(order.size(), 0.f));
  on_two_threads([&](int thread) { forward(branch[thread], y, above[thread]); });
  for (std::size_t k = 0; k < y.size(); ++k)
    for (const int i : top_row)
      y[k][i] += above[0][k][i] + above[1][k][i];
  forward(top, y, above[0]);
  backward(top, y);
  on_two_threads([&](int thread) { backward(branch[thread], y); });

  for (std::size_t k = 0; k < x.size(); ++k)
    for (std::size_t i = 0; i < order.size(); ++i)
      x[k][order[i]] = y[k][i];
}
} // namespace overbend::solver
