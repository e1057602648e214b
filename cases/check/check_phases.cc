// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/check/check_case.h"
#include "cases/check/checking.h"
#include "cases/declare/phases.h"
#include "cases/text/error.h"

namespace overbend::cases
{
namespace
{
// The phases of a case with the place of each in the file.
class PhaseCheck
{
public:
  PhaseCheck(const Case &result, std::size_t index)
      : result_(result), phase_(result.phases[index]), index_(index)
  {}

  void run() const
  {
    check_play();
    check_strings();
    check_pull();
    check_heat();
    check_rod_state();
    check_order();
  }

private:
  [[noreturn]] void refuse_phase(const std::string &key, const std::string &what,
                                 const std::string &remedy) const
  {
    const std::string phase = "phase[" + std::to_string(index_ + 1) + "]";
    const auto found = result_.lines.find(phase + "." + key);
    const int line = found != result_.lines.end() ? found->second
                     : phase_.line > 0            ? phase_.line
                                                  : line_of(result_, "schedule");
    throw CaseError(result_.file, line, "phase \"" + phase_.name + "\": " + what, remedy);
  }

  void check_play() const
  {
    if (phase_.kind != PhaseKind::play)
      return;
    const bool clamped = phase_.cords || phase_.cradle || phase_.block;
    if (phase_.heater || clamped)
      refuse_phase(phase_.heater  ? "heater"
                   : phase_.cords ? "cords"
                                  : "cradle",
                   "an instrument in play is neither heated nor clamped",
                   "leave heat, cords, cradle and block out");
  }

  void check_strings() const
  {
    if (phase_.strings && phase_.heater)
      refuse_phase("heater", "heat with the strings at pitch",
                   "take the strings off before heating; never heat a strung neck");
    if (phase_.strings && phase_.cords)
      refuse_phase(phase_.kind == PhaseKind::string_up ? "kind" : "strings",
                   result_.bench.device == Device::posts ? "strings and cords on the same posts"
                                                         : "strings at pitch on a clamped neck",
                   "release the cords before stringing up, or write strings = false");
    if (phase_.strings && !phase_.nut)
      refuse_phase("nut", "strings on without a nut", "write nut = true");
  }

  void check_pull() const
  {
    const Pull &pull = phase_.pull;
    if (pull.kind != Pull::Kind::none && !phase_.cords)
      refuse_phase(phase_.kind == PhaseKind::reread ? "kind" : "pull", "there are no cords to pull",
                   "put a clamp phase before it");
    const bool lengths = pull.take_up_bass != 0 || pull.take_up_treble != 0;
    const bool reading = pull.bow != 0 || pull.twist != 0;
    if (lengths && pull.kind != Pull::Kind::take_up)
      refuse_phase("take_up_bass", "a take-up is given, but the cords are not taken up by length",
                   "write pull = \"take-up\", or leave the take-ups out");
    if (reading && pull.kind != Pull::Kind::to_reading)
      refuse_phase("bow", "a reading is given, but the cords are not pulled to a reading",
                   "write pull = \"to reading\", or leave the reading out");
  }

  void check_heat() const
  {
    if (phase_.heater && phase_.nut && result_.heater.from < 0)
      refuse_phase(
          "nut", "the bar reaches over the nut, which is in its slot",
          "take the nut out (nut = false), or let the bar end at the board (from = \"0 mm\" in "
          "[heater])");
    if (phase_.heater && (phase_.cords || phase_.cradle))
      check_bar_beside_clamp();
    const bool parked = result_.heater.source == HeatSource::parked;
    if (phase_.heater && parked && phase_.bar_temperature != 0)
      refuse_phase("bar_temperature",
                   "a bar temperature is given, but the iron is parked and nobody holds the bar",
                   "leave it out, or write another source in [heater]");
    if (phase_.heater && !parked && phase_.bar_temperature <= phase_.air.temperature)
      refuse_phase("bar_temperature", "the bar is no warmer than the air",
                   "give the temperature that the bar is to hold");
    if (!phase_.heater && phase_.bar_temperature != 0)
      refuse_phase("bar_temperature", "a bar temperature is given, but the heat is off",
                   "write heater = true, or leave the temperature out");
    if (phase_.kind == PhaseKind::reread && !phase_.heater)
      refuse_phase("kind", "read again hot, but the heat is off", "put a heat phase before it");
    if (phase_.kind == PhaseKind::warm_free && (phase_.cords || phase_.cradle || phase_.block))
      refuse_phase("cords", "a neck that is warmed free is not clamped",
                   "leave cords, cradle and block out");
  }

