// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/supernodes.h"

#include <cholmod.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <list>
#include <mutex>
#include <new>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
constexpr double balanced = 0.04;    // share of the work by which the threads may differ
constexpr double largest_top = 0.25; // share of the work that may be left to one thread

// Operations of a node's dense factorisation.
double work_of(const Supernodes::Node &n)
{
  const double c = n.n_columns, r = n.n_rows;
  return c * r * r - c * c * r + c * c * c / 3;
}

// CHOLMOD with what it needs to hand over a factor's shape.
class Analysis
{
public:
  explicit Analysis(const SparseMatrix &matrix)
  {
    cholmod_start(&common);
    common.supernodal = CHOLMOD_SUPERNODAL;
    common.print = 0;
    // Nested dissection: a neck falls into halves that two threads share evenly, where minimum
    // degree leaves a fifth of the work to one (measured on 14,000 unknowns: the longer branch and
    // the top together are 0.48 of 0.89 Gflop against 0.60 of 0.80).
    common.nmethods = 1;
    common.method[0].ordering = CHOLMOD_METIS;
    common.postorder = 1;
    copy_triangle(matrix);
    cholmod_sparse a = view();
    factor = cholmod_analyze(&a, &common);
    // Our patterns are sound. A METIS that found no memory comes back as an invalid matrix.
    if (factor == nullptr || common.status < 0)
      throw std::bad_alloc();
  }
  ~Analysis()
  {
    cholmod_free_factor(&factor, &common);
    cholmod_finish(&common);
  }
  Analysis(const Analysis &) = delete;
  Analysis &operator=(const Analysis &) = delete;

  cholmod_factor *factor = nullptr;

private:
  void copy_triangle(const SparseMatrix &matrix)
  {
    start.assign(1, 0);
    for (unsigned i = 0; i < matrix.size(); ++i) {
      for (int k = matrix.row_start[i]; k < matrix.row_start[i + 1]; ++k)
        if (matrix.column[k] <= static_cast<int>(i))
          row.push_back(matrix.column[k]);
      start.push_back(int(row.size()));
    }
  }

  cholmod_sparse view()
  {
    cholmod_sparse a{};
    a.nrow = a.ncol = start.size() - 1;
    a.nzmax = row.size();
    a.p = start.data();
    a.i = row.data();
    a.stype = 1; // symmetric, upper triangle given
    a.itype = CHOLMOD_INT;
    a.xtype = CHOLMOD_PATTERN;
    a.sorted = a.packed = 1;
    return a;
  }

  cholmod_common common{};
  std::vector<int> start, row; // lower triangle by rows = upper triangle by columns
};

// Gives each branch, heaviest first, to the thread that has less so far. Returns the difference.
double share_out(const std::vector<double> &work, std::vector<int> &roots,
                 std::vector<int> &thread_of_root)
{
  std::stable_sort(roots.begin(), roots.end(), [&](int a, int b) { return work[a] > work[b]; });
  std::array<double, 2> load{};
  thread_of_root.clear();
  for (const int root : roots) {
    const int thread = load[1] < load[0];
    load[thread] += work[root];
    thread_of_root.push_back(thread);
  }
  return std::abs(load[0] - load[1]);
}
} // namespace

std::shared_ptr<const Supernodes> supernodes_of(const SparseMatrix &matrix)
{
  struct Known
  {
    std::vector<int> row_start, column;
    std::shared_ptr<const Supernodes> shape;
  };
  constexpr std::size_t most_known = 6;
  static std::mutex in_use;
  static std::list<Known> known; // latest first
  const std::lock_guard<std::mutex> lock(in_use);
  for (auto k = known.begin(); k != known.end(); ++k)
    if (k->row_start == matrix.row_start && k->column == matrix.column) {
      known.splice(known.begin(), known, k);
      return k->shape;
    }
  known.push_front({matrix.row_start, matrix.column, std::make_shared<Supernodes>(matrix)});
  if (known.size() > most_known)
    known.pop_back();
  return known.front().shape;
}

Supernodes::Supernodes(const SparseMatrix &matrix)
{
  analyse(matrix);
  make_tree();
  divide();
  place_entries(matrix);
}

