// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/intake/intake.h"
#include "cases/show/manual.h"
#include "cases/text/suggest.h"

#include <algorithm>

// What the questionnaire says.
namespace overbend::cases
{
namespace
{
std::string without_backticks(std::string text)
{
  text.erase(std::remove(text.begin(), text.end(), '`'), text.end());
  return text;
}

std::string with_unit(const Declaration &field)
{
  const bool unit =
      field.dimension != Dimension::number &&
      (field.kind == Kind::quantity || field.kind == Kind::position || field.kind == Kind::grain ||
       field.kind == Kind::radius || field.kind == Kind::frets);
  std::string text = unit ? " (with its unit: " + accepted_units(field.dimension) : "";
  if (unit && field.dimension == Dimension::angle)
    text += ", or a rise over a length such as \"1.2 mm over 43 mm\"";
  return text + (unit ? ")" : "");
}

constexpr const char *commands =
    "skip, unknown, back, next (section), go KEY, more, end, help, quit";
} // namespace

std::string Intake::prompt() const
{
  switch (state_) {
  case State::reviewing:
    return review_text();
  case State::written:
  case State::left:
    return "";
  case State::asking:
    break;
  }
  if (question().ask == Ask::unit)
    return "Lengths typed without a unit are in: mm, in, thou, or none (each then needs its own) "
           "[none]\n";
  return question().ask == Ask::gaps ? gaps_text() : field_text();
}

std::string Intake::heading() const
{
  if (state_ != State::asking || question().ask == Ask::unit)
    return "";
  const BenchSection &section = bench_order()[question().section];
  std::size_t before = at_;
  while (before > 0 && !is_asked(before - 1))
    --before;
  const bool first = before == 0 || questions_[before - 1].section != question().section ||
                     questions_[before - 1].ask == Ask::unit;
  if (!first)
    return "";
  std::string text =
      "\n== " + (section.name.empty() ? "The job" : section.name + ": " + section.sentence) + "\n";
  if (!section.caution.empty())
    text += "!! " + section.caution + "\n";
  if (!section.at_the_bench)
    text += "   Usual values stand; `next` keeps them all.\n";
  return text;
}

std::string Intake::field_text() const
{
  const Declaration &field = *question().field;
  std::string text = count_text() + label_of(field) + ": " + field.sentence + "\n     " +
                     (is_preset_field(field) ? answers_.known_names(field)
                                             : without_backticks(allowed_values(field))) +
                     with_unit(field) + "\n     ";
  const std::string otherwise = answers_.otherwise(field);
  if (const auto given = answers_.given(field))
    text += "[" + in_both(field, *given) + ", answered" +
            (is_preset_field(field) ? "; none does without a preset]" : "; skip clears it]");
  else if (const auto worked_out = answers_.from_gaps(field))
    text += "[" + in_both(field, *worked_out) + ", from the gaps at the frets]";
  else if (!otherwise.empty())
    text += "[" + in_both(field, otherwise) +
            (answers_.from_preset(field) ? ", preset]" : ", default]");
  else
    text += "(must be answered: no preset or default has it)";
  return text + "\n";
}

std::string Intake::gaps_text() const
{
  const Rests rests = answers_.rests();
  const bool known = rests.near_nut < rests.near_body;
  return count_text() + "gap under the straightedge, " + name_of(question().line) +
         " line: fret and gap, such as \"7 0.45 mm\", one after the other, 0 where the edge "
         "touches.\n"
         "     The bow is the chord over the rest frets" +
         (known ? " (" + std::to_string(rests.near_nut) + " and " +
                      std::to_string(rests.near_body) + ")"
                : "") +
         " less the line: give the gaps there, too. skip goes on.\n";
}

std::string Intake::count_text() const
{
  std::size_t before = 0, all = 0;
  for (std::size_t i = 0; i < questions_.size(); ++i)
    if (questions_[i].ask != Ask::unit && (is_asked(i) || i == at_)) {
      ++all;
      before += i < at_;
    }
  return std::to_string(before + 1) + "/" + std::to_string(all) + "  ";
}

std::string Intake::help() const
{
  const std::string words =
      std::string("  Words: ") + commands + ". A value in \"quotes\" is taken as it is.\n";
  if (state_ == State::reviewing)
    return "  write puts the file as it is, back and go KEY go back, quit leaves.\n";
  if (question().ask == Ask::gaps)
    return "  A forward bow: the edge rests on both rest frets, their gaps are 0. A back-bow: the "
           "edge balances\n  on the hump, the gaps at both ends are equal. A gap given again "
           "replaces the first; back forgets\n  the last one.\n" +
           words;
  if (question().ask == Ask::unit)
    return "  Only lengths. The file shows the unit you chose.\n" + words;
  const Declaration &field = *question().field;
  std::string text = "  " + field.name() + ": " + field.sentence + "\n";
  if (field.kind == Kind::name || is_preset_field(field))
    if (const std::string names = answers_.known_names(field); !names.empty())
      text += "  " + names + "\n";
  if (field.may_be_unknown())
    text += "  unknown is an honest answer here: the result then widens.\n";
  return text + words;
}

std::string Intake::review_text() const
{
  const auto problem = answers_.problem();
  if (!problem)
    return std::string("\nThe answers make a complete case. write keeps them so; back or go KEY "
                       "changes one") +
           (extent_ == Extent::needed ? "; more asks what has usual values" : "") +
           " [write, back, go KEY, " + (extent_ == Extent::needed ? "more, " : "") + "quit]\n";
  std::string text = "\nNot yet a complete case: " + problem->what + "; " + problem->remedy + "\n";
  if (problem->field != nullptr)
    text += "Look at `go " + problem->field->name() + "`.";
  return text + " write keeps it unfinished, marked so in its first line [write, back, go KEY, "
                "quit]\n";
}
} // namespace overbend::cases
