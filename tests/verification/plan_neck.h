// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/plan/plan.h"

#include <string>

// Whole necks for the proof of start and plan.
namespace overbend::tests
{
// A shipped case on another mesh.
cases::Case shipped_case(const std::string &name, double resolution);

// The tables with every wood elastic: no creep, no expansion, one stiffness at all temperatures.
materials::Tables elastic_tables();

// A neck on the bench, with tables of its own. Not to be moved: its parts refer to each other.
struct PlanNeck
{
  explicit PlanNeck(cases::Case checked_case, materials::Tables own_tables = materials::tables());
  PlanNeck(const PlanNeck &) = delete;

  // Replaces the glue of a line by one that is the same at all temperatures: a glass as the
  // table's glue is when cold, or a film that slides freely and keeps its normal stiffness.
  void make_glass(unsigned line);
  void make_free(unsigned line);
  bool has_line(unsigned line) const;

  // Displacement of the unstressed neck by dead loads, an instant after, on the body's pads and
  // what springs are given.
  std::vector<double> under(const std::vector<double> &load,
                            const std::vector<solver::Spring> &more_springs = {});

  std::vector<double> no_load() const;
  std::vector<double> cord_pull(double bass, double treble) const; // N, each drawn down
  std::vector<double> headstock_torque() const;                    // 1 N m about x

  // With the error a step that c.numerics says.
  solver::History run(const std::vector<cases::Phase> &phases, const solver::ThermalHistory &heat,
                      const solver::Progress &start, solver::SimulationOptions options = {});
  solver::Progress unstressed() const;

  cases::Case c;
  materials::Tables tables;
  mesh::NeckMesh mesh;
  solver::PlanInput input;
  solver::Workbench work;

private:
  void replace_glue(unsigned line, double modulus);
};
} // namespace overbend::tests
