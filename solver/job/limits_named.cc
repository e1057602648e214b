// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/limits_named.h"

#include "cases/text/units.h"
#include "solver/words/shop_words.h"

#include <algorithm>

namespace overbend::solver
{
namespace
{
using cases::all_forces;
using cases::both_lengths;

bool is_passed(const Demand &d)
{
  return d.share >= 1 + 1e-6;
}

std::string when(const Demand &d)
{
  return d.moment == Moment::cold ? "cold" : "hot";
}

std::string passed_in_words(const Demand &d)
{
  switch (d.limit) {
  case Limit::cord_pull:
    return capital(when(d)) + ", the " + d.place + " would have to pull " + all_forces(d.asked) +
           "; it should not carry more than " + all_forces(d.bears) + ".";
  case Limit::tuner_pull:
    return capital(when(d)) + ", the " + d.place + " would have to pull " + all_forces(d.asked) +
           "; its posts should not carry more than " + all_forces(d.bears) + ".";
  case Limit::overbend:
    return "It would have to be clamped " + both_lengths(d.asked) +
           " past straight; no neck of this length should be clamped further than " +
           both_lengths(d.bears) + ".";
  default:
    return capital(when(d)) + ", the " + d.place + " would be used to " + fixed(100 * d.asked, 0) +
           " % of its strength; " + fixed(100 * d.bears, 0) + " % is the limit.";
  }
}

// A pass that stops short of its target stays just within what stops it.
std::string held_back_in_words(const Demand &d)
{
  const std::string start = "What holds it back: ";
  switch (d.limit) {
  case Limit::cord_pull:
    return start + when(d) + ", the " + d.place + " pulls " + all_forces(d.asked) +
           " by then, and it should not carry more than " + all_forces(d.bears) + ".";
  case Limit::tuner_pull:
    return start + when(d) + ", the " + d.place + " pulls " + all_forces(d.asked) +
           " by then, and its posts should not carry more than " + all_forces(d.bears) + ".";
  case Limit::overbend:
    return start + "it is clamped " + both_lengths(d.asked) +
           " past straight by then, and no neck of this length should be clamped further than " +
           both_lengths(d.bears) + ".";
  default:
    return start + when(d) + ", the " + d.place + " is used to " + fixed(100 * d.asked, 0) +
           " % of its strength by then, and " + fixed(100 * d.bears, 0) + " % is the limit.";
  }
}

// The demand that a pass was kept within, if it was: the largest of that kind.
const Demand *held_back_by(const PassPlan &pass)
{
  const auto it = std::find_if(pass.demands.begin(), pass.demands.end(), [&](const Demand &d) {
    return d.limit == pass.limit && (d.limit != Limit::strength || d.region == pass.limit_place);
  });
  return it == pass.demands.end() ? nullptr : &*it;
}

// Limits of one job, each with the most that was asked of it, in the order in which they came up.
class Named
{
public:
  void note(const Demand &d)
  {
    const auto same = std::find_if(all.begin(), all.end(), [&](const Demand &other) {
      // Of strength the moment that asks most is enough; pulls are read cold and hot.
      return other.limit == d.limit && other.place == d.place &&
             (other.moment == d.moment || d.limit == Limit::strength);
    });
    if (same == all.end())
      all.push_back(d);
    else if (d.share > same->share)
      *same = d;
  }
  void note_passed(const std::vector<Demand> &demands)
  {
    for (const Demand &d : demands)
      if (is_passed(d))
        note(d);
  }

  std::vector<Demand> all;
};
} // namespace

std::vector<Demand> limits_named(const Job &job)
{
  Named named;
  for (const PassPlan &pass : job.passes) {
    named.note_passed(pass.demands);
    if (const Demand *binding = held_back_by(pass))
      named.note(*binding);
  }
  for (const TriedSetUp &tried : job.tried)
    named.note_passed(tried.demands);
  return named.all;
}

std::vector<std::string> limits_in_words(const Job &job)
{
  std::vector<std::string> sentences;
  for (const Demand &d : limits_named(job))
    sentences.push_back(is_passed(d) ? passed_in_words(d) : held_back_in_words(d));
  return sentences;
}
} // namespace overbend::solver
