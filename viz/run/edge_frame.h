// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "solver/results/results.h"

#include <array>
#include <vector>

namespace overbend::viz
{
// Looks at a bent neck as a straightedge does: what only carries the neck along as a whole is taken
// away, so that the board's top lies at both rest frets where it lies in the straight neck, and is
// level across at the rest fret near the body. What is left is bow and twist, which can then be
// drawn many times larger without the headstock leaving the picture.
class EdgeFrame
{
public:
  EdgeFrame(const solver::MeshData &mesh, const cases::Case &the_case);

  // A small motion as a whole: shift (m) at the rest fret near the nut, and turns (rad) about the
  // axes through it.
  struct Motion
  {
    std::array<double, 3> shift{}, turn{};
  };
  Motion motion(const std::vector<double> &displacement) const;

  // Displacements (3 a node, m) at `nodes` without a motion.
  std::vector<double> without(const Motion &motion, const std::vector<double> &nodes,
                              std::vector<double> displacement) const;

  // The top of the board's centre line at the two rest frets of the straight neck, m.
  const std::array<double, 3> &near_nut() const { return rest[0]; }
  const std::array<double, 3> &near_body() const { return rest[1]; }

private:
  // Between two nodes of the board's centre line.
  struct Sample
  {
    std::size_t below = 0, above = 0;
    double share = 0;
  };
  std::array<double, 3> at(const Sample &sample, const std::vector<double> &values) const;
  Sample sample(double x, const std::vector<std::size_t> &line,
                const std::vector<double> &nodes) const;
  void find_edges(double x, const std::vector<double> &nodes);

  std::array<Sample, 2> samples;
  std::array<std::array<double, 3>, 2> rest;
  std::size_t bass = 0, treble = 0; // nodes at the board's edges at the rest fret near the body
  double across = 0;                // m between them
};
} // namespace overbend::viz
