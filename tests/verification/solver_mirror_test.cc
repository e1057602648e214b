// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/beam_model.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>

// Bass and treble are mirror images: y turned over must turn the answer over and nothing else.
namespace overbend::tests
{
namespace
{
Beam make_beam()
{
  mesh::LayeredBeam shape;
  shape.length = 0.46;
  shape.cells_along = 16;
  shape.back_exponent = 2.2;
  materials::Wood wood = with_chain(elastic_maple(), {400, 4e4, 4e6}, {0.03, 0.05, 0.1}, 0.5);
  wood.expansion = {4e-6, 31e-6, 40e-6};
  return {shape, {wood, wood, thermoplastic_glue(), 1e-4}};
}

// Grain at odd angles; `side` -1 is its mirror image.
void turn_grain(Beam &beam, double side)
{
  const double a = 0.4, b = 0.05; // ring angle and run-out, rad
  for (solver::PieceModel &piece : beam.model.piece)
    piece.grain = {
        solver::Vec3{std::cos(b), side * std::sin(b), 0},
        solver::Vec3{-std::sin(b) * std::cos(a), side * std::cos(b) * std::cos(a), std::sin(a)},
        solver::Vec3{std::sin(b) * std::sin(a), -side * std::cos(b) * std::sin(a), std::cos(a)}};
}

// A one-sided cord that takes one edge of the middle of the board down.
solver::Spring edge_cord(const Beam &beam, double y, double take_up)
{
  solver::Spring cord;
  cord.name = y < 0 ? "bass" : "treble";
  cord.row = {{3 * beam.node(beam.shape.length / 2, y, beam.shape.board_thickness, true) + 2, 1.}};
  cord.stiffness = 5e4;
  cord.offset = take_up;
  cord.one_sided = true;
  return cord;
}

// Cold pull, heat, hold, cool, release; the displacement in the clamp and after it.
std::array<std::vector<double>, 2> history(const Beam &beam, double bass, double treble)
{
  TimeRun run(beam);
  run.mechanics.tolerance = 1e-12;
  const double edge = beam.shape.width / 2;
  run.springs.push_back(edge_cord(beam, -edge, bass));
  run.springs.push_back(edge_cord(beam, edge, treble));
  run.step(293.15, 60);
  run.steps(321.15, 600, 8);
  run.steps(321.15, 3600, 4);
  run.steps(293.15, 600, 8);
  const auto clamped = run.state.displacement;
  for (solver::Spring &cord : run.springs)
    if (cord.one_sided)
      cord.offset = -1; // slack
  run.step(293.15, 1);
  run.step(293.15, 3600);
  return {clamped, run.state.displacement};
}

// The node of each node's mirror image, on the same side of a glue line.
std::vector<unsigned> mirrored_nodes(const Beam &beam)
{
  const solver::Space &space = beam.model.space;
  using Key = std::array<long, 4>;
  std::map<Key, unsigned> place;
  std::vector<Key> image(space.n_nodes);
  for (unsigned c = 0; c < space.n_cells; ++c)
    for (const unsigned n : space.cell_node[c]) {
      const solver::Vec3 &p = space.position[n];
      const auto key = [&](double sign) -> Key {
        return {std::lround(1e7 * p[0]), std::lround(1e7 * sign * p[1]), std::lround(1e7 * p[2]),
                long(space.piece[c])};
      };
      place[key(1)] = n;
      image[n] = key(-1);
    }
  std::vector<unsigned> result;
  for (const Key &key : image)
    result.push_back(place.at(key));
  return result;
}

double largest(const std::vector<double> &u)
{
  double size = 0;
  for (const double v : u)
    size = std::max(size, std::abs(v));
  return size;
}

// Largest difference between a field and the mirror image of another, over its largest value.
double mirror_error(const Beam &beam, const std::vector<double> &a, const std::vector<double> &b)
{
  const auto mirror = mirrored_nodes(beam);
  double error = 0;
  for (unsigned n = 0; n < beam.model.space.n_nodes; ++n)
    for (unsigned i = 0; i < 3; ++i)
      error = std::max(error, std::abs(a[3 * n + i] - (i == 1 ? -1 : 1) * b[3 * mirror[n] + i]));
  return error / largest(a);
}
} // namespace

TEST(Mirror, SymmetricCaseHasNoTwist)
{
  const Beam beam = make_beam();
  const auto states = history(beam, 2e-3, 2e-3);
  for (unsigned k = 0; k < 2; ++k) {
    const auto &u = states[k];
    double twist = 0;
    for (const double x : {0., 0.23, 0.46}) {
      const double z = beam.shape.board_thickness, y = beam.shape.width / 2;
      twist = std::max(twist, std::abs(u[3 * beam.node(x, y, z, true) + 2] -
                                       u[3 * beam.node(x, -y, z, true) + 2]));
    }
    const double share = twist / std::abs(beam.bow(u));
    report(k == 0 ? "Symmetric beam in the clamp" : "Symmetric beam after release",
           "edge against edge over the bow", "symmetry", 0, share, 1e-9);
    EXPECT_LE(share, 1e-9);
    EXPECT_GT(std::abs(beam.bow(u)), 1e-5);
    EXPECT_LE(mirror_error(beam, u, u), 1e-9);
  }
}

TEST(Mirror, SwappedSidesGiveTheMirrorImage)
{
  Beam beam = make_beam(), image = make_beam();
  turn_grain(beam, 1);
  turn_grain(image, -1);
  const auto one = history(beam, 2.5e-3, 0.5e-3);
  const auto other = history(image, 0.5e-3, 2.5e-3);
  for (unsigned k = 0; k < 2; ++k) {
    const double error = mirror_error(beam, one[k], other[k]);
    report(k == 0 ? "Sides swapped, in the clamp" : "Sides swapped, after release",
           "difference of the mirror images over the largest displacement", "symmetry", 0, error,
           1e-9);
    EXPECT_LE(error, 1e-9);
    // The case is not symmetric: something is there to be mirrored.
    EXPECT_GT(mirror_error(beam, one[k], one[k]), 1e-2);
  }
}
} // namespace overbend::tests
