// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/free_warming.h"

#include "cases/text/units.h"
#include "solver/readings/fret_surface.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
// What a straightedge and feeler gauges tell apart (trade practice: 0.03 to 0.05 mm).
constexpr double readable = 0.05e-3;

// What a neck that is straight reads after it, m: warmed from the board's side, the board is hotter
// than the shaft when the line hardens, shrinks more as it cools and draws the neck forward.
// Computed for an electric neck without a warp, bar at 70 degC for four hours, bare [C].
constexpr double left_by_heat = 0.03e-3;
// Back by less than this share of what a line soft to the last would give.
constexpr double little = 0.25;

// Why a soft line hardly lets a neck go back: nothing but the memory of the wood drives it, spread
// over the whole line. The slowest mode of slip in a viscous line of length l, free at both ends,
// falls as exp(-t/tau), tau = viscosity l^2/(pi^2 thickness k), k the axial stiffness of both
// layers in series, with their bending, for the line's width (shear lag without stiffness of the
// glue). By hand for white PVA of 0.1 mm and a line of 420 mm: 2.4 h at 60 degC, 14 h at 55; four
// times that with one end locked [C]. Held in a clamp the layers cannot bend: 2.4 times as fast.
std::string why_so_little(const FreeCourse &line)
{
  const double all = line.before - line.all_slipped, back = line.before - line.after;
  if (std::abs(all) < readable || back / all > little)
    return "";
  return " It is so little although the line softens: without cords only the wood's own memory "
         "drives it, and the whole line has to flow for hours. Wrapped, hotter within its limit or "
         "longer it goes further. The heat itself leaves a neck about " +
         cases::both_lengths(left_by_heat) + " further forward than its slip tells.";
}

// Which line a reading speaks for: the limits are half way between two lines.
std::string nearest_line(const std::vector<FreeCourse> &lines)
{
  if (lines.size() < 2)
    return " Only this line was computed.";
  std::string limits, alike;
  for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
    const FreeCourse &one = lines[i], &next = lines[i + 1];
    const std::string both = line_in_words(one.speed) + " and " + line_in_words(next.speed);
    if (std::abs(one.after - next.after) < readable)
      alike += (alike.empty() ? " An edge does not tell " : "; nor ") + both + " apart";
    else
      limits +=
          " Limit between " + both + ": " + signed_length(0.5 * (one.after + next.after)) + ".";
  }
  return limits + (alike.empty() ? "" : alike + " (" + cases::both_lengths(readable) + ").") +
         (limits.empty() ? "" : " The nearest line is the one to plan with.");
}

// What the bench's own reading says. Nothing, where even the most movable line hardly moves.
std::string reading_says(const std::vector<FreeCourse> &lines)
{
  const FreeCourse &main = lines[lines.size() / 2];
  double farthest = 0;
  for (const FreeCourse &line : lines)
    farthest = std::max(farthest, std::abs(line.before - line.after));
  if (farthest < readable)
    return " That is less than an edge tells (" + cases::both_lengths(readable) +
           "): a neck that has not moved says nothing about its glue. Warm it free for longer "
           "(warm_free_time), or warmer within the limits of glue and finish, both ends of the "
           "line "
           "too.";
  return " What it went back by, over " + signed_length(main.before) +
         ", is the least share of slip. Less than computed: warm it as long again. If it goes on, "
         "the line is slow; if it stays, the rest is in the wood: give a smaller slip_share with "
         "cause unknown. Further back than the closed form: more is slip than was taken. Nothing "
         "at all: the glue does not soften, or both ends of the line stay cold; do not bend it.";
}
} // namespace

std::string line_in_words(materials::LineSpeed speed)
{
  return speed == materials::LineSpeed::slow     ? "slow line"
         : speed == materials::LineSpeed::middle ? "middle line"
                                                 : "fast line";
}

std::optional<unsigned> free_reading_phase(const std::vector<cases::Phase> &phases)
{
  const auto warm = std::find_if(phases.begin(), phases.end(), [](const cases::Phase &phase) {
    return phase.kind == cases::PhaseKind::warm_free && phase.heater;
  });
  if (warm == phases.end())
    return {};
  auto last = unsigned(warm - phases.begin());
  while (last + 1 < phases.size() && !phases[last + 1].cords && !phases[last + 1].strings &&
         (!phases[last + 1].heater || phases[last + 1].kind == cases::PhaseKind::warm_free))
    ++last;
  return last;
}

std::optional<FreeCourse> free_course(const cases::Case &c, const History &history,
                                      const Diagnosis &diagnosis, materials::LineSpeed speed)
{
  const std::vector<cases::Phase> &phases = c.phases;
  const std::optional<unsigned> read_at = free_reading_phase(phases);
  const auto ended = [&](unsigned phase) {
    return std::find_if(history.phases.begin(), history.phases.end(),
                        [phase](const PhaseEnd &end) { return end.phase == phase; });
  };
  if (!read_at || ended(*read_at) == history.phases.end())
    return {};
  unsigned warm = *read_at;
  while (!(phases[warm].kind == cases::PhaseKind::warm_free && phases[warm].heater))
    --warm;
  const double added = at_bench(c, Reading{}, diagnosis.as_built).bow,
               before = ended(warm)->reading_at_start.bow;
  const double q = diagnosis.wood_share();
  return FreeCourse{speed, before + added, ended(*read_at)->reading.bow + added, q * before + added,
                    1 - q};
}

std::string free_warming_text(const std::vector<FreeCourse> &lines)
{
  const FreeCourse &main = lines.at(lines.size() / 2);
  std::string text =
      "Warmed free, read again cold. Bow at the centre was " + signed_length(main.before);
  for (const FreeCourse &line : lines)
    text += (&line == &lines.front() ? "; computed then: " : ", ") + line_in_words(line.speed) +
            " " + signed_length(line.after);
  return text + "." + nearest_line(lines) + " " + fixed(100 * main.slip_share, 0) +
         " % of the bow was taken as slip of the line: a line soft to the last would leave " +
         signed_length(main.all_slipped) + " (closed form)." + why_so_little(main) +
         reading_says(lines);
}
} // namespace overbend::solver
