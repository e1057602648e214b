// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/declare/presets.h"
#include "cases/intake/intake.h"
#include "cases/read/read_case.h"

#include <initializer_list>
#include <string>

namespace overbend::tests
{
// Names as a table would hold them: those of all presets and a few more.
inline cases::KnownNames some_names()
{
  cases::KnownNames known;
  for (const cases::Preset &preset : cases::presets()) {
    const cases::Case c = cases::preset_case(preset.name);
    for (const std::string &wood :
         {c.neck.shaft.wood, c.neck.board.wood, c.neck.headstock.piece.wood})
      known.woods.push_back(wood);
    known.string_sets.push_back(c.strings.set);
    known.tuners.push_back(c.tuners.kind);
  }
  known.glues = {"white PVA", "hide"};
  return known;
}

inline std::string say(cases::Intake &intake, std::initializer_list<const char *> lines)
{
  std::string said;
  for (const char *line : lines)
    said = intake.reply(line);
  return said;
}
} // namespace overbend::tests