  // A bar between the board and what bears on it would be bent with the neck, or bridge it.
  void check_bar_beside_clamp() const
  {
    const Heater &bar = result_.heater;
    for (const OnBoard &place : clamp_on_board(result_.bench))
      if (bar.from < place.to && bar.to > place.from)
        refuse_phase("heater",
                     place.what + " bears on the board from " + both_lengths(place.from) + " to " +
                         both_lengths(place.to) + " from the nut, where the bar lies (" +
                         both_lengths(bar.from) + " to " + both_lengths(bar.to) + ")",
                     "end the bar before it (from and to in [heater]), or clamp without heat");
  }

  void check_rod_state() const
  {
    const Rod &rod = result_.neck.rod;
    const bool dead = rod.state == RodState::broken || rod.state == RodState::seized;
    const bool wrong = !adjustable(rod) ? phase_.rod != RodState::slack
                       : dead           ? phase_.rod != rod.state
                              : phase_.rod != RodState::slack && phase_.rod != RodState::set;
    if (wrong)
      refuse_phase("rod", "the rod cannot be in this state", "see kind and state under [rod]");
    if (phase_.rod == RodState::set && !(rod.force.value_or(0) > 0))
      refuse_phase("rod", "a rod that is set needs its pull", "write `force` under [rod]");
  }

  void check_order() const
  {
    const Phase before = index_ > 0 ? result_.phases[index_ - 1] : bare_bench(result_);
    if (phase_.kind == PhaseKind::release && !before.cords && !before.cradle)
      refuse_phase("kind", "there is nothing to release", "put a clamp phase before it");
    if (phase_.kind == PhaseKind::cool && !before.heater)
      refuse_phase("kind", "nothing is hot before it", "put a heat phase before it");
    if (phase_.kind == PhaseKind::hold && !before.heater && !before.cords)
      refuse_phase("kind", "there is nothing to hold", "put a clamp or a heat phase before it");
  }

  const Case &result_;
  const Phase &phase_;
  std::size_t index_;
};

// If the neck is strung up after the last release, the target must fall into that time.
void check_target_time(const Case &result)
{
  std::size_t start = result.phases.size();
  for (std::size_t i = 0; i < result.phases.size(); ++i)
    if (result.phases[i].kind == PhaseKind::release)
      start = i;
  double time = 0;
  bool strung_then = false;
  std::string strung_up; // place of the first phase with strings
  const double wanted = result.target.after_release;
  for (std::size_t i = start; i < result.phases.size(); ++i) {
    const Phase &phase = result.phases[i];
    const double end = time + phase.duration;
    const bool within = wanted > time && wanted <= end * (1 + 1e-12); // sums of durations round
    if (phase.strings && strung_up.empty())
      strung_up = "phase[" + std::to_string(i + 1) + "]";
    strung_then = strung_then || (within && phase.strings);
    time = end;
  }
  if (!strung_up.empty() && !strung_then)
    refuse_any(result, {"target.after_release", strung_up},
               "the target is read " + clock(wanted) +
                   " after the release, when the neck is not strung",
               "change after_release, or the durations of the phases after the release");
}
} // namespace

void check_schedule(const Case &result)
{
  const Schedule &schedule = result.schedule;
  if (schedule.wrap_foil && !schedule.wrap)
    refuse(result, "schedule.wrap_foil",
           "the foil lies under the cloth of a wrap, and there is none",
           "set `wrap = true`, or leave the foil out");
  if (schedule.second_reread && !schedule.reread)
    refuse(result, "schedule.second_reread", "a second hot reading without a first",
           "set `reread = true`, or leave the second one out");
  if (schedule.second_reread && schedule.hold < 4 * schedule.reread_time)
    refuse_any(result, {"schedule.second_reread", "schedule.hold"},
               "a hold of " + clock(schedule.hold) + " is too short to read in the middle of it",
               "hold longer, or leave the second reading out");
  const double wanted = result.target.after_release;
  if (wanted <= schedule.release + schedule.rest)
    refuse_any(result, {"target.after_release", "schedule.rest", "schedule.release"},
               "the target is read " + clock(wanted) +
                   " after the release, but the strings go on only after " +
                   clock(schedule.release + schedule.rest),
               "ask for a later reading, or shorten `release` and `rest` under [schedule]");
}

void check_phases(const Case &result)
{
  for (std::size_t i = 0; i < result.phases.size(); ++i)
    PhaseCheck(result, i).run();
  check_target_time(result);
}
} // namespace overbend::cases
