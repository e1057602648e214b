// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/wood_axes.h"
#include "tests/report.h"
#include "tests/verification/beam_model.h"

#include <gtest/gtest.h>

#include <cmath>

// The second law at constant temperature: what is stored never grows by more than the work done.
namespace overbend::tests
{
namespace
{
Beam make_beam(double irrecoverable)
{
  mesh::LayeredBeam shape;
  shape.length = 0.46;
  shape.cells_along = 16;
  shape.end_cell = 0.01;
  const auto creep = [&](const materials::Wood &wood) {
    return with_chain(wood, {400, 4e4, 4e6}, {0.03, 0.05, 0.1}, irrecoverable);
  };
  return {shape, {creep(elastic_maple()), creep(elastic_maple()), thermoplastic_glue(), 1e-4}};
}

double product(const materials::Vector6 &a, const materials::Vector6 &b)
{
  double sum = 0;
  for (unsigned i = 0; i < 6; ++i)
    sum += a[i] * b[i];
  return sum;
}

// Energy that can come back: springs of the wood and of its Kelvin elements, branches of the glue
// and its stiffness across. Irrecoverable strain stores nothing that comes back.
double stored_energy(const Beam &beam, const solver::MechanicsState &state, double temperature)
{
  const auto &law = *beam.model.piece[unsigned(mesh::Piece::shaft)].law; // the board's is the same
  const auto compliance = law.elastic(temperature, 0.12);
  const auto stiffness = solver::inverse(compliance);
  const materials::Wood &wood = law.wood();
  double energy = 0;
  for (std::size_t p = 0; p < state.wood.size(); ++p) {
    const materials::WoodState &s = state.wood[p];
    double density = product(s.stress, compliance * s.stress) / 2;
    for (unsigned i = 0; i < law.n_elements(); ++i)
      density += product(s.kelvin[i], stiffness * s.kelvin[i]) / 2 / wood.creep_share[i] /
                 (1 - wood.irrecoverable_share);
    energy += density * beam.model.space.jxw[p];
  }
  const materials::Glue &glue = beam.materials.glue;
  for (std::size_t g = 0; g < state.glue.size(); ++g) {
    const solver::GluePoint &point = beam.model.glue_point[g];
    double density = 0;
    for (unsigned k = 0; k < glue.branch_time.size(); ++k)
      for (unsigned a = 0; a < 2; ++a)
        density += std::pow(state.glue[g].branch[k][a], 2) * beam.materials.glue_thickness / 2 /
                   glue.branch_modulus[k];
    double opening = 0;
    for (unsigned i = 0; i < 3; ++i)
      opening += point.normal[i] * (state.displacement[3 * point.upper + i] -
                                    state.displacement[3 * unsigned(point.lower) + i]);
    density += beam.model.glue_line[0].law->normal_stiffness() * opening * opening / 2;
    energy += density * point.weight;
  }
  return energy;
}
} // namespace

TEST(Dissipation, StoredEnergyOfAReleasedBeamOnlyFalls)
{
  for (const double irrecoverable : {0., 0.5}) {
    const Beam beam = make_beam(irrecoverable);
    const double warm = 318.15;
    TimeRun run(beam);
    run.mechanics.tolerance = 1e-12;
    run.springs.push_back(beam.press(3e-3));
    run.step(warm, 1);
    run.steps(warm, 3600, 10); // the line has slipped a part of the way
    run.springs.pop_back();
    run.step(warm, 0);
    double before = stored_energy(beam, run.state, warm), largest_gain = -1;
    const double at_release = before;
    for (const double dt : {1., 10., 100., 1000., 1000., 1e4, 3e4, 10., 1e5, 1e6, 1e7}) {
      run.step(warm, dt);
      const double after = stored_energy(beam, run.state, warm);
      largest_gain = std::max(largest_gain, (after - before) / at_release);
      before = after;
    }
    report("Energy of a released beam, irrecoverable share " + std::to_string(irrecoverable),
           "largest gain in a step over the energy at release (below 0: loss)", "second law", 0,
           largest_gain, 1e-9);
    EXPECT_LE(largest_gain, 1e-9);
    EXPECT_GT(at_release, 0);
    EXPECT_LT(before, 0.5 * at_release); // it does run down
  }
}

// Pressed in and out in steps at one temperature: work not less than what is stored more.
TEST(Dissipation, ClampWorkIsNeverLessThanTheEnergyStored)
{
  const Beam beam = make_beam(0);
  const double warm = 318.15;
  TimeRun run(beam);
  run.mechanics.tolerance = 1e-12;
  run.springs.push_back(beam.press(0));
  run.step(warm, 1);
  run.state = solver::unstressed(beam.model);
  double force = 0, stored = 0, least = 1, total = 0, largest_energy = 0;
  for (unsigned i = 1; i <= 40; ++i) {
    solver::Spring &press = run.springs.back();
    const double before = -solver::evaluate(press.row, run.state.displacement);
    press.offset = 2e-3 * std::sin(0.3 * i);
    run.step(warm, 300);
    const double moved = -solver::evaluate(press.row, run.state.displacement) - before;
    const double now = solver::force(press, run.state.displacement);
    const double energy = stored_energy(beam, run.state, warm);
    const double lost = moved * (force + now) / 2 - (energy - stored);
    least = std::min(least, lost);
    total += lost;
    largest_energy = std::max(largest_energy, energy);
    force = now;
    stored = energy;
  }
  report("Clamp pressed in and out, 45 degC",
         "least loss in a step over the largest energy (below 0: gain)", "second law", 0,
         least / largest_energy, 1e-9);
  EXPECT_GE(least, -1e-9 * largest_energy);
  EXPECT_GT(total, 0.1 * largest_energy);
}
} // namespace overbend::tests
