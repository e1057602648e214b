// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/heating/heat_limits.h"

#include "cases/declare/declarations.h"

#include <algorithm>

namespace overbend::solver
{
FinishLimit finish_limit(cases::Finish kind, const materials::Tables &tables)
{
  const materials::Finish &finish = tables.finish(cases::finish_word(kind));
  const double hottest = tables.limits.hottest;
  return {std::min(finish.prints_from, hottest), std::min(finish.keep_below, hottest),
          kind == cases::Finish::unknown ? "an unknown finish" : finish.name};
}

namespace
{
struct Stop
{
  double at;
  std::string why;
};

void lower(Stop &stop, double at, const std::string &why)
{
  if (at < stop.at)
    stop = {at, why};
}

// Board and neck are heated together: the tenderer of the two finishes counts, and the binding.
Stop surface_stop(const cases::Case &c, const materials::Tables &tables)
{
  Stop stop{tables.limits.surface_known, "no surface of a neck should pass it"};
  for (const cases::Finish kind : {c.finish, c.faces.board.kind}) {
    const FinishLimit finish = finish_limit(kind, tables);
    lower(stop, finish.stop, "finish: " + finish.name);
  }
  if (c.binding == cases::Binding::plastic)
    lower(stop, tables.limits.plastic_softens, "plastic binding softens");
  if (c.binding == cases::Binding::unknown)
    lower(stop, tables.limits.hottest_unknown, "the binding is not known");
  if (c.finish == cases::Finish::unknown)
    lower(stop, tables.limits.hottest_unknown, "the finish is not known");
  return stop;
}

Stop line_stop(const cases::Case &c, const materials::Tables &tables)
{
  Stop stop{tables.limits.line_known, "a glue line slides freely from there on"};
  if (c.board_glue.kind) {
    const materials::Glue &glue = tables.glue(*c.board_glue.kind, c.file);
    lower(stop, glue.temperature_limit, "glue: " + glue.name);
  } else
    lower(stop, tables.limits.line_unknown, "the glue is not known");
  if (c.finish == cases::Finish::unknown)
    lower(stop, tables.limits.line_unknown, "the finish is not known");
  return stop;
}
} // namespace

HeatLimits heat_limits(const cases::Case &c, const materials::Tables &tables)
{
  const Stop surface = surface_stop(c, tables), line = line_stop(c, tables);
  // The tops of the frets may be warmer than the wood beside them, by as much as where all is
  // known.
  const double warmer = tables.limits.fret_tops_known - tables.limits.surface_known;
  Stop frets{surface.at + warmer, surface.why};
  if (!c.board_glue.kind)
    lower(frets, tables.limits.hottest_unknown, "the glue is not known");
  if (c.finish == cases::Finish::unknown || c.binding == cases::Binding::unknown)
    lower(frets, tables.limits.hottest_unknown, surface.why);
  const FinishLimit back = finish_limit(c.faces.back.kind, tables);
  return {surface.at, line.at,   frets.at,     surface.why,
          line.why,   frets.why, back.trouble, "a pad prints in it: " + back.name};
}

bool is_heated(const cases::Case &c)
{
  return std::any_of(c.phases.begin(), c.phases.end(),
                     [](const cases::Phase &phase) { return phase.heater; });
}
} // namespace overbend::solver
