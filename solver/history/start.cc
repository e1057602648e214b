// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/history/start.h"

#include "cases/text/units.h"
#include "solver/history/generating_histories.h"
#include "solver/readings/fret_surface.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr double default_years = 20 * 3.15576e7; // s, pull of an unknown cause
constexpr double told_bow = 0.03e-3;             // m: a smaller share is not worth a sentence
constexpr double no_limit = 1e9;
constexpr double told_take_up = 1e-3; // m, of the clamp that tells how much a bonded neck keeps
// Two published sets of creep along the grain differ by this factor [C]: so much more than computed
// may told years of pull have done, not more.
constexpr double creep_spread = 1.5;
constexpr double least_reading = 1e-6; // m or rad: a history that moves less explains nothing

// The histories that are scaled to the readings, each rested, with what it reads.
struct Scaled
{
  MechanicsState state;
  Reading reads;
};

struct Histories
{
  MechanicsState swollen;
  Scaled slip_bow, wood_bow, slip_twist, wood_twist;
  Cause pull; // strings, and a seized rod with them
  double slip_share = 0;
  double wood_limit = no_limit; // of the scale on wood_bow
};

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

// The rest of a seized rod's pull and the strings' is too little to make a bow of: scaled up to a
// reading it would be more than any history.
constexpr double least_of_lift = 0.2; // of the lift of the strings alone

// Neck without strings before any history: swollen, and with a seized rod's pull in it.
void make_base(Generator &generator, const Model &model, const Cause &rod, const BoardLines &lines,
               const std::vector<double> &moisture, Histories &h, Diagnosis &d)
{
  h.swollen =
      moisture.empty() && !rod.rod_pulls_evenly ? unstressed(model) : generator.swollen(moisture);
  const Reading base = read(lines, h.swollen.displacement);
  if (rod.rod_pulls_evenly) {
    const Reading by_rod = generator.elastic(rod);
    d.rod_bow = by_rod.bow;
    d.rod_twist = by_rod.twist;
  }
  d.moisture_bow = base.bow - d.rod_bow;
  d.moisture_twist = base.twist - d.rod_twist;
}

// What the strings do at once, bonded and while the line slips; with a seized rod they pull
// together, and the slip that is left is of both.
void pull_strings(Generator &generator, const StringPull &strings, const Cause &rod, Histories &h,
                  Diagnosis &d)
{
  Cause alone;
  alone.strings = &strings;
  d.lift = generator.elastic(alone).bow;
  h.slip_bow.state = generator.slip(alone);
  d.slipped_lift = generator.loaded().bow;
  if (!rod.rod_pulls_evenly)
    return;
  h.pull = rod;
  h.pull.strings = &strings;
  h.slip_bow.state = generator.slip(h.pull);
  if (std::abs(generator.elastic(h.pull).bow) < least_of_lift * std::abs(d.lift)) {
    h.wood_limit = 0;
    d.remarks.push_back("The seized rod and the strings nearly hold each other: their years "
                        "together explain nothing of the bow.");
  }
}

// rho of the clamp: what it bends the neck by, bonded, over what the same pull bends it by while
// the line slips. Pull and cradle bend the neck most over the cradle, where strings bend it evenly
// along its length, so a strung neck's share is another.
double share_of_bonded_clamp(const cases::Case &the_case, Generator &generator)
{
  Cause clamp;
  clamp.take_up = told_take_up;
  clamp.nut = the_case.schedule.nut;
  const double bonded = generator.elastic(clamp).bow / generator.pull();
  generator.slip(clamp);
  return bonded * generator.pull() / generator.loaded().bow;
}

