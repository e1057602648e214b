// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/adapt.h"

namespace overbend::cases
{
namespace
{
bool given(const Case &result, const char *name)
{
  return result.lines.count(name) > 0;
}

void drop_length(Case &result, const char *name, double &value)
{
  if (!given(result, name))
    value = 0;
}

void drop_tip(Case &result, const char *name, std::optional<double> &value)
{
  if (!given(result, name))
    value.reset();
}

void adapt_headstock(Case &result)
{
  Headstock &head = result.neck.headstock;
  if (head.kind == HeadstockKind::flat)
    drop_length(result, "headstock.angle", head.angle);
  else
    drop_length(result, "headstock.face_step", head.face_step);
  if (head.kind != HeadstockKind::scarf) {
    const Piece &shaft = result.neck.shaft;
    if (!given(result, "headstock.wood"))
      head.piece.wood = shaft.wood;
    if (!given(result, "headstock.grain"))
      head.piece.grain.ring_angle = shaft.grain.ring_angle;
    if (!given(result, "headstock.run_out_across"))
      head.piece.grain.run_out_across = shaft.grain.run_out_across;
    if (!given(result, "headstock.run_out_depth"))
      head.piece.grain.run_out_depth = shaft.grain.run_out_depth;
    // Its tip is not another end: the grain of the shaft goes on from the nut.
    drop_tip(result, "headstock.grain_at_tip", head.piece.grain.ring_angle_at_end);
    drop_tip(result, "headstock.run_out_across_at_tip", head.piece.grain.run_out_across_at_end);
    drop_tip(result, "headstock.run_out_depth_at_tip", head.piece.grain.run_out_depth_at_end);
    drop_length(result, "headstock.scarf_start", head.scarf_start);
  }
}

void adapt_rod(Case &result)
{
  Rod &rod = result.neck.rod;
  const bool has_rod = rod.kind == RodKind::single_action || rod.kind == RodKind::two_way;
  if (rod.kind != RodKind::single_action)
    drop_length(result, "rod.fillet_depth", rod.fillet_depth);
  if (!has_rod) {
    drop_length(result, "rod.diameter", rod.diameter);
    if (!given(result, "rod.force"))
      rod.force = 0;
    if (!given(result, "rod.state"))
      rod.state = RodState::slack;
  }
  if (rod.kind == RodKind::none) {
    drop_length(result, "rod.channel_width", rod.channel_width);
    drop_length(result, "rod.channel_depth", rod.channel_depth);
  }
}

void adapt_target(Case &result)
{
  const Rod &rod = result.neck.rod;
  RodState &wanted = result.target.rod;
  const bool has_rod = rod.kind == RodKind::single_action || rod.kind == RodKind::two_way;
  const bool dead = rod.state == RodState::broken || rod.state == RodState::seized;
  if (has_rod && dead && (wanted == RodState::slack || !given(result, "target.rod")))
    wanted = rod.state;
  // Nothing of the correction is left to a rod without room, unless that is asked for.
  if (has_rod && rod.state == RodState::at_its_stop && !given(result, "target.rod"))
    wanted = RodState::slack;
  if (!has_rod && !given(result, "target.rod"))
    wanted = RodState::slack;
}
} // namespace

void drop_what_the_kinds_do_not_have(Case &result)
{
  adapt_headstock(result);
  if (result.neck.heel.kind == HeelKind::heel)
    drop_length(result, "heel.pocket", result.neck.heel.pocket);
  adapt_rod(result);
  adapt_target(result);
}
} // namespace overbend::cases
