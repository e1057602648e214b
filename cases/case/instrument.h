// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

// What the neck is made of beside its shape: glue, strings, tuners, finish, binding. Units and
// conventions as in cases/case/case.h.
namespace overbend::cases
{
// Glue line: kind is a name from the table of glues. Empty optional: unknown.
struct Glue
{
  std::optional<std::string> kind;
  double thickness = 0.1e-3;
};

struct Strings
{
  std::string set;           // name in the table of strings
  double pitch_shift = 0;    // semitones against the set's standard pitch
  double height_at_nut = 0;  // string centre above the board top at the nut
  double height_at_join = 0; // above the board top at the body join
};

enum class TunerLayout { both_sides, bass_line, treble_line };

struct Tuners
{
  std::string kind; // name in the table of tuners
  TunerLayout layout = TunerLayout::both_sides;
  double first_post = 0; // from the nut to the first post, along the headstock
  double last_post = 0;
  double across = 0; // spacing across between the two rows (both_sides), offset (in line)
};

enum class Finish { bare, oil, shellac, nitro_lacquer, acrylic, polyester, polyurethane, unknown };
enum class FinishCondition { sound, worn };
enum class Binding { none, celluloid, plastic, wood, unknown };

// Finish of one face: what moisture has to pass.
struct FinishedFace
{
  Finish kind = Finish::unknown;
  FinishCondition condition = FinishCondition::sound;
};

// back: back and sides of the shaft and the heel. board: top and edges of the fingerboard.
struct FinishedFaces
{
  FinishedFace back, board, headstock;
};
} // namespace overbend::cases
