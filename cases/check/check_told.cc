// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/check/check_case.h"
#include "cases/check/checking.h"
#include "cases/text/units.h"

#include <algorithm>
#include <cmath>

// What is told of slots, loaded bows and hot evenings, against the rest of the case.
namespace overbend::cases
{
namespace
{
// How far bows along three lines of one board can lie apart, and the middle one from the mean of
// the edges [E]: a twist of 5 degrees raises the corners of a nut of 42 mm by 1.8 mm each.
constexpr double edges_apart = 4e-3, middle_off = 2e-3;

void check_bows(const Case &result)
{
  const Found &found = result.found;
  const double apart = std::abs(found.bow_bass - found.bow_treble);
  const double off = std::abs(found.bow_centre - (found.bow_bass + found.bow_treble) / 2);
  if (apart <= edges_apart && off <= middle_off)
    return;
  refuse_any(result, {"found.bow_bass", "found.bow_treble", "found.bow"},
             "the bows of " + both_lengths(found.bow_bass) + " along the bass edge, " +
                 both_lengths(found.bow_centre) + " in the middle and " +
                 both_lengths(found.bow_treble) +
                 " along the treble edge are not those of one board",
             "read all three again over the same rest frets, forward positive; a neck of that "
             "shape is no work for clamp and heat");
}

void check_slots(const Case &result)
{
  const NeckShape &neck = result.neck;
  if (neck.slot_depth && *neck.slot_depth >= neck.board_thickness)
    refuse_any(result, {"board.slot_depth", "board.thickness"},
               "the fret slots (" + both_lengths(*neck.slot_depth) +
                   ") are as deep as the board is thick (" + both_lengths(neck.board_thickness) +
                   ")",
               "measure both at the board's edge");
}

// Readings with the rod loaded and slack need a rod that can be both.
void check_rod_readings(const Case &result)
{
  const Found &found = result.found;
  const Rod &rod = result.neck.rod;
  const bool works =
      adjustable(rod) && rod.state != RodState::broken && rod.state != RodState::seized;
  const auto need_a_rod = [&](const char *name) {
    refuse(result, name, "this neck has no rod that could be loaded and slackened",
           "leave it out, or see kind and state under [rod]");
  };
  if (found.strung_bow_rod_slack && !works)
    need_a_rod("found.strung_bow_rod_slack");
  if (found.bow_rod_loaded && !works)
    need_a_rod("found.bow_rod_loaded");
  if (found.bow_rod_loaded && found.rod_loaded)
    refuse(result, "found.bow_rod_loaded",
           "`rod_loaded` says that `bow` itself was read with the rod loaded",
           "slacken the rod, read `bow` again and leave rod_loaded out");
}

void check_hot_evenings(const Case &result)
{
  const HotEvenings &hot = result.hot_evenings;
  if (!(hot.hours > 0))
    return;
  double warmest = 0;
  for (const MonthAir &month : result.year)
    warmest = std::max(warmest, month.temperature);
  if (hot.temperature <= warmest)
    refuse_any(result, {"climate.hot_temperature", "climate.hot_hours_a_week"},
               "the hot hours (" + both_temperatures(hot.temperature) +
                   ") are no hotter than the warmest month (" + both_temperatures(warmest) + ")",
               "give the air on the stage or in the car");
}
void check_first_pass(const Case &result)
{
  const FirstPass &pass = result.first_pass;
  if (pass.overbend.has_value() != pass.bow.has_value())
    refuse(result, pass.overbend ? "first_pass.overbend" : "first_pass.bow",
           pass.overbend
               ? "what the clamp was set to is given, and not what was read after it"
               : "what was read after the first pass is given, and not what the clamp was "
                 "set to",
           "give both overbend and bow");
  const std::pair<const char *, bool> beside[] = {
      {"first_pass.overbend_twist", pass.overbend_twist != 0},
      {"first_pass.let_up_to", pass.let_up_to.has_value()},
      {"first_pass.let_up_twist", pass.let_up_twist.has_value()},
      {"first_pass.twist", pass.twist.has_value()},
      {"first_pass.bar_temperature", pass.bar_temperature.has_value()},
      {"first_pass.hold", pass.hold.has_value()}};
  for (const auto &[key, told] : beside)
    if (told && !pass.done())
      refuse(result, key, "a first pass is given without its overbend and the bow after it",
             "give first_pass.overbend and first_pass.bow as well");
  if (pass.let_up_twist && !pass.let_up_to)
    refuse(result, "first_pass.let_up_twist", "a twist is given for a clamp that was not let up",
           "give first_pass.let_up_to as well");
  if (pass.let_up_to && pass.hold && *pass.hold < 4 * result.schedule.reread_time)
    refuse_any(result, {"first_pass.hold", "first_pass.let_up_to"},
               "a hold of " + clock(*pass.hold) + " is too short to read in the middle of it",
               "give the time that it was hot after the first hot reading");
  if (pass.done() && result.lines.count("phase[1]") > 0)
    refuse(result, "first_pass.bow", "a first pass cannot be given beside phases of your own",
           "leave the phases to [schedule], or list both passes as phases and use `simulate`");
}
} // namespace

void check_told(const Case &result)
{
  check_bows(result);
  check_slots(result);
  check_rod_readings(result);
  check_hot_evenings(result);
  check_first_pass(result);
}
} // namespace overbend::cases
