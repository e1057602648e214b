// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/intake/intake.h"

#include "cases/text/suggest.h"

#include <algorithm>

namespace overbend::cases
{
namespace
{
std::string complaint(const UnitError &error)
{
  return "  No: " + error.problem + "; " + error.remedy + "\n";
}
} // namespace

Intake::Intake(KnownNames known, Extent extent) : answers_(std::move(known)), extent_(extent)
{
  questions_.push_back({Ask::unit, 0, nullptr, EdgeLine::centre});
  for (std::size_t section = 0; section < bench_order().size(); ++section)
    for (const Declaration *field : bench_order()[section].fields) {
      if (field->name() == "found.bow")
        for (const EdgeLine line : edge_lines)
          questions_.push_back({Ask::gaps, section, nullptr, line});
      questions_.push_back({Ask::field, section, field, EdgeLine::centre});
    }
}

const Declaration *Intake::field() const
{
  return state_ == State::asking ? question().field : nullptr;
}

bool Intake::applies(std::size_t index) const
{
  const Declaration *const field = questions_[index].field;
  return field == nullptr || answers_.applies(*field);
}

bool Intake::is_asked(std::size_t index) const
{
  const Question &q = questions_[index];
  if (!applies(index))
    return false;
  if (extent_ == Extent::all)
    return true;
  const bool on_the_centre = q.ask == Ask::gaps && q.line == EdgeLine::centre;
  if (q.field == nullptr)
    return (q.ask == Ask::unit || on_the_centre) == (extent_ == Extent::needed);
  // Without a default, and where no preset was chosen.
  const bool open = q.field->preset_or.empty() && answers_.otherwise(*q.field).empty() &&
                    !answers_.from_gaps(*q.field);
  const bool needed = is_needed(*q.field) || open;
  return needed == (extent_ == Extent::needed);
}

void Intake::forward()
{
  do
    ++at_;
  while (at_ < questions_.size() && !is_asked(at_));
  if (at_ >= questions_.size())
    state_ = State::reviewing;
}

std::string Intake::reply(const std::string &line)
{
  if (state_ == State::written || state_ == State::left)
    return "";
  std::string text = trimmed(line);
  if (text.size() >= 2 && text.front() == '"' && text.back() == '"')
    return value(text.substr(1, text.size() - 2));
  const std::string plain = plain_word(text);
  const std::size_t blank = plain.find(' ');
  bool known = true;
  const std::string said = command(
      plain.substr(0, blank), blank == std::string::npos ? "" : trimmed(text.substr(blank)), known);
  return known ? said : value(text);
}

std::string Intake::command(const std::string &word, const std::string &rest, bool &known)
{
  if (word == "go" && !rest.empty())
    return go(rest);
  known = rest.empty();
  if (!known)
    return "";
  if (word == "quit") {
    state_ = State::left;
    return "";
  }
  if (word == "back")
    return back();
  if (word == "help" || word == "?")
    return help();
  if (word == "more")
    return more();
  if (word == "end") {
    state_ = State::reviewing;
    at_ = questions_.size();
    return "";
  }
  const bool reviewing = state_ == State::reviewing;
  if (word == "write" && reviewing) {
    state_ = State::written;
    return "";
  }
  if ((word.empty() || word == "skip") && !reviewing)
    return skip(word.empty());
  if (word == "next" && !reviewing)
    return next_section();
  known = false;
  return "";
}

std::string Intake::back()
{
  if (state_ == State::asking && question().ask == Ask::gaps) {
    std::vector<int> &told = order_[static_cast<std::size_t>(question().line)];
    if (!told.empty()) {
      const int fret = told.back();
      told.pop_back();
      answers_.forget_gap(question().line, fret);
      return "  The gap at fret " + std::to_string(fret) + " is forgotten.\n";
    }
  }
  std::size_t before = std::min(at_, questions_.size());
  while (before > 0 && !is_asked(before - 1))
    --before;
  if (before == 0)
    return "  This is the first question.\n";
  at_ = before - 1;
  state_ = State::asking;
  return "";
}

std::string Intake::more()
{
  if (extent_ != Extent::needed)
    return "  The rest is being asked already.\n";
  extent_ = Extent::rest;
  state_ = State::asking;
  at_ = 0;
  forward();
  return "  Now the rest; its usual values stand where you skip.\n";
}

std::string Intake::skip(bool keeps_answer)
{
  std::string said;
  if (question().ask == Ask::unit && !keeps_answer)
    answers_.set_unit("");
  const Declaration *const field = question().field;
  // The preset is the ground of all other answers: only another name takes its place.
  if (field != nullptr && answers_.given(*field) && (keeps_answer || is_preset_field(*field)))
    said = "  Stays " + *answers_.given(*field) + ".\n";
  else if (field != nullptr) {
    answers_.forget(*field);
    if (answers_.otherwise(*field).empty() && !answers_.from_gaps(*field))
      said = "  Left open: the case is not complete without `" + field->name() + "`.\n";
  }
  forward();
  return said;
}

std::string Intake::next_section()
{
  const std::size_t section = question().section;
  while (state_ == State::asking && question().section == section)
    forward();
  return "";
}

std::string Intake::go(const std::string &name)
{
  std::vector<std::string> names;
  for (std::size_t i = 0; i < questions_.size(); ++i) {
    const Question &to = questions_[i];
    const std::string section = bench_order()[to.section].name;
    const bool named = to.field != nullptr && plain_word(to.field->name()) == plain_word(name);
    if (named && !applies(i))
      return "  `" + to.field->name() + "` does not go with the kind that was chosen.\n";
    if (named || (!section.empty() && plain_word(section) == plain_word(name))) {
      at_ = i;
      state_ = State::asking;
      return "";
    }
    if (to.field != nullptr)
      names.push_back(to.field->name());
  }
  const std::string near = nearest_word(name, names);
  return "  There is no such key; " +
         (near.empty() ? "name one such as found.bow, or a section such as found"
                       : "did you mean \"" + near + "\"?") +
         "\n";
}

std::string Intake::value(const std::string &text)
{
  if (state_ == State::reviewing)
    return "  Answer write, back, go KEY or quit.\n";
  try {
    if (question().ask == Ask::gaps)
      return gap_value(question().line, text);
    if (const Declaration *field = question().field)
      return field_value(*field, text);
    answers_.set_unit(plain_word(text) == "none" ? "" : text);
    const std::string &unit = answers_.unit();
    forward();
    return unit.empty() ? "  Each length then needs its unit.\n"
                        : "  A length without a unit is taken in " + unit + ".\n";
  } catch (const UnitError &error) {
    return complaint(error);
  }
}

std::string Intake::field_value(const Declaration &field, const std::string &text)
{
  const std::string taken = answers_.take(field, text);
  std::string said = "  " + field.key + " = " + toml_value(field, taken);
  const bool length = field.kind == Kind::quantity && field.dimension == Dimension::length;
  if (length && plain_word(taken) != "unknown")
    said += ", that is " + both_lengths(parse_quantity(taken, Dimension::length));
  if (const auto worked_out = answers_.from_gaps(field); worked_out && *worked_out != taken)
    said += " (the gaps give " + *worked_out + ")";
  forward();
  return said + "\n";
}
} // namespace overbend::cases
