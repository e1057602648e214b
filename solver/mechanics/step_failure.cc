// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/mechanics/step_failure.h"

#include "cases/text/units.h"
#include "mesh/names.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace overbend::solver
{
namespace
{
// Of the first cell that has the node.
std::string piece_of(const Space &space, unsigned node)
{
  for (unsigned c = 0; c < space.n_cells; ++c)
    if (std::find(space.cell_node[c].begin(), space.cell_node[c].end(), node) !=
        space.cell_node[c].end())
      return mesh::name(mesh::Piece(space.piece[c]));
  return "neck";
}

std::string off_centre(double y)
{
  if (std::abs(y) < 1e-3)
    return "on the centre line";
  return cases::both_lengths(std::abs(y)) + " towards the " + (y < 0 ? "bass" : "treble") + " side";
}
} // namespace

std::string place_of_largest(const Space &space, const std::vector<double> &unknowns)
{
  std::size_t at = 0;
  double largest = -1;
  for (std::size_t i = 0; i < unknowns.size(); ++i) {
    const double size = std::isfinite(unknowns[i]) ? std::abs(unknowns[i]) : HUGE_VAL;
    if (size > largest) {
      largest = size;
      at = i;
    }
  }
  if (at >= space.n_dofs())
    return "in the tipping of the body";
  const auto node = static_cast<unsigned>(at / 3);
  const Vec3 &place = space.position[node];
  return "in the " + piece_of(space, node) + ", " + cases::both_lengths(std::abs(place[0])) +
         (place[0] < 0 ? " beyond the nut, " : " from the nut, ") + off_centre(place[1]);
}

std::string counted(const std::vector<std::string> &names)
{
  std::map<std::string, unsigned> times;
  for (const std::string &name : names)
    ++times[name];
  std::string text;
  for (const auto &[name, n] : times)
    text +=
        (text.empty() ? "" : ", ") + name + (n > 1 ? " (at " + std::to_string(n) + " places)" : "");
  return text;
}
} // namespace overbend::solver
