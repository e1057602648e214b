// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/heat.h"
#include "tests/report.h"
#include "tests/verification/heat_bench.h"
#include "tests/verification/section_by_differences.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

// The heated section, and what holds it, against a separate model in two dimensions. The neck is
// straight and alike all along, with the iron over all of the bar: half way along nothing flows
// along it, but for what the ends lose, whose reach is some 20 mm.
//
// Source of the expected numbers: finite differences of half a millimetre (section_by_differences).
// Tolerance: the program has four quadratic cells across half of the width, six in depth; its edge
// under a bar that ends 5 mm before it is where it is coarsest.
namespace overbend::tests
{
namespace
{
constexpr double tolerance = 0.3, edge_tolerance = 0.5; // K
constexpr double half_way = 0.21, hour = 3600;

solver::Model section_model()
{
  mesh::LayeredBeam beam;
  beam.length = 0.42;
  beam.width = 0.05;
  beam.cells_along = 14;
  beam.cells_across = 8;
  beam.cells_board = 2;
  beam.cells_shaft = 4;
  solver::Model model;
  model.space = solver::make_space(mesh::make_layered_beam(beam));
  model.glue_point = solver::pair_nodes(model.space, id(mesh::Face::board_glue_upper),
                                        id(mesh::Face::board_glue_lower), 0);
  const SectionByDifferences section;
  for (auto &piece : model.piece) {
    piece.conductivity_across = piece.conductivity_along = section.k_shaft;
    piece.heat_capacity = 678 * 1586;
  }
  auto &board = model.piece[unsigned(mesh::Piece::board)];
  board.conductivity_across = board.conductivity_along = section.k_board;
  board.heat_capacity = 864 * 1586;
  return model;
}

cases::Heater heater_along()
{
  cases::Heater heater;
  heater.width = 0.04;
  heater.thickness = 0.01;
  heater.from = heater.iron_from = 0;
  heater.to = heater.iron_to = 0.42;
  heater.contact = 60;
  heater.power = 100;
  heater.bar_sensor = half_way;
  return heater;
}

cases::Phase hot_phase(double duration, double degrees, double wrap)
{
  cases::Phase phase = phase_of("heat", duration, true, degrees);
  phase.air.film = SectionByDifferences().film;
  phase.air.wrapped = wrap > 0;
  phase.air.wrap_conductance = wrap;
  return phase;
}

struct Line
{
  double centre, edge, mean;
};

Line line_of(const solver::Model &model, const std::vector<double> &T)
{
  const SectionByDifferences section;
  const auto at = [&](double y) {
    return (solver::find_point(model.space, {half_way, y, 1e-9}).value(T) +
            solver::find_point(model.space, {half_way, y, -1e-9}).value(T)) /
               2 -
           zero_celsius;
  };
  Line line{at(section.y_centre()), at(section.y_edge()), 0};
  constexpr int n = 50;
  for (int i = 0; i < n; ++i)
    line.mean += at((i + 0.5) / n * section.width / 2) / n;
  return line;
}

double bar_half_way(const cases::Heater &heater, const solver::ThermalState &state)
{
  double bar = -zero_celsius;
  for (const auto &w : solver::bar_place(solver::bar_outline(heater), half_way))
    bar += w.weight * state.bar.at(w.node);
  return bar;
}

std::vector<double> at_air(const solver::Model &model)
{
  return std::vector<double>(model.space.n_nodes, celsius(21));
}

void compare(const std::string &what, const Line &expected, const Line &got)
{
  const auto check = [&](const char *place, double wanted, double found, double within) {
    report(what, std::string(place) + " of the line, degC", "finite differences in the test",
           wanted, found, within);
    EXPECT_NEAR(found, wanted, within) << what << ", " << place;
  };
  check("centre", expected.centre, got.centre, tolerance);
  check("edge", expected.edge, got.edge, edge_tolerance);
  check("mean", expected.mean, got.mean, tolerance);
}
} // namespace

TEST(HeatedSection, WrappedOrBareUnderABarThatIsFlatOrShapedIsThatOfASeparateModel)
{
  const solver::Model model = section_model();
  for (const double wrap : {0., 4.})
    for (const double radius : {0., 0.254}) {
      SectionByDifferences section;
      section.wrap = wrap;
      section.radius = radius;
      const auto T = section.solve(65);
      solver::HeatSource source(heater_along());
      source.board_radius = radius;
      const auto history =
          simulate_heat(model, source, {hot_phase(3 * hour, 65, wrap)}, at_air(model));
      compare(std::string("Section under a bar at 65 degC, ") + (wrap > 0 ? "wrapped" : "bare") +
                  (radius > 0 ? ", flat on 254 mm" : ", shaped"),
              {section.line_centre(T), section.line_edge(T), section.line_mean(T)},
              line_of(model, history.all().back().temperature));
    }
}

// Air in the gap: at 20 mm from the middle of a board of 254 mm the bar stands off by 0.789 mm,
// where 60 W/(m^2 K) become 1/(1/60 + 1/(0.026/0.789e-3 + 5)) = 23.3 and 400 become 34.7.
TEST(HeatedSection, GapUnderAFlatBarIsThatOfTheCircle)
{
  solver::BarOnBoard bar;
  bar.board_radius = 0.254;
  for (const auto &[contact, expected] : {std::pair(60., 23.26), std::pair(400., 34.67)}) {
    bar.contact = contact;
    report("Contact beside the middle of a round board", "W/(m2 K) at 20 mm", "worked by hand",
           expected, solver::contact_at(bar, 0.02), 0.02);
    EXPECT_NEAR(solver::contact_at(bar, 0.02), expected, 0.02);
    EXPECT_EQ(solver::contact_at(bar, 0), contact);
    EXPECT_DOUBLE_EQ(solver::contact_at(bar, 0.013), solver::contact_at(bar, -0.013));
  }
  bar.board_radius = 0;
  EXPECT_EQ(solver::contact_at(bar, 0.02), bar.contact);
}

// The probe in the edge of the line is brought to 45 degC: the bar then is where the separate model
// says it has to be, it never passed what it may, and the probe came there without swinging.
TEST(HeldByTheProbe, BarComesToWhatASeparateModelAsksForAndTheProbeStaysAtItsFigure)
{
  const solver::Model model = section_model();
  const SectionByDifferences section;
  solver::HeatSource source(heater_along());
  source.heater.held_by = cases::HeldBy::probe;
  source.hold_at = celsius(45);
  source.probe = solver::find_point(model.space, {half_way, section.y_edge(), 0});
  // A second phase that goes on as the first one left off, as a re-reading does.
  const auto history = simulate_heat(
      model, source, {hot_phase(2 * hour, 85, 0), hot_phase(2 * hour, 85, 0)}, at_air(model));
  double cool = 50, hot = 90;
  for (unsigned pass = 0; pass < 30; ++pass) {
    const double middle = (cool + hot) / 2;
    (section.line_edge(section.solve(middle)) < 45 ? cool : hot) = middle;
  }
  const double bar = bar_half_way(source.heater, history.all().back());
  report("Heat held by a probe in the edge of the line at 45 degC", "bar, degC",
         "finite differences in the test", cool, bar, 1.25);
  EXPECT_NEAR(bar, cool, 1.25); // edge_tolerance over its share of the bar's excess, 25 K of 62 K
  double highest = 0, swing = 0;
  for (const auto &state : history.all()) {
    const double probe = source.probe->value(state.temperature) - celsius(45);
    highest = std::max(highest, bar_half_way(source.heater, state));
    if (state.time > 1.5 * hour)
      swing = std::max(swing, std::abs(probe));
  }
  std::printf("bar at most %.1f degC, states %zu\n", highest, history.all().size());
  report("Heat held by a probe in the edge of the line", "off its figure after 1.5 h, K",
         "definition", 0, swing, 0.5);
  EXPECT_LT(swing, 0.5);
  EXPECT_LT(highest, 85.1);
}

// The second thermometer: where the bar may not become hot enough, the probe stays below its
// figure.
TEST(HeldByTheProbe, BarNeverPassesItsOwnFigure)
{
  const solver::Model model = section_model();
  solver::HeatSource source(heater_along());
  source.heater.held_by = cases::HeldBy::probe;
  source.hold_at = celsius(45);
  source.probe = solver::find_point(model.space, {half_way, SectionByDifferences().y_edge(), 0});
  const auto history = simulate_heat(model, source, {hot_phase(2 * hour, 55, 0)}, at_air(model));
  for (const auto &state : history.all())
    EXPECT_LT(bar_half_way(source.heater, state), 55 + 0.1) << state.time;
  EXPECT_NEAR(bar_half_way(source.heater, history.all().back()), 55, 0.1);
  EXPECT_LT(source.probe->value(history.all().back().temperature), celsius(44));
}

// A parked iron heats the bar until that gives to neck and air what comes through the contact: the
// bar's temperature where both are equal, by the separate model for a metre of neck.
TEST(ParkedIron, BarComesToWhereItLosesWhatTheIronGives)
{
  const solver::Model model = section_model();
  solver::HeatSource source(heater_along());
  source.heater.source = cases::HeatSource::parked;
  source.heater.iron_temperature = celsius(110);
  source.heater.iron_contact = 20;
  const SectionByDifferences section;
  const double outline = section.bar_width + 2 * source.heater.thickness;
  const auto gain = [&](double bar) {
    return 20 * section.bar_width * (110 - bar) -
           source.heater.film * outline * (bar - section.air) -
           section.heat_from_bar(section.solve(bar), bar);
  };
  double cool = 21, hot = 110;
  for (unsigned pass = 0; pass < 20; ++pass)
    (gain((cool + hot) / 2) > 0 ? cool : hot) = (cool + hot) / 2;
  const auto history = simulate_heat(model, source, {hot_phase(4 * hour, 0, 0)}, at_air(model));
  const auto &last = history.all().back();
  const double bar = bar_half_way(source.heater, last);
  // The ends lose more than the middle: 2 % of the bar's excess over 420 mm of aluminium.
  report("Iron parked at 110 degC", "bar half way, degC", "finite differences in the test", cool,
         bar, 1);
  EXPECT_NEAR(bar, cool, 1);
  EXPECT_NEAR(last.power, 20 * section.bar_width * 0.42 * (110 - bar), 0.05 * last.power);
}
} // namespace overbend::tests
