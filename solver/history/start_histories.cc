// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/history/start_histories.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr double default_years = 20 * 3.15576e7; // s, pull of an unknown cause
constexpr double told_take_up = 1e-3; // m, of the clamp that tells how much a bonded neck keeps

// The rest of a seized rod's pull and the strings' is too little to make a bow of: scaled up to a
// reading it would be more than any history.
constexpr double least_of_lift = 0.2; // of the lift of the strings alone

// Neck without strings before any history: swollen, and with a seized rod's pull in it.
void make_base(const NeckOnBench &neck, Generator &generator, const Cause &rod,
               const std::vector<double> &moisture, Histories &h, Diagnosis &d)
{
  h.swollen = moisture.empty() && !rod.rod_pulls_evenly ? unstressed(neck.model)
                                                        : generator.swollen(moisture);
  const Reading base = read(neck.lines, h.swollen.displacement);
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
} // namespace

Histories make_histories(const NeckOnBench &neck, const StringPull &found_strings,
                         const std::vector<double> &moisture, Generator &generator, Diagnosis &d)
{
  const cases::Warp &warp = neck.the_case.warp;
  Histories h;
  const Cause rod = seized_rod(neck.the_case), twist = torque(neck.model);
  h.pull.strings = &found_strings;
  make_base(neck, generator, rod, moisture, h, d);
  pull_strings(generator, found_strings, rod, h, d);
  d.ceiling = read(neck.lines, h.slip_bow.state.displacement).bow;
  d.bonded_share = share_of_bonded_clamp(neck.the_case, generator);
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
    h.slip_bow.state = hot_history(neck, found_strings, moisture, h.swollen, warp.rest_time);
  }
  for (Scaled *s : {&h.slip_bow, &h.slip_twist, &h.wood_bow, &h.wood_twist})
    s->reads = read(neck.lines, s->state.displacement);
  return h;
}
} // namespace overbend::solver
