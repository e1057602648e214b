// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/tables.h"
#include "mesh/layered_beam.h"
#include "solver/mechanics/mechanics.h"

#include <functional>
#include <string>

// A straight beam as a Model, for comparison with closed forms.
namespace overbend::tests
{
// Isotropic-like elastic material with a Young's modulus along and shear moduli set apart; no
// creep. With nu = 0 a slender solid follows the beam theory that the closed forms assume.
materials::Wood elastic(double modulus, double modulus_across, double shear, double poisson = 0);

// Sugar maple, elastic: nine constants from the Wood Handbook ratios (GTR-190 Tables 5-1, 5-2),
// E_L = 13.86 GPa, G_RT = 0.02 E_L (estimate).
materials::Wood elastic_maple();

// The same material with a creep chain of equal ratios in all directions.
materials::Wood with_chain(materials::Wood wood, const std::vector<double> &times,
                           const std::vector<double> &shares, double irrecoverable = 0,
                           double activation_energy = 1e5);

// A glue of one shear modulus that does not relax.
materials::Glue elastic_glue(double shear_modulus);

// A thermoplastic glue of the kind of white PVA (estimates): glass at 20 degC, flows when hot.
materials::Glue thermoplastic_glue();

struct BeamMaterials
{
  materials::Wood board, shaft;
  materials::Glue glue;
  double glue_thickness = 0.1e-3;
};

// One more glue line, for points that are given its index.
void add_glue_line(solver::Model &model, const materials::Glue &glue, double thickness);

solver::Model make_model(const mesh::NeckMesh &mesh, const BeamMaterials &materials);

// Nodes that satisfy a condition on their place.
std::vector<unsigned> nodes_where(const solver::Space &space,
                                  const std::function<bool(const solver::Vec3 &)> &condition);

// Nodal loads of a traction (N/m^2) on a named face, a function of the place.
std::vector<double>
traction_load(const solver::Model &model, mesh::Face face,
              const std::function<solver::Vec3(const solver::Vec3 &)> &traction);

// Stress at the quadrature points in model axes, from a state (wood axes).
std::vector<solver::Voigt> model_stress(const solver::Model &model,
                                        const solver::MechanicsState &state);

// A beam with a rectangular section, its model, its supports and its readings. Both ends are free
// in bending; the supports only take away rigid motion.
struct Beam
{
  Beam(const mesh::LayeredBeam &shape, const BeamMaterials &materials);

  mesh::LayeredBeam shape;
  BeamMaterials materials;
  solver::Model model;

  double EI_layers() const; // sum of the layers' own bending stiffness, N m^2
  double EI_bonded() const;

  // The node at a place; `board` chooses between the two nodes of a glue line.
  unsigned node(double x, double y, double z, bool board = false) const;
  // Mean upward displacement of the nodes of the section at x, as a row.
  solver::Row lift(double x) const;
  // Forward bow (middle below the ends), m.
  double bow(const std::vector<double> &displacement) const;

  // Unknowns held against rigid motion along x, along y and about x and z.
  std::vector<std::pair<unsigned, double>> held() const;
  // Stiff springs that hold the mean height of both end sections.
  std::vector<solver::Spring> supports() const;
  // A stiff spring that brings the middle section down by `depth`, m.
  solver::Spring press(double depth) const;

  // Nodal loads of a moment (N m) on both ends that bows the beam forward. Each layer takes its
  // share of it about its own middle, as where a glue line ends freely.
  std::vector<double> end_moments(double moment) const;
  std::vector<double> no_load() const { return std::vector<double>(model.n_unknowns(), 0.); }

  // Displacement under loads at 20 degC in one instantaneous step from the unstressed beam.
  std::vector<double> solve(const std::vector<double> &load) const;
};

// A run in time of a model whose temperature is everywhere the same.
class TimeRun
{
public:
  // On the beam's own supports.
  explicit TimeRun(const Beam &beam);
  TimeRun(const solver::Model &model, const std::vector<std::pair<unsigned, double>> &held,
          double start_temperature = 293.15);

  // One step of dt (s) to a temperature (K) under the springs and the load below.
  void step(double temperature, double dt);
  // Equal steps over a time, temperature linear.
  void steps(double temperature, double time, unsigned n);

  std::vector<solver::Spring> springs;
  std::vector<double> load;
  solver::MechanicsState state;
  solver::Mechanics mechanics;
  double temperature;

private:
  unsigned n_nodes;
};
} // namespace overbend::tests
