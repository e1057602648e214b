// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/history/pull.h"

#include "cases/text/units.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
constexpr unsigned most_rounds = 25;
constexpr double bow_met = 1e-8, twist_met = 1e-7; // m, rad: far below what a bench can read
// A pad that opens and closes in turn may keep it from coming that near. After so many rounds it is
// near enough at a ten-thousandth of a millimetre, a hundredth of what a bench reads.
constexpr unsigned patient_rounds = 12;
constexpr double eased = 10;
// Whole steps can also go round in a circle, between a pad that is closed and one that is open at
// an edge: after so many rounds they are shortened.
constexpr unsigned whole_steps = 8;
constexpr double shortened = 0.6;
// The solver must show changes smaller than that: share of its tolerance.
constexpr double finer = 0.03;
// A pull that had to be drawn taut so often would have to push.
constexpr unsigned slack_enough = 2;
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

// Which pulls can still be set, and so what they can bring: both readings by two, the bow by one.
struct Working
{
  unsigned first = 0;
  bool both = false;
};

Working working(const PullProblem &p, const PullResult &result)
{
  const bool two = p.bench.n_pulls() == 2;
  return {two && result.slack[0] ? 1U : 0U, two && !result.slack[0] && !result.slack[1]};
}

// Change of (bow, twist) by a take-up of a metre on each pull, states frozen.
Matrix2 response(const PullProblem &p)
{
  std::vector<std::vector<double>> loads(p.bench.n_pulls());
  for (unsigned k = 0; k < loads.size(); ++k) {
    const Spring &pull = p.bench.pull(k);
    loads[k].assign(p.load.size(), 0.);
    add_times(pull.row, -pull.stiffness, loads[k]);
  }
  p.mechanics.respond(loads);
  Matrix2 m{};
  for (unsigned k = 0; k < loads.size(); ++k) {
    m[0][k] = evaluate(p.lines.bow(1), loads[k]);
    m[1][k] = evaluate(p.lines.twist(), loads[k]);
  }
  return m;
}

// Take-ups that change the bow by a and, with two pulls at work, the twist by b.
std::array<double, 2> take_ups_for(const Matrix2 &m, const Working &at_work, double a, double b)
{
  std::array<double, 2> change{};
  if (at_work.both) {
    const double det = m[0][0] * m[1][1] - m[0][1] * m[1][0];
    change = {(a * m[1][1] - b * m[0][1]) / det, (b * m[0][0] - a * m[1][0]) / det};
  } else {
    change[at_work.first] = a / m[0][at_work.first];
  }
  return change;
}

// Elongation of a pull without its take-up: minus this is the take-up at which it is just taut.
double free_length(const PullProblem &p, unsigned k, const std::vector<double> &u)
{
  return evaluate(p.bench.cord_row(k), u) + p.offsets.cord_reference[k];
}

bool two_cords(const PullProblem &p)
{
  return p.bench.n_pulls() == 2 && p.bench.pull(0).one_sided && p.bench.pull(1).one_sided;
}

// A cord that went slack again and again would have to push: it is given up, and the other one
// brings the bow. Never both: of two it is the one that was to be let out further. A strap beside a
// bar cannot be given up: nothing else brings the bow.
void give_up_one(const PullProblem &p, const std::array<unsigned, 2> &went_slack,
                 const std::array<double, 2> &last_change, PullResult &result)
{
  if (!two_cords(p) || result.slack[0] || result.slack[1])
    return;
  const bool first = went_slack[0] > slack_enough, second = went_slack[1] > slack_enough;
  const bool first_further = last_change[0] < last_change[1];
  result.slack = {first && (!second || first_further), second && (!first || !first_further)};
}

// A pull that hangs is drawn taut before anything else; one that was given up is let out for as
// long as it still pulls.
void draw_taut(PullProblem &p, const std::vector<double> &u, const PullResult &result,
               bool first_round, std::array<unsigned, 2> &went_slack)
{
  for (unsigned k = 0; k < p.bench.n_pulls(); ++k) {
    const double taut = -free_length(p, k, u);
    double &take_up = p.offsets.take_up[k];
    if (result.slack[k]) {
      take_up = std::min(take_up, taut - barely_taut);
    } else if (p.bench.pull(k).one_sided && take_up <= taut) {
      went_slack[k] += first_round ? 0 : 1;
      take_up = taut + barely_taut;
    }
  }
}

