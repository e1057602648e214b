// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/readings/neck_angle.h"

#include "cases/text/units.h"
#include "solver/readings/bench_readings.h"
#include "solver/readings/fret_surface.h"
#include "solver/words/shop_words.h"

#include <cmath>

namespace overbend::solver
{
namespace
{
// The arc of curvature 1/m that leaves the body's line at the join.
SampledLine arc(const cases::Case &c)
{
  const double join = cases::fret_position(c.neck.scale_length, c.neck.join_fret);
  SampledLine line;
  for (int fret = 0; fret <= c.neck.frets; ++fret) {
    const double x = cases::fret_position(c.neck.scale_length, fret);
    line.x.push_back(x);
    line.z.push_back(x < join ? 0.5 * (join - x) * (join - x) : 0);
  }
  return line;
}

// Such that the line reads this bow; 0 where all three frets lie on the body.
double curvature(const cases::Case &c, const SampledLine &unit, double bow)
{
  const double one =
      bow_at_fret(unit, c.found.bow_fret, c.found.rest_fret_a, c.found.rest_fret_b).bow;
  return one > 0 ? bow / one : 0;
}

// "0.80 mm (31 thou) below it", "1.20 mm (47 thou) above it".
std::string against_the_top(double height)
{
  return cases::both_lengths(std::abs(height)) + (height < 0 ? " below" : " above");
}
} // namespace

double over_bridge_by_bow(const cases::Case &c, double wood_bow)
{
  SampledLine tops = arc(c);
  const double k = curvature(c, tops, wood_bow);
  const std::vector<double> heights = fret_heights(c, 1);
  for (std::size_t i = 0; i < tops.z.size(); ++i)
    tops.z[i] = k * tops.z[i] + heights[i];
  return edge_carried_to(tops, c.found.rest_fret_a, c.neck.scale_length);
}

std::optional<NeckAngle> neck_angle(const cases::Case &c, const materials::WorkLimits &limits)
{
  const cases::Readings &r = c.readings;
  if (!r.over_bridge || !r.over_bridge_from || !r.over_bridge_to)
    return {};
  NeckAngle angle;
  angle.read = *r.over_bridge;
  angle.by_bow = over_bridge_by_bow(c, found_wood(c).bow);
  angle.straight = angle.read - angle.by_bow;
  angle.from = *r.over_bridge_from;
  angle.to = *r.over_bridge_to;
  angle.out = angle.straight < angle.from ? angle.straight - angle.from
              : angle.straight > angle.to ? angle.straight - angle.to
                                          : 0;
  angle.read_is_out = angle.read < angle.from || angle.read > angle.to;
  angle.wrong = std::abs(angle.out) > limits.over_bridge_error;
  angle.in_doubt = angle.out != 0 && !angle.wrong;
  return angle;
}

std::string in_words(const NeckAngle &a)
{
  std::string text = "An edge along the frets, carried on to the bridge, is " +
                     against_the_top(a.read) + " its top. ";
  if (std::abs(a.by_bow) >= 0.05e-3)
    text +=
        "Of that, " + signed_length(a.by_bow) +
        " comes from bow and frets: a bow tilts the neck's end against the body; straight and with "
        "level frets it would be " +
        against_the_top(a.straight) + ". ";
  return text + "Right for this instrument: " + signed_length(a.from) + " to " +
         signed_length(a.to) + ".";
}

std::string side_in_words(const NeckAngle &a)
{
  return a.out < 0 ? "too low" : "too high";
}
} // namespace overbend::solver
