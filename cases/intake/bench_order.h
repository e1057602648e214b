// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/declare/declarations.h"

#include <string>
#include <vector>

// The declared keys in the order in which a bench takes them: talk, look, let the strings and the
// rod down, read, measure, then what is to be set up. The intake sheet and the questionnaire follow
// it. Only sections are listed; keys come from the declarations.
namespace overbend::cases
{
struct BenchSection
{
  std::string name;     // "" is the top of the file
  std::string sentence; // of section_notes(); empty for the top
  std::string caution;  // where the user acts; may be empty
  std::vector<const Declaration *> fields;
  bool at_the_bench = true; // read or looked at; false: settings that have usual values
};

// All sections but [[phase]], which is work and not intake. A section that the bench order does
// not know comes after the others as settings. Within a section frets come first: where the edge
// rests is settled before what it reads; otherwise the order is that of the declarations.
const std::vector<BenchSection> &bench_order();

// Whether a plan hangs on this key so much that it is asked for in the first place; the others have
// usual values that fit an ordinary neck of the preset's kind.
bool is_needed(const Declaration &declaration);

// "depth at 1" for "depth_at_1".
std::string label_of(const Declaration &declaration);

// The value of a field as it is typed, for people: with the other unit of the trade in brackets.
std::string in_both(const Declaration &declaration, const std::string &text);

// What holds for everybody who uses what the intake leads to.
const std::vector<std::string> &intake_cautions();
} // namespace overbend::cases
