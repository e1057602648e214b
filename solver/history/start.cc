// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/history/start.h"

#include "cases/text/units.h"
#include "solver/history/start_histories.h"
#include "solver/readings/fret_surface.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace overbend::solver
{
namespace
{
constexpr double told_bow = 0.03e-3;   // m: a smaller share is not worth a sentence
constexpr double least_reading = 1e-6; // m or rad: a history that moves less explains nothing

// Scales of the two histories for a wanted reading: slip first up to its share and its limit, the
// wood the rest. A history that does not move the reading gets nothing.
struct Split
{
  double slip = 0, wood = 0;
};
Split split(double wanted, double slip_unit, double wood_unit, double slip_share, double slip_limit,
            double wood_limit)
{
  Split s;
  if (std::abs(slip_unit) > least_reading)
    s.slip = std::clamp(slip_share * wanted / slip_unit, -slip_limit, slip_limit);
  if (std::abs(wood_unit) > least_reading)
    s.wood = std::clamp((wanted - s.slip * slip_unit) / wood_unit, -wood_limit, wood_limit);
  return s;
}

// How much of each history makes the readings found.
struct Scales
{
  Split bow, twist;
};
Scales fit(const Histories &h, const Diagnosis &d)
{
  // Strings twist a neck hardly at all; what they do is left to the torque, and the little that a
  // torque bows the neck is left to the bow: a few rounds settle both.
  Scales s;
  s.bow =
      split(d.found.bow, h.slip_bow.reads.bow, h.wood_bow.reads.bow, h.slip_share, 1, h.wood_limit);
  for (unsigned round = 0; round < 3; ++round) {
    const double twist_left = d.found.twist - d.moisture_twist - d.rod_twist -
                              s.bow.slip * h.slip_bow.reads.twist -
                              s.bow.wood * h.wood_bow.reads.twist;
    s.twist = split(twist_left, h.slip_twist.reads.twist, h.wood_twist.reads.twist, h.slip_share,
                    no_limit, no_limit);
    const double bow_left = d.found.bow - d.moisture_bow - d.rod_bow -
                            s.twist.slip * h.slip_twist.reads.bow -
                            s.twist.wood * h.wood_twist.reads.bow;
    s.bow =
        split(bow_left, h.slip_bow.reads.bow, h.wood_bow.reads.bow, h.slip_share, 1, h.wood_limit);
  }
  return s;
}

// The neck as found in the air of the shop: there the rod pulls with its force, and from there on
// it is a spring.
void leave_rod_in(const NeckOnBench &neck, const std::vector<double> &moisture, Progress &progress)
{
  const std::vector<double> air(neck.model.space.n_nodes, neck.the_case.room.temperature);
  BenchSetup &setup = progress.setup;
  setup.rod = cases::RodState::seized;
  setup.rod_is_dead_load = true;
  neck.mechanics.begin(progress.state, StepClimate{air, air, moisture, moisture, moisture, {}, {}},
                       0);
  std::vector<double> u = progress.state.displacement;
  try {
    neck.mechanics.equilibrate(neck.bench.springs(setup, {}, 0), neck.bench.load(setup), u);
  } catch (const StepFailed &failure) {
    throw NotConverged(std::string("The neck with its seized rod does not come to rest: ") +
                       failure.what());
  }
  neck.bench.rod_becomes_spring(
      u, neck.bench.rod_temperature(air) - materials::reference_temperature, progress.offsets);
  setup.rod_is_dead_load = false;
}

// What the repairer should know of how the bow was explained.
void remark(const cases::Case &the_case, const Scales &s, Diagnosis &d)
{
  if (std::abs(d.moisture_bow) > told_bow)
    d.remarks.push_back("Swelling since the neck was built accounts for up to " +
                        signed_length(d.moisture_bow) + " of the bow.");
  if (std::abs(d.rod_bow) > told_bow)
    d.remarks.push_back("The pull of the seized rod, " +
                        cases::all_forces(the_case.neck.rod.force.value_or(0)) +
                        ", bends the neck by " + signed_length(d.rod_bow) +
                        ": so much of the bow found is neither slip nor in the wood.");
  if (the_case.warp.cause == cases::Cause::hot_strung && d.severity >= 1 &&
      std::abs(d.wood_bow) > told_bow)
    d.remarks.push_back(std::string("That hot store as given, ") +
                        (the_case.warp.kept_in == cases::KeptIn::open_air
                             ? "with the dry air that goes with it, leaves "
                             : "in a closed case that keeps its air, leaves ") +
                        cases::both_lengths(d.slip_bow) +
                        " at most. The rest is taken to be in the wood; if it was hotter or "
                        "longer than given, more of it is slip.");
  if (the_case.warp.cause == cases::Cause::years_of_pull && std::abs(s.bow.wood) >= creep_spread)
    d.remarks.push_back("That many years of pull leave " + cases::both_lengths(d.wood_bow) +
                        " at most, half as much again as computed included. The rest is taken as "
                        "built; heat, damp or heavier strings may have had their part.");
}
} // namespace

double Diagnosis::wood_share() const
{
  const double sum = slip_bow + wood_bow;
  return std::abs(sum) > 0 ? wood_bow / sum : 0;
}

double Diagnosis::wood_share_of_found() const
{
  return std::abs(found.bow) > 0 ? wood_bow / found.bow : 0;
}

cases::RodState rod_left_in(const cases::Case &the_case)
{
  const bool seized = the_case.neck.rod.state == cases::RodState::seized;
  return seized ? cases::RodState::seized : cases::RodState::slack;
}

double string_lift(const NeckOnBench &neck, const StringPull &strings, cases::RodState rod)
{
  Cause cause;
  cause.strings = &strings;
  cause.rod = cases::acting(rod);
  return Generator(neck).elastic(cause).bow;
}

FoundNeck find_start(const NeckOnBench &neck, const StringPull &found_strings,
                     const std::vector<double> &moisture)
{
  FoundNeck found;
  Diagnosis &d = found.diagnosis;
  d.found = found_wood(neck.the_case);
  Generator generator(neck, seized_rod(neck.the_case));
  Histories h = make_histories(neck, found_strings, moisture, generator, d);
  const Scales s = fit(h, d);
  MechanicsState &state = found.progress.state;
  state = std::move(h.swollen);
  add_times(state, s.bow.slip, h.slip_bow.state);
  add_times(state, s.bow.wood, h.wood_bow.state);
  add_times(state, s.twist.slip, h.slip_twist.state);
  add_times(state, s.twist.wood, h.wood_twist.state);
  // Each part is at rest, but their sum may press the board against the nut, or let go of it.
  generator.bring_to(state, moisture, moisture);
  if (rod_left_in(neck.the_case) == cases::RodState::seized)
    leave_rod_in(neck, moisture, found.progress);
  d.slip_bow = s.bow.slip * h.slip_bow.reads.bow;
  d.wood_bow = s.bow.wood * h.wood_bow.reads.bow;
  d.slip_twist = s.twist.slip * h.slip_twist.reads.twist;
  d.wood_twist = s.twist.wood * h.wood_twist.reads.twist;
  d.severity = std::abs(s.bow.slip);
  remark(neck.the_case, s, d);

  const Reading reached = read(neck.lines, state.displacement);
  d.as_built = {d.found.bow_bass - reached.bow_bass, d.found.bow - reached.bow,
                d.found.bow_treble - reached.bow_treble, d.found.twist - reached.twist};
  return found;
}
} // namespace overbend::solver
