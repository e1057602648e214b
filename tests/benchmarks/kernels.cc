// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/read_case.h"
#include "materials/tables.h"
#include "mesh/make_neck_mesh.h"
#include "solver/equations/direct_solver.h"
#include "solver/model/build_model.h"
#include "solver/model/elasticity_kernel.h"
#include "solver/model/wood_axes.h"

#include <benchmark/benchmark.h>
#include <deal.II/base/multithread_info.h>
#include <deal.II/dofs/dof_handler.h>
#include <deal.II/fe/fe_q.h>
#include <deal.II/fe/fe_system.h>
#include <deal.II/fe/mapping_q_cache.h>
#include <deal.II/lac/affine_constraints.h>
#include <deal.II/lac/dynamic_sparsity_pattern.h>
#include <deal.II/lac/precondition.h>
#include <deal.II/lac/solver_cg.h>
#include <deal.II/lac/sparse_direct.h>
#include <deal.II/lac/sparse_matrix.h>
#include <deal.II/matrix_free/fe_evaluation.h>
#include <deal.II/matrix_free/matrix_free.h>

#include <memory>

// Own kernels beside deal.II's, on the mesh of a shipped case: the operator of one iteration, and
// factorising and solving. Both in one run, so that the ratio is what counts:
//
//   kernels --benchmark_repetitions=5 --benchmark_report_aggregates_only=true
//
// OVERBEND_BENCH_CASE names the case (demonstration), OVERBEND_BENCH_RESOLUTION the mesh (1).
namespace
{
using namespace overbend;
using Lanes = dealii::VectorizedArray<double>;
constexpr double held = 1e12; // N/m, of the body's face: nothing else holds the neck

std::string from_environment(const char *name, const char *otherwise)
{
  const char *const set = std::getenv(name);
  return set != nullptr ? set : otherwise;
}

// The neck with the stiffness of its woods at the state of the tables.
struct Neck
{
  cases::Case c =
      cases::read_case(from_environment("OVERBEND_BENCH_CASE", "cases/demonstration.toml"));
  mesh::NeckMesh mesh =
      mesh::make_neck_mesh(c.neck, std::stod(from_environment("OVERBEND_BENCH_RESOLUTION", "1")));
  solver::Model model = solver::build_model(c, mesh, materials::tables(), {});
  std::vector<solver::Stiffness> stiffness;
  std::vector<double> x, y;

  Neck()
  {
    const double T = materials::reference_temperature, m = materials::reference_moisture;
    for (unsigned cell = 0; cell < model.space.n_cells; ++cell)
      for (std::size_t p = 0; p < solver::points_per_cell; ++p) {
        const unsigned at = cell * solver::points_per_cell + unsigned(p);
        const auto &law = *model.wood(model.wood_at(cell, at)).law;
        const auto step = law.prepare(T, T, 0, m);
        stiffness.push_back(solver::to_model_axes(solver::strain_map(model.grain(cell)),
                                                  solver::inverse(law.tangent(step, 0))));
      }
    for (unsigned i = 0; i < model.n_unknowns(); ++i)
      x.push_back(1e-3 * std::sin(0.1 * i));
    y.resize(x.size());
  }
};

const Neck &neck()
{
  static const Neck made;
  return made;
}

// The same operator with the library's loop over cells and its evaluators.
class LibraryOperator
{
public:
  LibraryOperator() : element(dealii::FE_Q<3>(2), 3), dofs(*neck().mesh.triangulation)
  {
    dofs.distribute_dofs(element);
    none.close();
    dealii::MatrixFree<3, double>::AdditionalData how;
    how.tasks_parallel_scheme = dealii::MatrixFree<3, double>::AdditionalData::none;
    how.mapping_update_flags = dealii::update_gradients | dealii::update_JxW_values;
    data.reinit(*neck().mesh.mapping, dofs, none, dealii::QGauss<1>(3), how);
    data.initialize_dof_vector(x);
    data.initialize_dof_vector(y);
    for (unsigned i = 0; i < x.size(); ++i)
      x[i] = 1e-3 * std::sin(0.1 * i);
    gather_stiffness();
  }

  void apply() { data.cell_loop(&LibraryOperator::cells, this, y, x, true); }

private:
  using Vector = dealii::LinearAlgebra::distributed::Vector<double>;
  using Evaluation = dealii::FEEvaluation<3, 2, 3, 3, double>;

  void gather_stiffness()
  {
    stiffness.resize(data.n_cell_batches() * solver::points_per_cell);
    for (unsigned batch = 0; batch < data.n_cell_batches(); ++batch)
      for (unsigned lane = 0; lane < data.n_active_entries_per_cell_batch(batch); ++lane) {
        const unsigned cell = data.get_cell_iterator(batch, lane)->active_cell_index();
        for (unsigned q = 0; q < solver::points_per_cell; ++q)
          for (unsigned k = 0; k < 21; ++k)
            stiffness[batch * solver::points_per_cell + q][k][lane] =
                neck().stiffness[cell * solver::points_per_cell + q][k];
      }
  }

