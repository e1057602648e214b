// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/run_readings.h"
#include "tests/report.h"
#include "tests/verification/guard_neck.h"
#include "tests/verification/plan_neck.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

// Bass and treble of a whole neck are mirror images: tuners, grain, cords and pulls turned over
// must turn the readings over and nothing else. The only source is symmetry. The histories start
// from the unstressed neck, so the found readings do not enter, and end before strings go on.
namespace overbend::tests
{
namespace
{
constexpr double degree = 3.14159265358979323846 / 180;
constexpr double allowed = 1e-6; // of the largest value

// What the cords are to bring the neck to.
struct Pulled
{
  double bow = 0, twist = 0; // m, rad
};

void negate(std::optional<double> &value)
{
  if (value)
    value = -*value;
}

void mirror(cases::Grain &grain)
{
  grain.ring_angle = -grain.ring_angle;
  grain.run_out_across = -grain.run_out_across;
  negate(grain.ring_angle_at_end);
  negate(grain.run_out_across_at_end);
}

cases::Case mirrored(cases::Case c)
{
  using cases::TunerLayout;
  if (c.tuners.layout != TunerLayout::both_sides)
    c.tuners.layout = c.tuners.layout == TunerLayout::bass_line ? TunerLayout::treble_line
                                                                : TunerLayout::bass_line;
  for (cases::Piece *piece : {&c.neck.shaft, &c.neck.board, &c.neck.headstock.piece})
    mirror(piece->grain);
  c.probe.across = -c.probe.across;
  return c;
}

// All posts on the bass side and grain at odd angles that change along the neck.
cases::Case lopsided_case()
{
  cases::Case c = guard_case();
  c.tuners.layout = cases::TunerLayout::bass_line;
  c.tuners.across = 15e-3;
  c.bench.device = cases::Device::headstock_bar;
  c.neck.shaft.grain = {0.5, 0.04, 0.02, 0.9, -0.02, {}};
  c.neck.board.grain = {-0.3, -0.03, 0.01, -0.6, 0.03, {}};
  c.probe.across = 0.4;
  return c;
}

// Posts on both sides, flat-sawn wood with run-out in depth only.
cases::Case symmetric_case()
{
  cases::Case c = guard_case();
  c.neck.shaft.grain = {0, 0, 0.02, {}, {}, {}};
  c.neck.board.grain = {0, 0, 0.01, {}, {}, {}};
  c.probe.across = 0;
  return c;
}

// Cold pull, short heat, release while hot.
std::vector<cases::Phase> short_phases(const cases::Case &c, const Pulled &pulled)
{
  std::vector<cases::Phase> phases;
  for (cases::Phase phase : c.phases) {
    using cases::PhaseKind;
    if (phase.kind != PhaseKind::clamp && phase.kind != PhaseKind::heat &&
        phase.kind != PhaseKind::release)
      continue;
    if (phase.pull.kind == cases::Pull::Kind::to_reading) {
      phase.pull.bow = pulled.bow;
      phase.pull.twist = pulled.twist;
    }
    phase.duration = phase.kind == PhaseKind::heat ? 1500 : 60;
    phases.push_back(phase);
  }
  return phases;
}

// All that a run writes as readings.
struct Written
{
  solver::History history;
  solver::ReadingsTable readings, gaps;
};

Written short_run(cases::Case c, const Pulled &pulled)
{
  c.phases = short_phases(c, pulled);
  PlanNeck neck(c);
  const solver::ThermalHistory heat = solver::heat_of(neck.work, c.phases);
  const solver::MoistureHistory moisture = solver::moisture_of(neck.work, c.phases, heat);
  solver::BenchRecorder recorder(neck.work, heat, &moisture);
  solver::SimulationOptions options;
  options.moisture = &moisture;
  options.observe = [&](const solver::StepRecord &step, const solver::MechanicsState &state) {
    recorder.observe(step, state);
  };
  Written all;
  all.history = neck.run(c.phases, heat, neck.unstressed(), options);
  const solver::HeatReader reader(neck.work, heat, &moisture);
  all.readings = solver::readings_table(c, all.history, recorder.states, {},
                                        solver::heat_at_steps(all.history, reader));
  std::vector<double> across;
  for (int fret = 0; fret <= c.neck.frets; ++fret)
    across.push_back(neck.work.lines.distance_across(fret));
  all.gaps = solver::gaps_table(c, all.history, {}, across);
  return all;
}

double largest_bow(const solver::History &history)
{
  double size = 0;
  for (const solver::StepRecord &step : history.steps)
    size = std::max({size, std::abs(step.reading.bow_bass), std::abs(step.reading.bow),
                     std::abs(step.reading.bow_treble)});
  return size;
}

bool begins(const std::string &name, const std::string &with)
{
  return name.rfind(with, 0) == 0;
}

// The name of the reading that must show the same when the sides are swapped.
std::string partner_of(std::string name)
{
  for (const auto &[from, to] : {std::pair("bass", "treble"), std::pair("treble", "bass")})
    if (const auto at = name.find(from); at != std::string::npos)
      return name.replace(at, std::string(from).size(), to);
  return name;
}

std::size_t column(const solver::ReadingsTable &table, const std::string &name)
{
  std::size_t i = 0;
  while (i < table.columns.size() && table.columns[i].name != name)
    ++i;
  return i;
}

double largest(const solver::ReadingsTable &table, std::size_t i)
{
  double size = 0;
  for (const auto &row : table.rows)
    size = std::max(size, std::abs(row.values[i].value_or(0)));
  return size;
}

// Share that 1 of a column counts as: shapes of the board count by the largest bow (twist times the
// nut's width), frets must be the same, all else counts by its own largest value.
double scale(const solver::ReadingsTable &a, std::size_t i, std::size_t j, double bow, double width)
{
  const auto &[name, quantity] = a.columns[i];
  if (quantity == solver::Quantity::fret)
    return 1;
  if (quantity == solver::Quantity::angle)
    return width / bow;
  for (const char *shape : {"bow", "deepest bow", "straightedge", "relief", "twist", "gap"})
    if (begins(name, shape))
      return 1 / bow;
  const double size = std::max(largest(a, i), largest(a, j));
  return size > 0 ? 1 / size : 0;
}

// Largest difference of each column from the mirror image of the other table, as a share. A column
// without a partner, or one that is empty where its partner is not, differs by infinity.
std::map<std::string, double> against_mirror(const solver::ReadingsTable &a,
                                             const solver::ReadingsTable &b, double bow,
                                             double width)
{
  std::map<std::string, double> differences;
  for (std::size_t i = 0; i < a.columns.size(); ++i) {
    const std::string &name = a.columns[i].name;
    const std::size_t j = column(b, partner_of(name));
    double &worst = differences[name];
    if (j == b.columns.size() || a.rows.size() != b.rows.size()) {
      worst = HUGE_VAL;
      continue;
    }
    const double sign = begins(name, "twist") ? -1 : 1;
    const double counts = scale(a, i, j, bow, width);
    for (std::size_t r = 0; r < a.rows.size(); ++r) {
      const auto &one = a.rows[r].values[i], &other = b.rows[r].values[j];
      if (one.has_value() != other.has_value())
        worst = HUGE_VAL;
      else if (one)
        worst = std::max(worst, counts * std::abs(*one - sign * *other));
    }
  }
  return differences;
}

double worst_of(const std::map<std::string, double> &differences)
{
  double worst = 0;
  for (const auto &[name, share] : differences)
    worst = std::max(worst, share);
  return worst;
}

void expect_mirrored(const std::string &table, const solver::ReadingsTable &a,
                     const solver::ReadingsTable &b, double bow, double width)
{
  const auto differences = against_mirror(a, b, bow, width);
  for (const auto &[name, share] : differences) {
    EXPECT_LE(share, allowed) << table << ": " << name;
    std::printf("  %-70s %.1e\n", name.c_str(), share);
  }
  report("Whole neck with its sides swapped",
         "all " + std::to_string(differences.size()) + " columns of " + table +
             ", worst share of the largest value",
         "symmetry", 0, worst_of(differences), allowed);
}

void expect_none(const std::string &what, const std::string &quantity, double share)
{
  report(what, quantity, "symmetry", 0, share, allowed);
  EXPECT_LE(share, allowed) << quantity;
}

void print_ends(const char *name, const solver::History &history)
{
  for (const solver::PhaseEnd &end : history.phases)
    std::printf("%s: bow %.6f %.6f %.6f mm, twist %.6f deg, hardest pulls %.4f %.4f N\n", name,
                1e3 * end.reading.bow_bass, 1e3 * end.reading.bow, 1e3 * end.reading.bow_treble,
                end.reading.twist / degree, end.largest_cord[0], end.largest_cord[1]);
}
} // namespace

TEST(MirrorOfAWholeNeck, SwappedSidesGiveTheMirrorImageOfEveryReading)
{
  const cases::Case c = lopsided_case();
  const Written one = short_run(c, {-1.5e-3, 0.4 * degree});
  const Written other = short_run(mirrored(c), {-1.5e-3, -0.4 * degree});
  print_ends("as it is", one.history);
  print_ends("mirrored", other.history);
  ASSERT_EQ(one.history.steps.size(), other.history.steps.size());
  const double width = c.neck.nut_width, bow = largest_bow(one.history);
  expect_mirrored("readings.csv", one.readings, other.readings, bow, width);
  expect_mirrored("gaps.csv", one.gaps, other.gaps, bow, width);
  // The case is not symmetric: something is there to be mirrored.
  const auto own = against_mirror(one.readings, one.readings, bow, width);
  for (const char *start : {"bow bass", "twist between", "bass end of the bar", "take-up bass",
                            "deepest bow bass, over"}) {
    const auto found = own.lower_bound(start);
    ASSERT_TRUE(found != own.end() && begins(found->first, start)) << start;
    EXPECT_GT(found->second, 1e-2) << found->first;
  }
}

// The comparison itself: a reading that one side lacks, or that is not mirrored, must be seen.
TEST(MirrorOfAWholeNeck, AForgottenOrUnmirroredReadingIsNoticed)
{
  solver::ReadingsTable table;
  table.columns = {{"bow bass", solver::Quantity::length},
                   {"bow treble", solver::Quantity::length}};
  table.rows = {{0, "clamp", "start", {1e-3, 2e-3}}};
  solver::ReadingsTable swapped = table;
  std::swap(swapped.rows[0].values[0], swapped.rows[0].values[1]);
  EXPECT_EQ(worst_of(against_mirror(table, swapped, 1e-3, 0.04)), 0);
  EXPECT_NEAR(worst_of(against_mirror(table, table, 1e-3, 0.04)), 1, 1e-12);
  swapped.columns[1].name = "bow of the treble side";
  EXPECT_EQ(worst_of(against_mirror(table, swapped, 1e-3, 0.04)), HUGE_VAL);
  swapped = table;
  swapped.rows[0].values[0].reset();
  EXPECT_EQ(worst_of(against_mirror(table, swapped, 1e-3, 0.04)), HUGE_VAL);
}

TEST(MirrorOfAWholeNeck, SymmetricCaseHasNoTwist)
{
  const cases::Case c = symmetric_case();
  const Written run = short_run(c, {-1.5e-3, 0});
  const solver::History &history = run.history;
  print_ends("symmetric", history);
  const double bow = largest_bow(history);
  EXPECT_GT(bow, 1e-3);
  double twist = 0;
  for (const solver::StepRecord &step : history.steps)
    twist = std::max(twist, std::abs(step.reading.twist));
  expect_none("Symmetric whole neck", "twist times width, share of the largest bow",
              twist * c.neck.nut_width / bow);
  const auto own = against_mirror(run.readings, run.readings, bow, c.neck.nut_width);
  double sides = 0;
  for (const auto &[name, share] : own)
    if (begins(name, "bow"))
      sides = std::max(sides, share);
  expect_none("Symmetric whole neck", "bass against treble bow, share of the largest bow", sides);
}
} // namespace overbend::tests
