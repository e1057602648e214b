// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/verdict/verdict.h"

#include <algorithm>
#include <stdexcept>

namespace overbend::solver
{
void Verdict::refuse(const std::string &reason, const std::vector<std::string> &instead, Kind as)
{
  Verdict added;
  added.reasons = {reason};
  added.alternatives = instead;
  added.kind = as;
  join(added);
}

void Verdict::caution(const std::string &sentence, Of what)
{
  Verdict added;
  added.kind = with_cautions;
  added.cautions = {sentence};
  if (what == Of::the_neck)
    added.of_the_neck = {sentence};
  join(added);
}

const std::vector<std::string> &Verdict::shown_cautions() const
{
  return refused() ? of_the_neck : cautions;
}

void Verdict::change(const std::vector<std::string> &changes, const std::vector<std::string> &why)
{
  kind = std::max(kind, changed);
  reasons.insert(reasons.end(), changes.begin(), changes.end());
  for (const std::string &sentence : why)
    reasons.push_back("As asked: " + sentence);
}

void Verdict::join(const Verdict &other)
{
  kind = std::max(kind, other.kind);
  const auto add = [](std::vector<std::string> &to, const std::vector<std::string> &from) {
    for (const std::string &sentence : from)
      if (std::find(to.begin(), to.end(), sentence) == to.end())
        to.push_back(sentence);
  };
  add(reasons, other.reasons);
  add(cautions, other.cautions);
  add(of_the_neck, other.of_the_neck);
  add(alternatives, other.alternatives);
}

namespace
{
struct KindWords
{
  const char *people, *programs;
};

KindWords words_of(Verdict::Kind kind)
{
  switch (kind) {
  case Verdict::do_it:
    return {"do it", "do_it"};
  case Verdict::with_cautions:
    return {"do it, with these cautions", "with_cautions"};
  case Verdict::changed:
    return {"do it, with this changed", "changed"};
  case Verdict::nothing_to_do:
    return {"nothing to do", "nothing_to_do"};
  case Verdict::condition_first:
    return {"condition it first, and read it again", "condition_first"};
  case Verdict::not_by_heat:
    return {"not by heat", "not_by_heat"};
  case Verdict::do_not:
    return {"do not do it", "do_not"};
  }
  throw std::logic_error("a verdict without words");
}
} // namespace

std::string in_words(Verdict::Kind kind)
{
  return words_of(kind).people;
}

std::string word(Verdict::Kind kind)
{
  return words_of(kind).programs;
}
} // namespace overbend::solver
