// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/bench/bench.h"
#include "tests/verification/beam_model.h"

#include <functional>
#include <memory>

// The bench of a case on a straight beam, for closed forms: the beam's end at x = length stands in
// the body, its end at x = 0 is nut and headstock in one.
namespace overbend::tests
{
// Wood that bends without shear and without Poisson's effect, as the closed forms assume.
materials::Wood rigid_in_shear(double modulus);

class BenchBeam
{
public:
  // `change` sets what the case says of rod, bench, strings. Fret 12 is over the body join.
  BenchBeam(const mesh::LayeredBeam &shape, const BeamMaterials &materials,
            const std::function<void(cases::Case &)> &change = {});

  // Displacement an instant after the bench was set up, from the unstressed beam, with everything
  // `warmth` (K) above the reference temperature.
  std::vector<double> at_once(const solver::BenchSetup &setup, const solver::BenchOffsets &offsets,
                              const std::vector<double> &extra_load = {}, double warmth = 0);
  solver::BenchForces forces() const { return bench->forces(springs, displacement); }

  // Nodal loads of a moment (N m) on the end at x = 0 that bows the beam forward.
  std::vector<double> end_moment(double moment) const;
  // d2w/dx2 about x by three sections `step` apart, 1/m; positive is forward.
  double curvature(double x, double step) const;
  // Slope that a bending moment of 1 N m makes in the joint with the body, rad.
  double joint_give() const;

  Beam beam;
  cases::Case c;
  std::unique_ptr<solver::Bench> bench;
  std::vector<double> displacement;    // of the last at_once
  std::vector<solver::Spring> springs; // and its springs

private:
  solver::Mechanics mechanics;
};

// Nothing on the bench but the body.
solver::BenchSetup bare_bench();
} // namespace overbend::tests