void Supernodes::analyse(const SparseMatrix &matrix)
{
  const Analysis analysis(matrix);
  const cholmod_factor &factor = *analysis.factor;
  const auto *const super = static_cast<const int *>(factor.super);
  const auto *const rows_at = static_cast<const int *>(factor.pi);
  const auto *const values_at = static_cast<const int *>(factor.px);
  const auto *const rows = static_cast<const int *>(factor.s);
  const auto *const permutation = static_cast<const int *>(factor.Perm);
  for (std::size_t s = 0; s < factor.nsuper; ++s)
    node.push_back({super[s], super[s + 1] - super[s], rows_at[s + 1] - rows_at[s],
                    std::size_t(rows_at[s]), std::size_t(values_at[s])});
  row.assign(rows, rows + factor.ssize);
  order.assign(permutation, permutation + factor.n);
  n_values = factor.xsize;
}

void Supernodes::make_tree()
{
  std::vector<int> node_of_column;
  for (std::size_t s = 0; s < node.size(); ++s)
    node_of_column.insert(node_of_column.end(), node[s].n_columns, int(s));
  children.resize(node.size());
  for (std::size_t s = 0; s < node.size(); ++s)
    if (node[s].n_below() > 0) {
      node[s].parent = node_of_column[row[node[s].rows_at + node[s].n_columns]];
      children[node[s].parent].push_back(int(s));
    }
}

// Cuts the heaviest branch below its root until the threads have equal work.
void Supernodes::divide()
{
  std::vector<double> work; // of a node and all below it
  double all = 0;
  for (const Node &n : node) {
    work.push_back(work_of(n));
    all += work.back();
  }
  std::vector<int> roots, thread_of_root;
  for (std::size_t s = 0; s < node.size(); ++s)
    if (node[s].parent >= 0)
      work[node[s].parent] += work[s];
    else
      roots.push_back(int(s));

  std::vector<char> is_top(node.size(), 0);
  double work_of_top = 0;
  while (share_out(work, roots, thread_of_root) > balanced * all) {
    const int heaviest = roots.front();
    work_of_top += work_of(node[heaviest]);
    const std::vector<int> &below = children[heaviest];
    if (below.empty() || work_of_top > largest_top * all)
      break;
    is_top[heaviest] = 1;
    roots.erase(roots.begin());
    roots.insert(roots.end(), below.begin(), below.end());
  }
  std::vector<int> thread(node.size(), -1);
  for (std::size_t k = 0; k < roots.size(); ++k)
    thread[roots[k]] = thread_of_root[k];
  for (std::size_t s = node.size(); s-- > 0;)
    if (!is_top[s] && thread[s] < 0)
      thread[s] = thread[node[s].parent];
  for (std::size_t s = 0; s < node.size(); ++s)
    (is_top[s] ? top : branch[thread[s]]).push_back(int(s));
  count_rows_inside(is_top);
}

void Supernodes::count_rows_inside(const std::vector<char> &is_top)
{
  std::vector<char> row_is_top(order.size(), 0);
  for (const int s : top)
    for (int i = 0; i < node[s].n_columns; ++i) {
      row_is_top[node[s].first + i] = 1;
      top_row.push_back(node[s].first + i);
    }
  // The rows of a supernode lie on its way to the root, so those of its branch come first.
  for (std::size_t s = 0; s < node.size(); ++s) {
    Node &n = node[s];
    const int *const rows = &row[n.rows_at];
    n.n_inside = is_top[s] ? n.n_rows : int(std::count_if(rows, rows + n.n_rows, [&](int i) {
      return !row_is_top[i];
    }));
  }
}

void Supernodes::place_entries(const SparseMatrix &matrix)
{
  if (n_values > std::numeric_limits<std::uint32_t>::max())
    throw std::runtime_error("The equation solver failed: the factor is too large");
  std::vector<int> node_of_column(order.size()), place_of_unknown(order.size());
  for (std::size_t i = 0; i < order.size(); ++i)
    place_of_unknown[order[i]] = int(i);
  for (std::size_t s = 0; s < node.size(); ++s)
    std::fill_n(node_of_column.begin() + node[s].first, node[s].n_columns, int(s));
  place.reserve(matrix.column.size() / 2 + order.size());
  for (unsigned i = 0; i < matrix.size(); ++i)
    for (int k = matrix.row_start[i]; k < matrix.row_start[i + 1]; ++k) {
      if (matrix.column[k] > int(i))
        break; // columns ascend
      const int a = place_of_unknown[i], b = place_of_unknown[matrix.column[k]];
      const Node &n = node[node_of_column[std::min(a, b)]];
      const int *const rows = &row[n.rows_at];
      const auto at = std::lower_bound(rows, rows + n.n_rows, std::max(a, b)) - rows;
      place.push_back(
          std::uint32_t(n.values_at + at + std::size_t(std::min(a, b) - n.first) * n.n_rows));
    }
}
} // namespace overbend::solver
