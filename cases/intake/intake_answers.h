// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/check/check_names.h"
#include "cases/declare/declarations.h"
#include "cases/intake/gaps.h"

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

// What has been answered so far, its checks, and the case file made of it.
namespace overbend::cases
{
// The line along the board on which gaps are read.
enum class EdgeLine { bass, centre, treble };
constexpr std::array<EdgeLine, 3> edge_lines = {EdgeLine::centre, EdgeLine::bass, EdgeLine::treble};
std::string name_of(EdgeLine line);
// Beginning of the remark that holds the gaps of a line in the case file.
std::string gaps_head(EdgeLine line);

// The key that names the preset, and the names it may have.
bool is_preset_field(const Declaration &field);
std::vector<std::string> preset_names();

// What keeps the answers from being a complete case, and the key to look at first (nullptr: none in
// particular).
struct IntakeProblem
{
  std::string what, remedy;
  const Declaration *field = nullptr;
};

class IntakeAnswers
{
public:
  // The tables' names; the cases know no tables.
  explicit IntakeAnswers(KnownNames known) : known_(std::move(known)) {}

  // Unit for lengths typed without one ("" for none). Throws UnitError if it is no unit of length.
  void set_unit(const std::string &unit);
  const std::string &unit() const { return unit_; }

  // Takes an answer as typed and returns the text that goes into the file. Checks are those of the
  // reader: kind, unit, range, words, names of the tables, preset. An angle may also be told as a
  // rise over a length ("1.2 mm over 43 mm", winding sticks). Throws UnitError; nothing is changed.
  std::string take(const Declaration &field, const std::string &typed);
  void forget(const Declaration &field) { given_.erase(&field); }
  // Forgets an answer that repeats what the gaps tell.
  void forget_what_gaps_say(const Declaration &field);

  // Takes the gap at a fret. Throws UnitError for a fret that is not on the board, a length without
  // unit, or one outside 0 to 15 mm.
  void take_gap(EdgeLine line, int fret, const std::string &typed);
  void forget_gap(EdgeLine line, int fret);
  const Gaps &gaps(EdgeLine line) const { return gaps_[static_cast<std::size_t>(line)]; }

  // The answer; or what follows from the gaps; or what the preset or the default says; or "".
  std::optional<std::string> given(const Declaration &field) const;
  std::optional<std::string> from_gaps(const Declaration &field) const;
  std::string otherwise(const Declaration &field) const;
  bool from_preset(const Declaration &field) const; // that is where `otherwise` comes from

  // False for a key whose sentence begins with "Word only:" while a choice of its section that has
  // this word stands on another one: it is not asked, and not written.
  bool applies(const Declaration &field) const;

  // Names that a field of the kind `name` may have, in a sentence; empty without tables.
  std::string known_names(const Declaration &field) const;

  double scale_length() const { return draft().result.neck.scale_length; }
  Rests rests() const;
  bool empty() const { return given_.empty() && gaps_ == std::array<Gaps, 3>{}; }

  // The case file: answers only, everything else is left to preset and defaults. An unfinished one
  // says so in its first lines.
  std::string case_text() const;
  // Reads that text and checks it as `overbend check` does.
  std::optional<IntakeProblem> problem() const;

private:
  std::string effective(const Declaration &field) const;
  std::string typed_length(const Declaration &field, const std::string &typed) const;
  void check_name(const Declaration &field, const std::string &text) const;
  std::string body_text() const;
  std::string gaps_text() const;
  Draft draft() const;  // answers, preset and defaults; what cannot be read stays as constructed
  int bow_fret() const; // at which the gaps tell the bow; 0: they do not

  KnownNames known_;
  std::string unit_;
  std::map<const Declaration *, std::string> given_;
  std::array<Gaps, 3> gaps_;
};
} // namespace overbend::cases
