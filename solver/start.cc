// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/start.h"

#include "mesh/neck_mesh.h"
#include "solver/interfaces.h"
#include "solver/shop_words.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr double room = 293.15; // K, of the generating histories
// Glue that flows within seconds, and glue that does not move in decades, whatever the kind: far
// above the softening temperature and far below it, K.
constexpr double soft_above = 300, frozen_at = 200;
// s: hundreds of times what a neck takes there to slide to rest, also on a slow line (viscosity
// over the modulus at which it would hold half: 5 ms there), and so short that the wood stays
// elastic.
constexpr double soft_time = 1;
constexpr double default_years = 20 * 3.15576e7; // s, pull of an unknown cause
constexpr double told_moisture_bow = 0.03e-3;    // m: a smaller share is not worth a sentence
constexpr double least_reading = 1e-6; // m or rad: a history that moves less explains nothing

// Loads of a generating history: the strings, or a torque of 1 N m on the headstock.
struct Cause
{
  const StringPull *strings = nullptr;
  std::vector<double> torque;
};

class Generator
{
public:
  Generator(const Model &model_, const Bench &bench_, const BoardLines &lines_,
            Mechanics &mechanics_)
      : model(model_), bench(bench_), lines(lines_), mechanics(mechanics_),
        T(model_.space.n_nodes, room)
  {}

  // Slip: loaded while the line is soft and the wood elastic, locked, unloaded.
  MechanicsState slip(const Cause &cause)
  {
    MechanicsState state = unstressed(model);
    step(state, cause, soft_time, hottest_softening() + soft_above);
    loaded = read(lines, state.displacement);
    step(state, {}, 0, room);
    return state;
  }

  // Wood creep: loaded for years on a frozen line, unloaded.
  MechanicsState creep(const Cause &cause, double years)
  {
    MechanicsState state = unstressed(model);
    step(state, cause, 0, frozen_at);
    double time = 0;
    for (double dt = 3600; time < years; dt *= 3) {
      dt = std::min(dt, years - time);
      step(state, cause, dt, frozen_at);
      time += dt;
    }
    step(state, {}, 0, frozen_at);
    return state;
  }

  // Rest without load, on a frozen line.
  void rest(MechanicsState &state, double duration)
  {
    double time = 0;
    for (double dt = 3600; time < duration; dt *= 3) {
      dt = std::min(dt, duration - time);
      step(state, {}, dt, frozen_at);
      time += dt;
    }
  }

  // At once from as it was built to other moisture contents, on a hard line.
  MechanicsState swollen(const std::vector<double> &moisture)
  {
    const MechanicsState dry = unstressed(model);
    MechanicsState state = dry;
    mechanics.begin(dry, StepClimate{T, T, moisture, moisture, moisture, {}, {}}, 0);
    std::vector<double> u = state.displacement;
    try {
      mechanics.equilibrate(bench.springs({}, {}, 0), bench.load({}), u);
    } catch (const StepFailed &failure) {
      throw NotConverged(std::string("The swollen neck could not be found: ") + failure.what());
    }
    mechanics.finish(state, u);
    return state;
  }

  // Reading of an instant load on the unstressed neck, with a bonded line.
  Reading elastic(const Cause &cause)
  {
    MechanicsState state = unstressed(model);
    step(state, cause, 0, frozen_at);
    return read(lines, state.displacement);
  }
  // ... with a line that slips freely: the last slip() while it was loaded.
  Reading loaded;

private:
  double hottest_softening() const
  {
    double hottest = 0;
    for (const GlueLineModel &line : model.glue_line)
      hottest = std::max(hottest, line.law->softening_temperature());
    return hottest;
  }

