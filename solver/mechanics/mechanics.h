// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/equations/direct_solver.h"
#include "solver/mechanics/springs.h"
#include "solver/model/elasticity_kernel.h"
#include "solver/model/model.h"

#include <limits>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

// Equilibrium of the neck over one step of time.
//
// Everything is linear in the displacement at the end of the step once it is known which creep
// elements work, which fret slots are open, which cords are taut and which contacts are closed (the
// states). So a step is:
// fix the states, solve, look at the states again, until they stay.
namespace overbend::solver
{
struct MechanicsState
{
  std::vector<double> displacement;       // Model::n_unknowns()
  std::vector<materials::WoodState> wood; // at each quadrature point, wood axes
  std::vector<materials::GlueState> glue; // at each glue point
};

MechanicsState unstressed(const Model &model);

// state += factor * other. Equilibrium is kept: all parts are linear in each other.
void add_times(MechanicsState &state, double factor, const MechanicsState &other);

// Nodal fields at the two ends of a step.
struct StepClimate
{
  std::vector<double> T0, T1; // K
  // Moisture contents (kg/kg), and the lowest each node had been at before the step. Empty: the
  // neck as it was built, and it costs nothing.
  std::vector<double> m0, m1, driest;
  // Air that changes faster than the step makes more reduced time pass than its mean does: factors
  // on dt, by wood (Model::n_woods) and by glue point. Empty: 1.
  std::vector<double> wood_time, glue_time;
  // Moisture that swings within the step: sum of |dm| on the way and how far it went below the
  // driest so far (kg/kg, by node). Empty: straight from m0 to m1.
  std::vector<double> travel{}, dried{};
};

// The equations of a step did not come to rest; the step should be cut.
struct StepFailed : std::runtime_error
{
  using std::runtime_error::runtime_error;
};

struct SolverCounts
{
  unsigned steps = 0, factorisations = 0, iterations = 0, solves = 0;
  double seconds_factor = 0, seconds_solve = 0, seconds_law = 0;
};

class Mechanics
{
public:
  explicit Mechanics(const Model &model);

  // Unknowns held at a value (for tests and for sections cut free); empty in the plan.
  void hold(const std::vector<std::pair<unsigned, double>> &unknowns);

  // Begins a step of length dt (s) from start, between nodal temperatures T0 and T1 (K).
  // dt = 0 is an instantaneous change of load. The start must outlive the step.
  void begin(const MechanicsState &start, const std::vector<double> &T0,
             const std::vector<double> &T1, double dt);
  // The same with moisture: stiffness, creep and glue at the local moisture content, swelling from
  // the moisture the neck was built at.
  void begin(const MechanicsState &start, const StepClimate &climate, double dt);
  // The same with the glue held at a temperature of its own: generating histories soften or freeze
  // the line and leave the wood alone.
  void begin_with_glue_at(const MechanicsState &start, const std::vector<double> &T, double dt,
                          double glue_temperature);

  // Finds the displacement at the end of the step under springs and nodal loads. `displacement`
  // holds the first guess. The states found stay fixed until the next call. Throws StepFailed.
  void equilibrate(const std::vector<Spring> &springs, const std::vector<double> &load,
                   std::vector<double> &displacement);

  // Increments that the frozen step of the last equilibrate gives to small loads; they replace the
  // loads. `guesses`: where the search begins, one for each load; empty for zero.
  void respond(std::vector<std::vector<double>> &loads,
               const std::vector<std::vector<double>> &guesses = {});

  // Load with which `respond` gives the displacement of a unit history at the end of the step.
  std::vector<double> unit_load(const MechanicsState &unit) const;

  // Moves a state to the end of the step with the displacement found. `is_unit`: the state is an
  // increment, without thermal strain.
  void finish(MechanicsState &state, const std::vector<double> &displacement, bool is_unit = false);

