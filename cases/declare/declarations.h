// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "cases/text/units.h"

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

// The one table of everything a case file may say. Reading, units, ranges, did-you-mean, the
// manual, the template and the printed case all come from it.
namespace overbend::cases
{
// A strip as its [[lamination]] tells it; unknown: as the shaft.
struct LaminationDraft
{
  double width = 0;
  std::string wood = "as shaft";
  std::optional<double> ring_angle{}, run_out_across{}, run_out_depth{};
  std::optional<double> ring_angle_at_end{}, run_out_across_at_end{}, run_out_depth_at_end{};
  std::optional<double> swelling_along{};
};

// A case while it is being read: what is not yet resolved beside what is.
struct Draft
{
  Case result;
  Phase phase;                                           // the [[phase]] being read
  LaminationDraft lamination;                            // the [[lamination]] being read
  std::optional<double> bow_bass, bow_treble;            // unknown: as the centre
  std::optional<double> headstock_swelling;              // unknown: as the shaft
  std::optional<double> room_dew_point, phase_dew_point; // unknown: the humidity holds
  std::optional<double> lived_for;                       // s, in the air of Moisture
  int device = 0; // 0: by the layout of the posts; otherwise 1 + cases::Device
  std::optional<double> contact, power, overshoot; // of the heater; unknown: by its kind
};

enum class Kind {
  text,     // any words
  name,     // name from a table that the materials part keeps; not empty
  choice,   // one of the declared words
  flag,     // true or false
  count,    // whole number
  fret,     // whole number, or the declared word for 0
  quantity, // number with the unit of its dimension
  position, // along the neck: length from the nut, "fret 7", "fret 7.5" or "join"
  grain,    // "flat", "rift", "quarter" or an angle
  radius,   // length, or "flat" for no radius
  frets,    // heights of single frets, "5: -2 thou, 12 treble: 3 thou", or "level"
  posts,    // posts by side and number, "bass 2, treble 2", or "middle"
  month     // air of a month: temperature and humidity, "20 degC, 45 %"
};

// A choice is stored as the index of its word.
struct ChoiceAccess
{
  std::function<int(Draft &)> get;
  std::function<void(Draft &, int)> set;
};

// Where the value lives. The pointed-to functions return a reference into the draft.
using Access =
    std::variant<double &(*)(Draft &), std::optional<double> &(*)(Draft &), int &(*)(Draft &),
                 bool &(*)(Draft &), std::string &(*)(Draft &),
                 std::optional<std::string> &(*)(Draft &), MonthAir &(*)(Draft &),
                 FretHeights &(*)(Draft &), std::vector<Post> &(*)(Draft &), ChoiceAccess>;

struct Declaration
{
  std::string section, key; // section "" is the top of the file
  Kind kind = Kind::text;
  Dimension dimension = Dimension::number;
  std::string sentence;           // what it is, for the manual and the template
  std::string preset_or;          // default as text; empty: from the preset, or to be given
  std::string default_words;      // for the manual, where the default is no fixed value
  std::string example;            // shown in the template when there is neither
  double low = 0, high = 0;       // SI, both included
  std::vector<std::string> words; // of a choice; of a fret, the word for 0
  Access access;
  bool to_be_given = false; // no preset has it: only the bench knows
  // The word of its section's `kind` (of [warp]: `cause`) without which it means nothing.
  std::string only_with;

  std::string name() const { return section.empty() ? key : section + "." + key; }
  bool may_be_unknown() const; // "unknown" is a value
};

// Section names with the sentence that introduces them, in the order of the manual.
struct SectionNote
{
  std::string name, sentence;
};
const std::vector<SectionNote> &section_notes();

// True for a section that stands as [[name]], any number of times: phases and strips.
bool is_repeated(const std::string &section);

// What each kind of phase changes on the bench, by its word, in the order of PhaseKind.
const std::vector<SectionNote> &phase_notes();

// All declarations, in the order in which they are read and printed.
const std::vector<Declaration> &declarations();

// The declaration of a key, or nullptr.
const Declaration *find_declaration(const std::string &section, const std::string &key);

// The word of the case file for a finish; the tables know it by the same name.
const std::string &finish_word(Finish finish);

// Text -> draft. Throws UnitError (without file and line) if the text is not a value of the
// declared kind or lies outside the declared range.
void store(const Declaration &declaration, const std::string &text, Draft &draft);

// Draft -> text that stores back to exactly the same value.
std::string show(const Declaration &declaration, Draft &draft);

// The value as it is written in TOML: bare for numbers and flags, in quotes otherwise.
std::string toml_value(const Declaration &declaration, const std::string &text);
} // namespace overbend::cases