  void step(MechanicsState &state, const Cause &cause, double dt, double glue_temperature)
  {
    mechanics.begin_with_glue_at(state, T, dt, glue_temperature);
    BenchSetup setup;
    setup.strings = cause.strings;
    std::vector<double> load = bench.load(setup);
    for (std::size_t i = 0; i < cause.torque.size(); ++i)
      load[i] += cause.torque[i];
    std::vector<double> u = state.displacement;
    try {
      mechanics.equilibrate(bench.springs(setup, {}, 0), load, u);
    } catch (const StepFailed &failure) {
      throw NotConverged(std::string("The found shape could not be reached by any history: ") +
                         failure.what());
    }
    MechanicsState next = state;
    mechanics.finish(next, u);
    state = std::move(next);
  }

  const Model &model;
  const Bench &bench;
  const BoardLines &lines;
  Mechanics &mechanics;
  std::vector<double> T;
};

Cause torque(const Model &model)
{
  std::vector<unsigned> nodes;
  for (const FaceNode &n : face_nodes(model.space, unsigned(mesh::Face::headstock_face)))
    nodes.push_back(n.node);
  Cause cause;
  cause.torque.assign(model.n_unknowns(), 0.);
  add_times(spread_moment(model.space, nodes, {1, 0, 0}), 1., cause.torque);
  return cause;
}

// The hot store as it was: strings on, hot air, cooled, strings off.
std::vector<cases::Phase> hot_store(const cases::Case &the_case)
{
  cases::Phase hot;
  hot.kind = cases::PhaseKind::store;
  hot.name = "hot store";
  hot.duration = the_case.warp.hot_time;
  hot.air = the_case.room;
  hot.air.temperature = the_case.warp.temperature;
  hot.strings = true;
  hot.rod = the_case.neck.rod.state;
  cases::Phase cool = hot;
  cool.name = "cooled, strings on";
  cool.air = the_case.room;
  cool.duration = 4 * 3600;
  cases::Phase off = cool;
  off.name = "strings off";
  off.strings = false;
  off.rod = cases::RodState::slack;
  off.duration = 600;
  return {hot, cool, off};
}

MechanicsState hot_history(const cases::Case &the_case, const Model &model, const Bench &bench,
                           const BoardLines &lines, const StringPull &strings, Mechanics &mechanics)
{
  const auto phases = hot_store(the_case);
  const std::vector<double> start(model.space.n_nodes, the_case.room.temperature);
  const ThermalHistory heat = simulate_heat(model, the_case.heater, phases, start);
  Progress progress;
  progress.state = unstressed(model);
  SimulationOptions options;
  options.bow_error = the_case.numerics.bow_error;
  return simulate(the_case, phases, model, bench, lines, strings, heat, progress, mechanics,
                  options)
      .end.state;
}

// Scales of the two histories for a wanted reading: slip first up to its share and its limit, the
// wood the rest. A history that does not move the reading gets nothing.
struct Split
{
  double slip = 0, wood = 0;
};
Split split(double wanted, double slip_unit, double wood_unit, double slip_share, double slip_limit)
{
  Split s;
  if (std::abs(slip_unit) > least_reading)
    s.slip = std::clamp(slip_share * wanted / slip_unit, -slip_limit, slip_limit);
  if (std::abs(wood_unit) > least_reading)
    s.wood = (wanted - s.slip * slip_unit) / wood_unit;
  return s;
}
} // namespace

double Diagnosis::wood_share() const
{
  const double sum = slip_bow + wood_bow;
  return std::abs(sum) > 0 ? wood_bow / sum : 0;
}

double string_lift(const Model &model, const Bench &bench, const BoardLines &lines,
                   const StringPull &strings, Mechanics &mechanics)
{
  Cause cause;
  cause.strings = &strings;
  return Generator(model, bench, lines, mechanics).elastic(cause).bow;
}