  void cells(const dealii::MatrixFree<3, double> &of, Vector &to, const Vector &from,
             const std::pair<unsigned, unsigned> &range) const
  {
    Evaluation values(of);
    for (unsigned batch = range.first; batch < range.second; ++batch) {
      values.reinit(batch);
      values.gather_evaluate(from, dealii::EvaluationFlags::gradients);
      for (unsigned q = 0; q < solver::points_per_cell; ++q)
        values.submit_symmetric_gradient(stress(stiffness[batch * solver::points_per_cell + q],
                                                values.get_symmetric_gradient(q)),
                                         q);
      values.integrate_scatter(dealii::EvaluationFlags::gradients, to);
    }
  }

  static dealii::SymmetricTensor<2, 3, Lanes> stress(const std::array<Lanes, 21> &k,
                                                     const dealii::SymmetricTensor<2, 3, Lanes> &e)
  {
    static constexpr unsigned row[6] = {0, 0, 0, 1, 0, 0}, column[6] = {0, 1, 2, 2, 2, 1};
    Lanes strain[6] = {e[0][0], e[1][1], e[2][2], 2. * e[1][2], 2. * e[0][2], 2. * e[0][1]};
    dealii::SymmetricTensor<2, 3, Lanes> result;
    for (unsigned i = 0; i < 6; ++i) {
      Lanes sum = 0.;
      for (unsigned j = 0; j < 6; ++j) {
        const unsigned a = std::min(i, j), b = std::max(i, j);
        sum += k[a * 6 - a * (a + 1) / 2 + b] * strain[j];
      }
      result[i < 3 ? i : row[i]][i < 3 ? i : column[i]] = sum;
    }
    return result;
  }

  dealii::FESystem<3> element;
  dealii::DoFHandler<3> dofs;
  dealii::AffineConstraints<double> none;
  dealii::MatrixFree<3, double> data;
  std::vector<std::array<Lanes, 21>> stiffness;
  Vector x, y;
};

// Cold glue, 1 GPa over 0.1 mm, alike in all directions.
void add_glue(solver::SparseMatrix &m)
{
  for (const solver::GluePoint &p : neck().model.glue_point)
    for (unsigned i = 0; i < 3; ++i) {
      const double k = 1e13 * p.weight;
      const unsigned upper = 3 * p.upper + i;
      m.at(upper, upper) += k;
      if (p.lower < 0)
        continue;
      const unsigned lower = 3 * unsigned(p.lower) + i;
      m.at(lower, lower) += k;
      m.at(upper, lower) -= k;
      m.at(lower, upper) -= k;
    }
}

// The assembled matrix, with the body's face held.
const solver::SparseMatrix &matrix()
{
  static const solver::SparseMatrix made = [] {
    const solver::Space &space = neck().model.space;
    solver::PatternBuilder pattern(neck().model.n_unknowns());
    for (const auto &nodes : space.cell_node) {
      std::vector<unsigned> group;
      for (const unsigned n : nodes)
        group.insert(group.end(), {3 * n, 3 * n + 1, 3 * n + 2});
      pattern.add_group(group);
    }
    for (const solver::GluePoint &p : neck().model.glue_point)
      for (unsigned i = 0; i < 3 && p.lower >= 0; ++i)
        pattern.add_group({3 * p.upper + i, 3 * unsigned(p.lower) + i});
    pattern.add_group({neck().model.tip_dof()});
    solver::SparseMatrix m = pattern.build();
    auto element = std::make_unique<solver::ElementMatrix>();
    for (unsigned c = 0; c < space.n_cells; ++c) {
      element_matrix(space, neck().stiffness, c, *element);
      for (unsigned a = 0; a < 81; ++a)
        for (unsigned b = 0; b < 81; ++b)
          m.at(3 * space.cell_node[c][a / 3] + a % 3, 3 * space.cell_node[c][b / 3] + b % 3) +=
              (*element)[81 * a + b];
    }
    add_glue(m);
    // Nothing but the body's pads holds its tipping.
    m.at(neck().model.tip_dof(), neck().model.tip_dof()) = 1;
    for (const auto &[id, faces] : space.boundary)
      if (id == unsigned(mesh::Face::body))
        for (const solver::BoundaryFace &face : faces)
          for (const unsigned n : face.node)
            for (unsigned i = 0; i < 3; ++i)
              m.at(3 * n + i, 3 * n + i) += held;
    return m;
  }();
  return made;
}

struct LibraryMatrix
{
  dealii::SparsityPattern pattern;
  dealii::SparseMatrix<double> values;

