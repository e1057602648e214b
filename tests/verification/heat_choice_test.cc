// SPDX-License-Identifier: GPL-3.0-or-later
// The set-up of heat that a plan chooses keeps every place within its own limit, with the overshoot
// of what holds it. A coarse neck, histories of heat alone.
#include "cases/read/read_case.h"
#include "materials/tables.h"
#include "mesh/make_neck_mesh.h"
#include "solver/heating/heat_choice.h"

#include <gtest/gtest.h>

using namespace overbend;
using solver::HeatChoice;
using solver::HeatStop;
using solver::WrapReason;

namespace
{
constexpr double celsius = 273.15;

HeatChoice choice_for(const std::string &more)
{
  cases::Case c = cases::parse_case("preset = \"electric\"\n[glue]\nboard = \"white PVA\"\n"
                                    "[found]\nbow = \"1 mm\"\n" +
                                        more,
                                    "heat.toml");
  return solver::choose_heat(c, mesh::make_neck_mesh(c.neck, 0.5), materials::tables(), 0.23e-3);
}

const char *const hard = "[finish]\nkind = \"polyurethane\"\nbinding = \"none\"\n";
const char *const tender = "[finish]\nkind = \"nitro lacquer\"\nbinding = \"none\"\n";

void expect_within_limits(const HeatChoice &choice)
{
  const solver::HeatPlaces &p = choice.with_overshoot;
  EXPECT_LE(p.line, choice.limits.glue_line + 1e-6);
  EXPECT_LE(p.board_surface, choice.limits.surface + 1e-6);
  EXPECT_LE(p.fret_tops, choice.limits.fret_tops + 1e-6);
  EXPECT_LE(p.back_under_cradle, choice.limits.back + 1e-6);
  EXPECT_GT(p.line, choice.at_set_point.line);
}
} // namespace

TEST(HeatChoice, AHardFinishIsWrappedAndHeldAtTheHottestThatEachPlaceBears)
{
  const HeatChoice choice = choice_for(hard);
  expect_within_limits(choice);
  EXPECT_EQ(choice.wrap, WrapReason::keeps_the_line_even);
  EXPECT_EQ(choice.decided_by, HeatStop::line);
  // Whole degrees: two more would take the line over its limit.
  const double excess = choice.with_overshoot.bar - celsius - 20;
  const double two_more = (choice.with_overshoot.line - celsius - 20) * (excess + 2) / excess;
  EXPECT_GT(celsius + 20 + two_more, choice.limits.glue_line);
}

// Common practice, no source: nitrocellulose takes the print of a pad from 40 degC on.
TEST(HeatChoice, ATenderFinishUnderTheCradleStaysBelowWhereItPrints)
{
  const HeatChoice choice = choice_for(tender);
  expect_within_limits(choice);
  EXPECT_NEAR(choice.limits.back, celsius + 40, 1e-9);
  EXPECT_EQ(choice.wrap, WrapReason::back_would_print);
}

// A probe at 48 degC in a room of 20 that is overshot by 3 K has 31/28 of its excess, and so has
// the line; the bar never passes its own stop by more than 3 K.
TEST(HeatChoice, AnOvershotProbeWarmsTheLineInProportion)
{
  const HeatChoice choice =
      choice_for(std::string(hard) +
                 "[heater]\nheld_by = \"probe\"\nbar_temperature = \"90 degC\"\novershoot = \"3 "
                 "K\"\n[probe]\nhold_at = \"48 degC\"\n[room]\ntemperature = \"20 degC\"\n");
  const double room = celsius + 20;
  EXPECT_NEAR((choice.with_overshoot.line - room) / (choice.at_set_point.line - room), 31. / 28,
              1e-9);
  EXPECT_GT(choice.with_overshoot.bar, choice.at_set_point.bar);
  EXPECT_LE(choice.with_overshoot.bar, celsius + 93 + 1e-9);
}