FoundNeck find_start(const cases::Case &the_case, const Model &model, const Bench &bench,
                     const BoardLines &lines, const StringPull &found_strings, Mechanics &mechanics,
                     const std::vector<double> &moisture)
{
  const cases::Warp &warp = the_case.warp;
  Generator generator(model, bench, lines, mechanics);
  FoundNeck neck;
  Diagnosis &d = neck.diagnosis;
  d.found = {the_case.found.bow_bass, the_case.found.bow_centre, the_case.found.bow_treble,
             the_case.found.twist.value_or(0)};

  Cause pull;
  pull.strings = &found_strings;
  const Cause twist = torque(model);
  d.lift = generator.elastic(pull).bow;
  const double bonded_twist = generator.elastic(twist).twist;
  MechanicsState slip_bow = generator.slip(pull);
  d.slipped_lift = generator.loaded.bow;
  d.ceiling = read(lines, slip_bow.displacement).bow;
  d.bonded_share = d.lift / d.slipped_lift;
  MechanicsState slip_twist = generator.slip(twist);
  d.bonded_twist_share = bonded_twist / generator.loaded.twist;
  const double years = warp.cause == cases::Cause::years_of_pull ? warp.pull_time : default_years;
  MechanicsState wood_bow = generator.creep(pull, years);
  MechanicsState wood_twist = generator.creep(twist, years);

  double slip_share = warp.slip_share;
  if (warp.cause == cases::Cause::years_of_pull)
    slip_share = 0;
  if (warp.cause == cases::Cause::hot_strung) {
    slip_share = 1;
    slip_bow = hot_history(the_case, model, bench, lines, found_strings, mechanics);
  }
  if (warp.rest_time > 0)
    for (MechanicsState *s : {&slip_bow, &slip_twist, &wood_bow, &wood_twist})
      generator.rest(*s, warp.rest_time);

  // Twist first: a torque bows the neck a little, and the bow is fitted after it.
  const Reading slip_t = read(lines, slip_twist.displacement),
                wood_t = read(lines, wood_twist.displacement);
  const Reading slip_b = read(lines, slip_bow.displacement),
                wood_b = read(lines, wood_bow.displacement);
  // Strings twist a neck hardly at all; what they do is left to the torque.
  Split bow = split(d.found.bow, slip_b.bow, wood_b.bow, slip_share, 1);
  Split tw;
  MechanicsState swollen = unstressed(model);
  if (!moisture.empty())
    swollen = generator.swollen(moisture);
  d.moisture_bow = read(lines, swollen.displacement).bow;
  d.moisture_twist = read(lines, swollen.displacement).twist;
  if (std::abs(d.moisture_bow) > told_moisture_bow)
    d.remarks.push_back("Swelling since the neck was built accounts for up to " +
                        fixed(1e3 * d.moisture_bow, 2) + " mm of the bow.");
  for (unsigned round = 0; round < 3; ++round) {
    const double twist_left =
        d.found.twist - d.moisture_twist - bow.slip * slip_b.twist - bow.wood * wood_b.twist;
    tw = split(twist_left, slip_t.twist, wood_t.twist, slip_share, 1e9);
    const double bow_left =
        d.found.bow - d.moisture_bow - tw.slip * slip_t.bow - tw.wood * wood_t.bow;
    bow = split(bow_left, slip_b.bow, wood_b.bow, slip_share, 1);
  }
  MechanicsState &state = neck.progress.state;
  state = std::move(swollen);
  add_times(state, bow.slip, slip_bow);
  add_times(state, bow.wood, wood_bow);
  add_times(state, tw.slip, slip_twist);
  add_times(state, tw.wood, wood_twist);
  d.slip_bow = bow.slip * slip_b.bow;
  d.wood_bow = bow.wood * wood_b.bow;
  d.slip_twist = tw.slip * slip_t.twist;
  d.wood_twist = tw.wood * wood_t.twist;
  d.severity = std::abs(bow.slip);

  const Reading reached = read(lines, state.displacement);
  d.as_built = {d.found.bow_bass - reached.bow_bass, d.found.bow - reached.bow,
                d.found.bow_treble - reached.bow_treble, d.found.twist - reached.twist};
  return neck;
}
} // namespace overbend::solver
