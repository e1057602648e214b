// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/bench/bench.h"

#include "mesh/neck_mesh.h"
#include "solver/bench/bench_springs.h"
#include "solver/model/interfaces.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
// Bearing of the heel in the body, N/m^3: stiff against the neck, which tips 5e-6 rad under 10 N m
// (estimate, no source: a glued joint or a bolted pocket).
constexpr double joint_stiffness = 2e12;
// A body held without pads, N m/rad (estimate).
constexpr double rigid_hold = 1e8;

bool rod_pulls(const BenchSetup &setup)
{
  return setup.rod == cases::RodState::set || setup.rod == cases::RodState::seized;
}
} // namespace

Bench::Bench(const cases::Case &the_case, const Model &the_model, const materials::Tables &tables)
    : model(the_model), pulls(pull_springs(the_case, the_model, tables)),
      cradle_pad(pad_bearings(the_case, the_model)), pad_stiffness(the_case.bench.cradle_pad),
      block(stop_block(the_case, the_model, tables, pulls))
{
  make_body(the_case);
  make_nut(the_case);
  make_rod(the_case, tables);
}

void Bench::make_body(const cases::Case &the_case)
{
  const auto &bench = the_case.bench;
  for (const FaceNode &n : face_nodes(model.space, unsigned(mesh::Face::body)))
    for (unsigned i = 0; i < 3; ++i) {
      Spring s;
      s.name = "body";
      s.row = {{3 * n.node + i, 1.}};
      s.stiffness = joint_stiffness * n.weight;
      body.push_back(s);
    }
  Spring tip;
  tip.name = "pads";
  tip.row = {{model.tip_dof(), 1.}};
  tip.stiffness = bench.hold == cases::BodyHold::pads ? bench.pad_stiffness : rigid_hold;
  body.push_back(tip);
}

void Bench::make_nut(const cases::Case &the_case)
{
  if (!(the_case.bench.nut_stiffness > 0))
    return;
  const auto ends = face_nodes(model.space, unsigned(mesh::Face::board_nut_end));
  const auto ledge = face_nodes(model.space, unsigned(mesh::Face::board_glue_lower));
  double area = 0;
  for (const FaceNode &n : ends)
    area += n.weight;
  for (const FaceNode &n : ends) {
    // The nut stands on the wood below: its node nearest to the board's node moves the nut.
    unsigned below = 0;
    double best = 1e300;
    for (const FaceNode &m : ledge) {
      const Vec3 &p = model.space.position[m.node], &q = model.space.position[n.node];
      const double d = std::hypot(p[0], p[1] - q[1]);
      if (d < best) {
        best = d;
        below = m.node;
      }
    }
    Spring s;
    s.name = "nut";
    s.role = SpringRole::nut;
    s.row = {{3 * n.node, -1.}, {3 * below, 1.}};
    s.stiffness = the_case.bench.nut_stiffness * n.weight / area;
    s.one_sided = true;
    nut_bearing.push_back(s);
  }
}

void Bench::change(const cases::Phase &phase, const StringPull *strings,
                   const std::vector<double> &displacement, double warmth, BenchSetup &setup,
                   BenchOffsets &offsets) const
{
  const BenchSetup before = setup;
  setup.cords = phase.cords;
  setup.cradle = phase.cradle;
  setup.block = phase.block;
  setup.nut = phase.nut;
  setup.strings = phase.strings ? strings : nullptr;
  setup.rod = phase.rod;
  setup.rod_is_dead_load = setup.rod_pulls_evenly || (phase.rod == cases::RodState::set &&
                                                      before.rod != cases::RodState::set);
  put_unit(before, setup, displacement, offsets);
  // It pulls with its force in the shape and warmth in which it is found.
  if (setup.rod == cases::RodState::seized && before.rod != cases::RodState::seized &&
      !setup.rod_pulls_evenly)
    rod_becomes_spring(displacement, warmth, offsets);
}

void Bench::put_unit(const BenchSetup &before, const BenchSetup &after,
                     const std::vector<double> &displacement, BenchOffsets &offsets) const
{
  if (after.cords && !before.cords)
    for (unsigned k = 0; k < n_pulls(); ++k) {
      offsets.cord_reference[k] = -evaluate(pulls[k].row, displacement);
      offsets.take_up[k] = 0;
    }
  if (after.cradle && !before.cradle) {
    offsets.cradle.resize(cradle_pad.size());
    for (std::size_t k = 0; k < cradle_pad.size(); ++k)
      offsets.cradle[k] = -evaluate(cradle_pad[k].row, displacement);
  }
  if (rod_spring && after.rod != before.rod && rod_pulls(after))
    offsets.rod = -evaluate(rod_spring->row, displacement);
}

