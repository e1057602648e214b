// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "materials/tables.h"
#include "solver/bench/string_pull.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace overbend::solver
{
// Where the movable things on the bench stand. Lengths by which a thing is further on than in the
// unstressed neck: offsets of its spring.
struct BenchOffsets
{
  std::array<double, 2> cord_reference{}; // so that a pull is just taut where it was tied
  std::array<double, 2> take_up{};        // one a pull of the device, in the order of pull_names
  std::vector<double> cradle;             // one a pad spring
  double block = 0;
  double rod = 0;
};

// Which things are there, and the rod's way of acting.
struct BenchSetup
{
  bool cords = false, cradle = false, block = false, nut = true;
  const StringPull *strings = nullptr; // null: off
  cases::RodState rod = cases::RodState::slack;
  bool rod_is_dead_load = false; // just set to its force; not yet a spring
  // A seized rod in the years before the neck was found: nobody knows at which length it was when,
  // so it pulls with its force throughout, and what it does stays linear in it.
  bool rod_pulls_evenly = false;
};

struct BenchForces
{
  // N, one a pull of the device: of all its cords together; of a couple the force at each end,
  // positive when it draws the treble end along the pull. A device of one pull has none second.
  std::array<double, 2> cord{};
  double cradle = 0, block = 0, nut = 0;
  // Pull of a single-action rod, a seized one may push (negative); force in one member of a two-way
  // rod, positive when it bows the neck back.
  double rod = 0;
  double cradle_pressure = 0; // largest under the pads, Pa
  double tip = 0;             // rad, of the body on its pads
};

// Bench, body pads, the device that pulls or presses, cradle, nut, rod and strings as springs on
// the model. Constant once made. "Cords" stands for any device.
class Bench
{
public:
  Bench(const cases::Case &the_case, const Model &model, const materials::Tables &tables);

  // Takes and puts what the phase says. Things that are put touch or are just taut in the shape
  // `displacement`. `warmth` is the rod's temperature above the reference, K. put_unit: the
  // displacement is an increment and so are the offsets.
  void change(const cases::Phase &phase, const StringPull *strings,
              const std::vector<double> &displacement, double warmth, BenchSetup &setup,
              BenchOffsets &offsets) const;
  void put_unit(const BenchSetup &before, const BenchSetup &after,
                const std::vector<double> &displacement, BenchOffsets &offsets) const;
  // The block is pushed up to the headstock as it stands: after the pull.
  void place_block(const std::vector<double> &displacement, BenchOffsets &offsets) const;
  // Height of the headstock between the cords over the bench, against that of the unstressed neck;
  // of a set-up turned over, upside down.
  double headstock_height(const std::vector<double> &displacement) const;
  // The rod pulls with its force in this shape and warmth; from now on it is a spring.
  void rod_becomes_spring(const std::vector<double> &displacement, double warmth,
                          BenchOffsets &offsets) const;

  // Springs of a set-up; `warmth` is the rod's temperature above the reference, K.
  std::vector<Spring> springs(const BenchSetup &setup, const BenchOffsets &offsets,
                              double warmth) const;
  std::vector<double> load(const BenchSetup &setup) const;
  // Load by which increments of the offsets act, on the closed springs.
  void add_unit_load(const BenchSetup &setup, const BenchOffsets &unit,
                     const std::vector<char> &closed, std::vector<double> &load) const;

  BenchForces forces(const std::vector<Spring> &springs,
                     const std::vector<double> &displacement) const;
  // Pulls of the device, see pull_names: with two, bow and twist can be set, with one the bow.
  unsigned n_pulls() const { return unsigned(pulls.size()); }
  const Spring &pull(unsigned which) const { return pulls.at(which); }
  // Elongation of a pull by a unit of movement against it. A one-sided pull cannot push.
  const Row &cord_row(unsigned which) const { return pull(which).row; }
  // Mean temperature of the rod, K; of the neck's middle without one.
  double rod_temperature(const std::vector<double> &temperature) const;

private:
  void make_body(const cases::Case &the_case);
  void make_nut(const cases::Case &the_case);
  void make_rod(const cases::Case &the_case, const materials::Tables &tables);

  const Model &model;
  std::vector<Spring> body;  // hold of the heel, tip of the body
  std::vector<Spring> pulls; // one or two
  std::vector<Spring> cradle_pad;
  double pad_stiffness = 0; // per area, N/m^3
  Spring block;
  std::vector<Spring> nut_bearing;
  std::optional<Spring> rod_spring;
  std::vector<unsigned> rod_nodes;
  double rod_force = 0;  // when set or as found, N (or N m for a two-way rod, back positive)
  double rod_arm = 1;    // 1, or the distance of a two-way rod's members, m
  double rod_growth = 0; // free elongation of the rod per kelvin, m/K
};
} // namespace overbend::solver