  LibraryMatrix()
  {
    const solver::SparseMatrix &m = matrix();
    dealii::DynamicSparsityPattern entries(m.size());
    for (unsigned i = 0; i < m.size(); ++i)
      for (int k = m.row_start[i]; k < m.row_start[i + 1]; ++k)
        entries.add(i, unsigned(m.column[std::size_t(k)]));
    pattern.copy_from(entries);
    values.reinit(pattern);
    for (unsigned i = 0; i < m.size(); ++i)
      for (int k = m.row_start[i]; k < m.row_start[i + 1]; ++k)
        values.set(i, unsigned(m.column[std::size_t(k)]), m.value[std::size_t(k)]);
  }
};

const LibraryMatrix &library_matrix()
{
  static const LibraryMatrix made;
  return made;
}

void own_operator(benchmark::State &state)
{
  std::vector<double> y(neck().x.size());
  for (auto _ : state) {
    std::fill(y.begin(), y.end(), 0.);
    add_stiffness_times(neck().model.space, neck().stiffness, neck().x, y);
    benchmark::DoNotOptimize(y.data());
  }
  state.counters["unknowns"] = double(y.size());
}
BENCHMARK(own_operator)->Unit(benchmark::kMillisecond);

void library_evaluators(benchmark::State &state)
{
  static LibraryOperator of_library;
  for (auto _ : state)
    of_library.apply();
  state.counters["lanes"] = double(Lanes::size());
}
BENCHMARK(library_evaluators)->Unit(benchmark::kMillisecond);

void library_sparse_matrix(benchmark::State &state)
{
  const auto &m = library_matrix().values;
  dealii::Vector<double> x(m.n()), y(m.n());
  x = 1e-3;
  for (auto _ : state)
    m.vmult(y, x);
}
BENCHMARK(library_sparse_matrix)->Unit(benchmark::kMillisecond);

void own_factor(benchmark::State &state, solver::Digits digits)
{
  solver::Factor factor(digits);
  factor.factorise(matrix()); // finds the ordering, once
  for (auto _ : state)
    factor.factorise(matrix());
}
BENCHMARK_CAPTURE(own_factor, double_precision, solver::Digits::all)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(own_factor, single_precision, solver::Digits::some)
    ->Unit(benchmark::kMillisecond);

void library_factor(benchmark::State &state)
{
  const auto &m = library_matrix().values;
  for (auto _ : state) {
    dealii::SparseDirectUMFPACK factor;
    factor.factorize(m);
  }
}
BENCHMARK(library_factor)->Unit(benchmark::kMillisecond);

void own_sweep(benchmark::State &state, solver::Digits digits)
{
  solver::Factor factor(digits);
  factor.factorise(matrix());
  std::vector<std::vector<double>> x{neck().x};
  for (auto _ : state)
    factor.precondition(x);
}
BENCHMARK_CAPTURE(own_sweep, double_precision, solver::Digits::all)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(own_sweep, single_precision, solver::Digits::some)->Unit(benchmark::kMillisecond);

void library_sweep(benchmark::State &state)
{
  dealii::SparseDirectUMFPACK factor;
  factor.factorize(library_matrix().values);
  dealii::Vector<double> x(matrix().size());
  x = 1e-3;
  for (auto _ : state)
    factor.solve(x);
}
BENCHMARK(library_sweep)->Unit(benchmark::kMillisecond);

// Conjugate gradients of the library with the preconditioner that it has for such a matrix, to the
// eight digits of a step.
void library_conjugate_gradients(benchmark::State &state)
{
  const auto &m = library_matrix().values;
  dealii::Vector<double> b(m.n()), x(m.n());
  b = 1;
  constexpr unsigned most = 1000;
  unsigned iterations = 0;
  for (auto _ : state) {
    dealii::SolverControl control(most, 3e-8 * b.l2_norm());
    dealii::SolverCG<dealii::Vector<double>> solver(control);
    dealii::PreconditionSSOR<dealii::SparseMatrix<double>> precondition;
    precondition.initialize(m, 1.2);
    x = 0;
    try {
      solver.solve(m, x, b, precondition);
    } catch (const dealii::SolverControl::NoConvergence &) {
      state.SetLabel("stopped before it converged");
    }
    iterations = control.last_step();
  }
  state.counters["iterations"] = iterations;
}
BENCHMARK(library_conjugate_gradients)->Unit(benchmark::kMillisecond)->Iterations(1);
} // namespace

int main(int count, char **words)
{
  dealii::MultithreadInfo::set_thread_limit(1);
  benchmark::Initialize(&count, words);
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}