  const std::vector<char> &closed_springs() const { return spring_closed; }
  const SolverCounts &counts() const { return tally; }
  // Share of the largest load so far (energy norm) that the residual of a step may keep, and share
  // of its own load that a response or a unit history may keep.
  double tolerance = 3e-8, unit_tolerance = 1e-5;

private:
  void begin_wood(const StepClimate &climate, double dt);
  void set_law();
  void set_law_at(unsigned cell, std::size_t point);
  struct MayChange
  {
    bool creep = true, slots = true;
  };
  void take(const std::vector<Spring> &springs, std::vector<double> &displacement);
  bool update_states(const std::vector<Spring> &springs, const std::vector<double> &displacement,
                     MayChange may);
  bool update_points(const std::vector<double> &displacement, MayChange may);
  bool update_point(unsigned cell, std::size_t point, const materials::Vector6 &stress,
                    MayChange may);
  materials::Compliance tangent_at(unsigned cell, std::size_t point) const;
  void build_tangent();
  std::vector<double> residual(const std::vector<Spring> &springs, const std::vector<double> &load,
                               const std::vector<double> &displacement) const;
  std::vector<double> moved_by(const std::vector<double> &from,
                               const std::vector<double> &change) const;
  void apply_operator(const std::vector<double> &x, std::vector<double> &y) const;
  void factorise();
  void place_cells();
  void add_cells_to_matrix();
  void add_rows_of_cell(unsigned cell, const ElementMatrix &k, unsigned begin, unsigned end);
  void add_glue_to_matrix();
  void add_springs_to_matrix();
  void make_pattern(const std::vector<Spring> &springs);
  // Conjugate gradients under way, for several right sides at once.
  struct Search
  {
    std::vector<std::vector<double>> x, r, p; // found so far, residual, direction
    std::vector<double> energy;               // of each residual
    unsigned iterations = 0;
    bool fresh = false; // the factor is as new as can be
  };
  Search begin_search(std::vector<std::vector<double>> residuals);
  void go_on(Search &search, const std::vector<double> &limit);
  void iterate_once(Search &search, const std::vector<double> &limit);
  void precondition(Search &search) const;
  void judge_factor();

  const materials::WoodLaw &law_at(unsigned cell, std::size_t point) const
  {
    return *model.wood(model.wood_at(cell, point)).law;
  }
  const std::array<double, 36> &axes_at(unsigned cell, std::size_t point) const
  {
    return to_wood[model.strips ? model.strips->frame_at_point[point] : cell];
  }

  const Model &model;
  // Strain from model to wood axes, by cell; with strips, by frame.
  std::vector<std::array<double, 36>> to_wood;
  std::vector<std::pair<unsigned, double>> held;
  std::vector<char> is_held;

  // The step at hand.
  const MechanicsState *start = nullptr;
  std::vector<materials::WoodStep> wood_step;
  std::vector<materials::GlueStep> glue_step;
  std::vector<materials::ActiveElements> active;
  std::vector<char> slot_open;                       // by point; empty: no slots
  std::vector<materials::Compliance> wood_stiffness; // inverse of the algorithmic compliance
  std::vector<materials::Vector6> wood_history;
  std::vector<materials::Vector2> glue_history;
  std::vector<Stiffness> stiffness;
  std::vector<char> spring_closed;
  std::vector<std::string> restless; // springs that opened or closed in the last round
  std::vector<Spring> current_springs;

  Factor factor{Digits::some};
  SparseMatrix matrix; // on and left of the diagonal
  std::vector<unsigned> cell_entry;
  std::set<std::vector<unsigned>> spring_groups; // unknowns that springs couple in it
  std::vector<ElementMatrix> element;            // of a few cells
  std::vector<double> applied; // work space of an iteration: the operator on a direction
  std::vector<std::vector<double>> better;
  bool factor_is_stale = true;
  struct FactorWear
  {
    double iterations_of_step = 0;
    double least = std::numeric_limits<double>::infinity(); // of the steps since it was made
    double spent = 0;                                       // iterations above the least
    unsigned steps = 0;
  };
  FactorWear factor_wear;
  double force_scale = 0;
  SolverCounts tally;
};
} // namespace overbend::solver
