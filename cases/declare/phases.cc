// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/phases.h"

#include "cases/case/climate.h"
#include "cases/declare/declarations.h"

#include <algorithm>

namespace overbend::cases
{
namespace
{
// A broken or seized rod stays so whatever is done; only a working one can be set or slackened.
RodState rod_when(RodState wanted, const Rod &rod)
{
  if (rod.kind == RodKind::none || rod.kind == RodKind::bonded_bar)
    return RodState::slack;
  const bool dead = rod.state == RodState::broken || rod.state == RodState::seized;
  return dead ? rod.state : wanted;
}

void clear_clamp(Phase &phase)
{
  phase.cradle = phase.cords = phase.block = false;
}

void heat_up(Phase &phase, const Case &result, bool wrap)
{
  phase.heater = true;
  phase.bar_temperature =
      result.heater.source == HeatSource::parked ? 0 : result.heater.bar_temperature;
  // A bar that reaches over the nut's slot lies where the nut would be.
  if (result.heater.from < 0)
    phase.nut = false;
  phase.air.wrapped = phase.air.wrapped || wrap;
  if (wrap && result.schedule.wrap_foil)
    phase.air.wrap_resistance = std::max(phase.air.wrap_resistance, foil_resistance);
}

void cool_down(Phase &phase)
{
  phase.heater = false;
  phase.bar_temperature = 0;
}

Phase carried_over(const Phase &before, PhaseKind kind, const Air &room)
{
  Phase phase = before;
  phase.climate = Climate();
  if (before.kind == PhaseKind::play) { // back in the shop
    phase.air.temperature = room.temperature;
    phase.air.humidity = room.humidity;
  }
  phase.kind = kind;
  phase.name.clear();
  phase.duration = 0;
  phase.line = 0;
  phase.pull = Pull();
  return phase;
}

} // namespace

void take_first_air(Phase &phase)
{
  const Air first = air_at(phase, 0);
  phase.air.temperature = first.temperature;
  phase.air.humidity = first.humidity;
}

std::string word(PhaseKind kind)
{
  return find_declaration("phase", "kind")->words[static_cast<std::size_t>(kind)];
}

Phase bare_bench(const Case &result)
{
  Phase phase;
  phase.air = result.room;
  phase.rod = rod_when(RodState::slack, result.neck.rod);
  return phase;
}

Phase next_phase(const Phase &before, PhaseKind kind, const Case &result, bool wrap)
{
  Phase phase = carried_over(before, kind, result.room);
  switch (kind) {
  case PhaseKind::store:
  case PhaseKind::condition:
    clear_clamp(phase);
    cool_down(phase);
    break;
  case PhaseKind::clamp:
    phase.cradle = phase.cords = true;
    phase.block = result.bench.stop_block;
    phase.pull.kind = Pull::Kind::to_reading;
    break;
  case PhaseKind::heat:
    heat_up(phase, result, wrap);
    break;
  case PhaseKind::reread:
    phase.pull.kind = Pull::Kind::to_reading;
    break;
  case PhaseKind::cool:
    cool_down(phase);
    break;
  case PhaseKind::release:
    clear_clamp(phase);
    cool_down(phase);
    phase.air.wrapped = false;
    break;
  case PhaseKind::hold:
    break;
  case PhaseKind::rest: // nobody leaves the iron on a neck that rests
    cool_down(phase);
    break;
  case PhaseKind::string_up:
    phase.strings = phase.nut = true;
    phase.rod = rod_when(result.target.rod, result.neck.rod);
    break;
  case PhaseKind::warm_free:
    clear_clamp(phase);
    phase.strings = false;
    heat_up(phase, result, wrap);
    break;
  case PhaseKind::play:
    clear_clamp(phase);
    cool_down(phase);
    phase.air.wrapped = false;
    break;
  }
  return phase;
}

// A neck is clamped anew: the next pass begins.
void count_passes(std::vector<Phase> &phases)
{
  int pass = 0;
  for (std::size_t i = 0; i < phases.size(); ++i) {
    const bool clamped_before = i > 0 && phases[i - 1].cords;
    pass += phases[i].cords && !clamped_before;
    phases[i].pass = std::max(1, pass);
  }
}

// A pull decides unless a hot one follows while the neck stays clamped.
void mark_deciding_pulls(std::vector<Phase> &phases)
{
  bool hot_follows = false;
  for (auto phase = phases.rbegin(); phase != phases.rend(); ++phase) {
    if (!phase->cords)
      hot_follows = false;
    if (phase->pull.kind != Pull::Kind::to_reading)
      continue;
    phase->pull.decides = phase->heater || !hot_follows;
    hot_follows = hot_follows || phase->heater;
  }
}

namespace
{
// Adds phases one after the other, each with what the one before left on the bench.
class Scheduler
{
public:
  explicit Scheduler(const Case &the_case) : result(the_case), schedule(the_case.schedule) {}

