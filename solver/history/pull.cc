// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/history/pull.h"

#include "cases/units.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr unsigned most_rounds = 25;
constexpr double bow_met = 1e-8, twist_met = 1e-7; // m, rad: far below what a bench can read
// The solver must show changes smaller than that: share of its tolerance.
constexpr double finer = 0.03;
constexpr double longest_pull = 8e-3; // m of cord in one round
constexpr double barely_taut = 1e-6;  // m

using Matrix2 = std::array<std::array<double, 2>, 2>;

class FinerTolerance
{
public:
  explicit FinerTolerance(Mechanics &the_mechanics)
      : mechanics(the_mechanics), usual(mechanics.tolerance)
  {
    mechanics.tolerance = finer * usual;
  }
  ~FinerTolerance() { mechanics.tolerance = usual; }
  FinerTolerance(const FinerTolerance &) = delete;
  FinerTolerance &operator=(const FinerTolerance &) = delete;

private:
  Mechanics &mechanics;
  const double usual;
};

// Change of (bow, twist) by a take-up of a metre on each side, states frozen.
Matrix2 response(const PullProblem &p)
{
  std::vector<std::vector<double>> loads(2);
  for (unsigned side = 0; side < 2; ++side) {
    loads[side].assign(p.load.size(), 0.);
    add_times(p.bench.cord_row(side), -p.bench.cord_stiffness(), loads[side]);
  }
  p.mechanics.respond(loads);
  Matrix2 m;
  for (unsigned side = 0; side < 2; ++side) {
    m[0][side] = evaluate(p.lines.bow(1), loads[side]);
    m[1][side] = evaluate(p.lines.twist(), loads[side]);
  }
  return m;
}

std::array<double, 2> solve(const Matrix2 &m, double a, double b)
{
  const double det = m[0][0] * m[1][1] - m[0][1] * m[1][0];
  return {(a * m[1][1] - b * m[0][1]) / det, (b * m[0][0] - a * m[1][0]) / det};
}

// Elongation of a cord without its take-up: minus this is the take-up at which it is just taut.
double free_length(const PullProblem &p, unsigned side, const std::vector<double> &u)
{
  return evaluate(p.bench.cord_row(side), u) + p.offsets.cord_reference[side];
}
// A cord that went slack again and again would have to push: it is given up, and the other one
// brings the bow. Never both: of two it is the one that was to be let out further.
void give_up_one(const std::array<unsigned, 2> &went_slack,
                 const std::array<double, 2> &last_change, PullResult &result)
{
  if (result.slack[0] || result.slack[1])
    return;
  const bool bass = went_slack[0] > 2, treble = went_slack[1] > 2;
  const bool bass_first = last_change[0] < last_change[1];
  result.slack = {bass && (!treble || bass_first), treble && (!bass || !bass_first)};
}

// What was asked for, how far the cords came, and how they then pulled.
std::string not_reached(const PullProblem &p, double bow, double twist,
                        const std::vector<double> &u)
{
  const Reading now = read(p.lines, u);
  const BenchForces forces = p.bench.forces(p.bench.springs(p.setup, p.offsets, p.warmth), u);
  std::string text = "the cords, which can only pull back, do not bring the neck to a bow of " +
                     signed_length(bow) + " on the centre line and a twist of " +
                     cases::degrees(twist) + "; after " + std::to_string(most_rounds) +
                     " rounds it reads " + signed_length(now.bow) + " and " +
                     cases::degrees(now.twist);
  for (unsigned side = 0; side < 2; ++side)
    text += std::string(side == 0 ? ", bass" : ", treble") + " cord " +
            (forces.cord[side] > 0 ? "at " + cases::all_forces(forces.cord[side]) : "slack");
  return text + ", cradle at " + cases::all_forces(forces.cradle) +
         "; move the cradle, or ask for another reading";
}
} // namespace

PullResult pull_to(PullProblem &p, double bow, double twist, std::vector<double> &u)
{
  const FinerTolerance while_pulling(p.mechanics);
  PullResult result;
  std::array<unsigned, 2> went_slack{};
  std::array<double, 2> last_change{};
  for (unsigned round = 0; round < most_rounds; ++round) {
    give_up_one(went_slack, last_change, result);
    for (unsigned side = 0; side < 2; ++side) {
      const double taut = -free_length(p, side, u);
      if (result.slack[side]) {
        // Given up: let out for as long as it still pulls.
        p.offsets.take_up[side] = std::min(p.offsets.take_up[side], taut - barely_taut);
      } else if (p.offsets.take_up[side] <= taut) {
        // A cord that hangs is drawn taut first.
        went_slack[side] += round > 0;
        p.offsets.take_up[side] = taut + barely_taut;
      }
    }
    p.mechanics.equilibrate(p.bench.springs(p.setup, p.offsets, p.warmth), p.load, u);
    const Reading now = read(p.lines, u);
    const double bow_left = bow - now.bow, twist_left = twist - now.twist;
    const bool one_cord = result.slack[0] || result.slack[1];
    if (std::abs(bow_left) < bow_met && (one_cord || std::abs(twist_left) < twist_met)) {
      result.reached = !one_cord;
      return result;
    }
    const Matrix2 m = response(p);
    std::array<double, 2> change{};
    if (one_cord) {
      const unsigned side = result.slack[0] ? 1 : 0;
      change[side] = bow_left / m[0][side];
    } else
      change = solve(m, bow_left, twist_left);
    last_change = change;
    for (unsigned side = 0; side < 2; ++side)
      p.offsets.take_up[side] += std::clamp(change[side], -longest_pull, longest_pull);
  }
  throw StepFailed(not_reached(p, bow, twist, u));
}

void pull_unit(PullProblem &p, const PullResult &result, Unit &unit)
{
  std::vector<std::vector<double>> loads{p.mechanics.unit_load(unit.state)};
  p.bench.add_unit_load(p.setup, unit.offsets, p.mechanics.closed_springs(), loads[0]);
  p.mechanics.respond(loads);
  const Reading now = read(p.lines, loads[0]);
  const Matrix2 m = response(p);
  std::array<double, 2> change{};
  if (result.slack[0] || result.slack[1]) {
    const unsigned side = result.slack[0] ? 1 : 0;
    change[side] = (unit.bow - now.bow) / m[0][side];
  } else
    change = solve(m, unit.bow - now.bow, unit.twist - now.twist);
  for (unsigned side = 0; side < 2; ++side)
    unit.offsets.take_up[side] += change[side];
}
} // namespace overbend::solver
