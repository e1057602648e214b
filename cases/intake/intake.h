// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/intake/bench_order.h"
#include "cases/intake/intake_answers.h"

#include <string>
#include <vector>

// The questionnaire: a machine that asks the declared keys one by one in the bench order. It
// neither reads nor writes anything: text goes in, text comes out.
namespace overbend::cases
{
class Intake
{
public:
  enum class State {
    asking,    // prompt() asks for a key, for gaps, or for the unit
    reviewing, // all asked: prompt() says whether the case is complete
    written,   // the user wants the file as it is
    left       // quit: what was answered is kept
  };

  // What is asked for: the keys that a plan hangs on (is_needed) and those that nothing else gives;
  // after `more` the rest; or every key in order.
  enum class Extent { needed, rest, all };

  explicit Intake(KnownNames known, Extent extent = Extent::needed);
  // As if it had been answered. Throws CaseError if there is none of that name.
  void choose_preset(const std::string &preset);
  // Takes the answers and gaps of a file that the questionnaire wrote. Throws CaseError for what it
  // cannot ask (a [[phase]], an unknown key) or would not take.
  void resume(const std::string &text, const std::string &file);

  State state() const { return state_; }
  const IntakeAnswers &answers() const { return answers_; }
  // What is asked for; nullptr for the unit, the gaps and the review.
  const Declaration *field() const;

  // Section and its caution, above the first question of a section; empty for the others.
  std::string heading() const;
  // What it is, what is accepted, what holds if it is skipped.
  std::string prompt() const;

  // Takes one line: a value (in double quotes: as it is, even if it is a word of the machine), or
  //   skip                     preset, default, or what the gaps tell; forgets an earlier answer
  //   an empty line            keeps an earlier answer, otherwise like skip
  //   unknown                  where it is accepted
  //   back                     the question before; among gaps: forgets the last one
  //   next                     skips the rest of the section
  //   go KEY                   to a key ("found.bow") or a section ("found")
  //   more                     asks the rest too, which has usual values
  //   end                      to the review
  //   help or ?                more about the question
  //   quit                     leaves
  //   write                    only in the review: leaves with the file as it is
  // Returns what there is to say. Never throws for what a user may type.
  std::string reply(const std::string &line);

private:
  enum class Ask { unit, gaps, field };
  struct Question
  {
    Ask ask = Ask::field;
    std::size_t section = 0; // of bench_order()
    const Declaration *field = nullptr;
    EdgeLine line = EdgeLine::centre;
  };

  const Question &question() const { return questions_[at_]; }
  bool applies(std::size_t index) const;
  bool is_asked(std::size_t index) const; // applies, and belongs to what is asked for
  std::string count_text() const;         // "7/24": which of the questions that are asked
  std::string more();
  void resume_gaps(const std::string &text, const std::string &file);
  void add_gap(EdgeLine line, int fret, const std::string &gap);
  void forward(); // to the next question that applies, or to the review
  std::string command(const std::string &word, const std::string &rest, bool &known);
  std::string back();
  std::string skip(bool keeps_answer);
  std::string next_section();
  std::string go(const std::string &name);
  std::string value(const std::string &text);
  std::string field_value(const Declaration &field, const std::string &text);
  std::string gap_value(EdgeLine line, const std::string &text);
  std::string help() const;

  std::string field_text() const;
  std::string gaps_text() const;
  std::string review_text() const;

  IntakeAnswers answers_;
  std::vector<Question> questions_;
  std::array<std::vector<int>, 3> order_; // frets of each line as they were told, for `back`
  std::size_t at_ = 0;
  State state_ = State::asking;
  Extent extent_;
};
} // namespace overbend::cases