// Makes the histories and writes down what they tell of the neck itself.
Histories make_histories(const cases::Case &the_case, const Model &model, const Bench &bench,
                         const BoardLines &lines, const StringPull &found_strings,
                         Mechanics &mechanics, const std::vector<double> &moisture,
                         Generator &generator, Diagnosis &d)
{
  const cases::Warp &warp = the_case.warp;
  Histories h;
  const Cause rod = seized_rod(the_case), twist = torque(model);
  h.pull.strings = &found_strings;
  make_base(generator, model, rod, lines, moisture, h, d);
  pull_strings(generator, found_strings, rod, h, d);
  d.ceiling = read(lines, h.slip_bow.state.displacement).bow;
  d.bonded_share = share_of_bonded_clamp(the_case, generator);
  const double bonded_twist = generator.elastic(twist).twist;
  h.slip_twist.state = generator.slip(twist);
  d.bonded_twist_share = bonded_twist / generator.loaded().twist;
  const double years = warp.cause == cases::Cause::years_of_pull ? warp.pull_time : default_years;
  h.wood_bow.state = generator.creep(h.pull, years);
  h.wood_twist.state = generator.creep(twist, years);
  for (Scaled *s : {&h.slip_bow, &h.slip_twist, &h.wood_twist})
    generator.rest(s->state, warp.rest_time);
  generator.rest(h.wood_bow.state, warp.rest_time, rod);
  h.slip_share = warp.slip_share;
  if (warp.cause == cases::Cause::years_of_pull) {
    h.slip_share = 0;
    h.wood_limit = std::min(h.wood_limit, creep_spread);
  }
  if (warp.cause == cases::Cause::hot_strung) {
    h.slip_share = 1;
    h.slip_bow.state = hot_history(the_case, model, bench, lines, found_strings, mechanics,
                                   moisture, h.swollen, warp.rest_time);
  }
  for (Scaled *s : {&h.slip_bow, &h.slip_twist, &h.wood_bow, &h.wood_twist})
    s->reads = read(lines, s->state.displacement);
  return h;
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
void leave_rod_in(const cases::Case &the_case, const Model &model, const Bench &bench,
                  Mechanics &mechanics, const std::vector<double> &moisture, Progress &progress)
{
  const std::vector<double> air(model.space.n_nodes, the_case.room.temperature);
  BenchSetup &setup = progress.setup;
  setup.rod = cases::RodState::seized;
  setup.rod_is_dead_load = true;
  mechanics.begin(progress.state, StepClimate{air, air, moisture, moisture, moisture, {}, {}}, 0);
  std::vector<double> u = progress.state.displacement;
  try {
    mechanics.equilibrate(bench.springs(setup, {}, 0), bench.load(setup), u);
  } catch (const StepFailed &failure) {
    throw NotConverged(std::string("The neck with its seized rod does not come to rest: ") +
                       failure.what());
  }
  bench.rod_becomes_spring(u, bench.rod_temperature(air) - materials::reference_temperature,
                           progress.offsets);
  setup.rod_is_dead_load = false;
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

double string_lift(const Model &model, const Bench &bench, const BoardLines &lines,
                   const StringPull &strings, Mechanics &mechanics, cases::RodState rod)
{
  Cause cause;
  cause.strings = &strings;
  cause.rod = cases::acting(rod);
  return Generator(model, bench, lines, mechanics).elastic(cause).bow;
}

FoundNeck find_start(const cases::Case &the_case, const Model &model, const Bench &bench,
                     const BoardLines &lines, const StringPull &found_strings, Mechanics &mechanics,
                     const std::vector<double> &moisture)
{
  FoundNeck neck;
  Diagnosis &d = neck.diagnosis;
  d.found = found_wood(the_case);
  Generator generator(model, bench, lines, mechanics, seized_rod(the_case));
  Histories h = make_histories(the_case, model, bench, lines, found_strings, mechanics, moisture,
                               generator, d);
  if (std::abs(d.moisture_bow) > told_bow)
    d.remarks.push_back("Swelling since the neck was built accounts for up to " +
                        signed_length(d.moisture_bow) + " of the bow.");
  if (std::abs(d.rod_bow) > told_bow)
    d.remarks.push_back("The pull of the seized rod, " +
                        cases::all_forces(the_case.neck.rod.force.value_or(0)) +
                        ", bends the neck by " + signed_length(d.rod_bow) +
                        ": so much of the bow found is neither slip nor in the wood.");
  const Scales s = fit(h, d);
  MechanicsState &state = neck.progress.state;
  state = std::move(h.swollen);
  add_times(state, s.bow.slip, h.slip_bow.state);
  add_times(state, s.bow.wood, h.wood_bow.state);
  add_times(state, s.twist.slip, h.slip_twist.state);
  add_times(state, s.twist.wood, h.wood_twist.state);
  // Each part is at rest, but their sum may press the board against the nut, or let go of it.
  generator.bring_to(state, moisture, moisture);
  if (rod_left_in(the_case) == cases::RodState::seized)
    leave_rod_in(the_case, model, bench, mechanics, moisture, neck.progress);
  d.slip_bow = s.bow.slip * h.slip_bow.reads.bow;
  d.wood_bow = s.bow.wood * h.wood_bow.reads.bow;
  d.slip_twist = s.twist.slip * h.slip_twist.reads.twist;
  d.wood_twist = s.twist.wood * h.wood_twist.reads.twist;
  d.severity = std::abs(s.bow.slip);
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

  const Reading reached = read(lines, state.displacement);
  d.as_built = {d.found.bow_bass - reached.bow_bass, d.found.bow - reached.bow,
                d.found.bow_treble - reached.bow_treble, d.found.twist - reached.twist};
  return neck;
}
} // namespace overbend::solver