  std::vector<Phase> all(int passes)
  {
    if (schedule.warm_free)
      warm_free();
    for (int pass = 1; pass <= passes; ++pass)
      correct(pass);
    const double strung = result.target.after_release - schedule.release - schedule.rest;
    add(PhaseKind::string_up, strung, "string up");
    if (schedule.play > 0) {
      Phase &play = add(PhaseKind::play, schedule.play, "play");
      play.climate = indoor_climate(result, schedule.month);
      take_first_air(play);
    }
    count_passes(phases);
    mark_deciding_pulls(phases);
    return std::move(phases);
  }

private:
  Phase &add(PhaseKind kind, double duration, const std::string &name)
  {
    const Phase before = phases.empty() ? bare_bench(result) : phases.back();
    Phase phase = next_phase(before, kind, result, schedule.wrap);
    phase.duration = duration;
    phase.name = name;
    phases.push_back(phase);
    return phases.back();
  }

  void warm_free()
  {
    constexpr double cooled_free = 2 * 3600; // to within 1 K of the room for a bare neck [E]
    add(PhaseKind::warm_free, schedule.warm_free_time, "warm free");
    add(PhaseKind::cool, cooled_free, "cool free").air.wrapped = false;
  }

  void correct(int pass)
  {
    const std::string which = pass > 1 ? ", pass " + std::to_string(pass) : "";
    add(PhaseKind::clamp, schedule.clamp, "clamp cold" + which).nut = schedule.nut;
    add(PhaseKind::heat, schedule.heat, "heat" + which);
    if (schedule.reread)
      add(PhaseKind::reread, schedule.reread_time, "read again hot" + which);
    if (pass == 1 && schedule.second_reread)
      hold_in_halves();
    else
      add(PhaseKind::hold, schedule.hold, "hold" + which);
    add(PhaseKind::cool, schedule.cool, "cool in the clamp" + which);
    add(PhaseKind::release, schedule.release, "release" + which);
    add(PhaseKind::rest, schedule.rest, "rest" + which);
  }

  // The neck is read, and what pulls stays as it is unless the reading asks for less.
  void hold_in_halves()
  {
    const double half = schedule.hold / 2;
    add(PhaseKind::hold, half, "hold");
    add(PhaseKind::reread, schedule.reread_time, "read again hot, second time").pull = Pull();
    add(PhaseKind::hold, half - schedule.reread_time, "hold on");
  }

  const Case &result;
  const Schedule &schedule;
  std::vector<Phase> phases;
};
} // namespace

std::optional<unsigned> second_reading(const std::vector<Phase> &phases)
{
  for (unsigned i = 0; i < phases.size(); ++i)
    if (phases[i].kind == PhaseKind::reread && phases[i].pull.kind == Pull::Kind::none)
      return i;
  return {};
}

std::vector<Phase> scheduled_phases(const Case &result, int passes)
{
  return Scheduler(result).all(passes);
}
} // namespace overbend::cases