// Whether nothing pulls any more and the neck is still beyond the reading: while the line was soft
// it ran on past it. Nothing here can push it back.
bool ran_past(const PullProblem &p, const std::array<unsigned, 2> &went_slack,
              const std::array<double, 2> &last_change, const PullResult &result)
{
  for (unsigned k = 0; k < p.bench.n_pulls(); ++k) {
    const bool hangs = result.slack[k] || (went_slack[k] > slack_enough && last_change[k] < 0);
    if (!p.bench.pull(k).one_sided || !hangs)
      return false;
  }
  return true;
}

// Everything that pulls hangs loose, and the neck lies as it then does.
PullResult let_hang(PullProblem &p, std::vector<double> &u)
{
  PullResult result;
  result.reached = false;
  for (unsigned k = 0; k < p.bench.n_pulls(); ++k) {
    result.slack[k] = true;
    p.offsets.take_up[k] = std::min(p.offsets.take_up[k], -free_length(p, k, u) - barely_taut);
  }
  p.mechanics.equilibrate(p.bench.springs(p.setup, p.offsets, p.warmth), p.load, u);
  return result;
}

// What was asked for, how far the device came, and how it then pulled.
std::string not_reached(const PullProblem &p, double bow, double twist, unsigned rounds,
                        const std::vector<double> &u)
{
  const Reading now = read(p.lines, u);
  const BenchForces forces = p.bench.forces(p.bench.springs(p.setup, p.offsets, p.warmth), u);
  std::string text = "what bends the neck can only pull and not push, and does not bring it to a "
                     "bow of " +
                     signed_length(bow) + " on the centre line and a twist of " +
                     cases::degrees(twist) + "; after " + std::to_string(rounds) +
                     " rounds it reads " + signed_length(now.bow) + " and " +
                     cases::degrees(now.twist);
  for (unsigned k = 0; k < p.bench.n_pulls(); ++k)
    text += ", " + p.bench.pull(k).name + " " +
            (forces.cord[k] != 0 ? "at " + cases::all_forces(forces.cord[k]) : "slack");
  return text + ", cradle at " + cases::all_forces(forces.cradle) +
         "; move the cradle, or ask for another reading";
}
} // namespace

PullResult pull_to(PullProblem &p, double bow, double twist, std::vector<double> &u)
{
  if (!std::isfinite(bow) || !std::isfinite(twist))
    throw std::invalid_argument("a pull to a reading that is no number");
  const FinerTolerance while_pulling(p.mechanics);
  PullResult result;
  std::array<unsigned, 2> went_slack{};
  std::array<double, 2> last_change{};
  for (unsigned round = 0; round < most_rounds; ++round) {
    if (p.ran_on && ran_past(p, went_slack, last_change, result))
      return let_hang(p, u);
    give_up_one(p, went_slack, last_change, result);
    if (!two_cords(p) && went_slack[0] > slack_enough)
      throw StepFailed(not_reached(p, bow, twist, round, u));
    draw_taut(p, u, result, round == 0, went_slack);
    p.mechanics.equilibrate(p.bench.springs(p.setup, p.offsets, p.warmth), p.load, u);
    const Reading now = read(p.lines, u);
    const double bow_left = bow - now.bow, twist_left = twist - now.twist;
    const Working at_work = working(p, result);
    const double near = round < patient_rounds ? 1 : eased;
    const bool twist_there = std::abs(twist_left) < near * twist_met;
    if (std::abs(bow_left) < near * bow_met && (!at_work.both || twist_there)) {
      result.reached = at_work.both || twist_there;
      return result;
    }
    last_change = take_ups_for(response(p), at_work, bow_left, twist_left);
    const double share = round < whole_steps ? 1 : shortened;
    for (unsigned k = 0; k < p.bench.n_pulls(); ++k)
      p.offsets.take_up[k] += std::clamp(share * last_change[k], -longest_pull, longest_pull);
  }
  throw StepFailed(not_reached(p, bow, twist, most_rounds, u));
}

void pull_unit(PullProblem &p, const PullResult &result, Unit &unit)
{
  bool hangs = true;
  for (unsigned k = 0; k < p.bench.n_pulls(); ++k)
    hangs = hangs && result.slack[k];
  if (hangs)
    return; // what hangs loose changes nothing
  std::vector<std::vector<double>> loads{p.mechanics.unit_load(unit.state)};
  p.bench.add_unit_load(p.setup, unit.offsets, p.mechanics.closed_springs(), loads[0]);
  p.mechanics.respond(loads);
  const Reading now = read(p.lines, loads[0]);
  const auto change =
      take_ups_for(response(p), working(p, result), unit.bow - now.bow, unit.twist - now.twist);
  for (unsigned k = 0; k < p.bench.n_pulls(); ++k)
    unit.offsets.take_up[k] += change[k];
}
} // namespace overbend::solver