double Bench::headstock_height(const std::vector<double> &displacement) const
{
  return -evaluate(block.row, displacement);
}

void Bench::place_block(const std::vector<double> &displacement, BenchOffsets &offsets) const
{
  offsets.block = -evaluate(block.row, displacement);
}

void Bench::rod_becomes_spring(const std::vector<double> &displacement, double warmth,
                               BenchOffsets &offsets) const
{
  if (rod_spring)
    offsets.rod = rod_force / rod_spring->stiffness - evaluate(rod_spring->row, displacement) +
                  rod_growth * warmth;
}

std::vector<Spring> Bench::springs(const BenchSetup &setup, const BenchOffsets &offsets,
                                   double warmth) const
{
  std::vector<Spring> result = body;
  if (setup.nut)
    result.insert(result.end(), nut_bearing.begin(), nut_bearing.end());
  if (setup.cradle)
    for (std::size_t k = 0; k < cradle_pad.size(); ++k) {
      result.push_back(cradle_pad[k]);
      result.back().offset = offsets.cradle.empty() ? 0. : offsets.cradle[k];
    }
  if (setup.cords)
    for (unsigned k = 0; k < n_pulls(); ++k) {
      result.push_back(pulls[k]);
      result.back().offset = offsets.cord_reference[k] + offsets.take_up[k];
    }
  if (setup.block) {
    result.push_back(block);
    result.back().offset = offsets.block;
  }
  if (rod_spring && rod_pulls(setup) && !setup.rod_is_dead_load) {
    result.push_back(*rod_spring);
    result.back().offset = offsets.rod - rod_growth * warmth;
    if (setup.rod == cases::RodState::seized)
      result.back().one_sided = false;
  }
  if (setup.strings != nullptr)
    result.insert(result.end(), setup.strings->current_shape.begin(),
                  setup.strings->current_shape.end());
  return result;
}

std::vector<double> Bench::load(const BenchSetup &setup) const
{
  std::vector<double> result =
      setup.strings != nullptr ? setup.strings->load : std::vector<double>(model.n_unknowns(), 0.);
  if (rod_spring && setup.rod_is_dead_load)
    add_times(rod_spring->row, -rod_force, result);
  return result;
}

void Bench::add_unit_load(const BenchSetup &setup, const BenchOffsets &unit,
                          const std::vector<char> &closed, std::vector<double> &load) const
{
  // The springs of the unit have the increments as offsets; all others have none.
  const std::vector<Spring> of_unit = springs(setup, unit, 0);
  for (std::size_t s = 0; s < of_unit.size(); ++s)
    if (closed[s] && of_unit[s].offset != 0)
      add_times(of_unit[s].row, -of_unit[s].stiffness * of_unit[s].offset, load);
}

BenchForces Bench::forces(const std::vector<Spring> &springs,
                          const std::vector<double> &displacement) const
{
  BenchForces result;
  for (const Spring &s : springs) {
    const double f = force(s, displacement);
    switch (s.role) {
    case SpringRole::pull:
      // A couple's spring has the force of both its ends.
      result.cord.at(s.pull) = s.one_sided ? f : f / 2;
      break;
    case SpringRole::cradle:
      result.cradle += f;
      // Of a pad of springs (Winkler): pressure = stiffness per area times its compression.
      if (f > 0)
        result.cradle_pressure =
            std::max(result.cradle_pressure, pad_stiffness * elongation(s, displacement));
      break;
    case SpringRole::block:
      result.block = f;
      break;
    case SpringRole::nut:
      result.nut += f;
      break;
    case SpringRole::rod:
      result.rod = f / rod_arm;
      break;
    case SpringRole::other:
      break;
    }
  }
  result.tip = displacement[model.tip_dof()];
  return result;
}

double Bench::rod_temperature(const std::vector<double> &temperature) const
{
  if (rod_nodes.empty())
    return materials::reference_temperature;
  double sum = 0;
  for (const unsigned n : rod_nodes)
    sum += temperature[n];
  return sum / rod_nodes.size();
}
} // namespace overbend::solver
