// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "mesh/neck_mesh.h"
#include "solver/mechanics/springs.h"
#include "solver/model/model.h"
#include "solver/readings/reading.h"

#include <array>
#include <vector>

namespace overbend::solver
{
// The lines a straightedge lies on, as linear forms of the displacement: made once, so that reading
// a shape costs nothing.
class BoardLines
{
public:
  BoardLines(const cases::Case &the_case, const mesh::NeckMesh &mesh, const Model &model);

  BoardShape shape(const std::vector<double> &displacement) const;

  // Bow at the case's fret over its rest frets (m), on a line (0 bass, 1 centre, 2 treble), and
  // twist between the rest frets (rad): the fixed readings that the bench pulls to.
  const Row &bow(unsigned which) const { return bow_row[which]; }
  const Row &twist() const { return twist_row; }

  // Distance across between the bass and the treble line at a fret, m.
  double distance_across(int fret) const;

private:
  struct Line
  {
    std::vector<double> x, y;
    std::vector<Row> height; // vertical displacement at each fret
  };
  std::array<Line, 3> line;
  std::array<Row, 3> bow_row;
  Row twist_row;
};
} // namespace overbend::solver
