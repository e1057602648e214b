// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/verdict/verdict.h"

#include <algorithm>

namespace overbend::solver
{
std::vector<std::string> stop_signs(const cases::Case &c)
{
  std::vector<std::string> signs = {"a step at the nut", "a creak", "a fret that rises",
                                    "a smell of camphor or varnish, or any acrid smell"};
  if (c.binding != cases::Binding::none)
    signs.push_back("binding that shrinks");
  if (c.finish != cases::Finish::bare && c.finish != cases::Finish::oil)
    signs.push_back("finish that marks or goes cloudy");
  if (c.neck.headstock.kind == cases::HeadstockKind::scarf)
    signs.push_back("a scarf that opens");
  return signs;
}

namespace
{
std::string stop_if(const cases::Case &c)
{
  std::string text = "Stop at any of these: ";
  for (const std::string &sign : stop_signs(c))
    text += sign + "; ";
  return text + "bar or probe above the temperature at which to stop.";
}
} // namespace

std::vector<std::string> standing_cautions(const cases::Case &c)
{
  std::vector<std::string> all;
  if (is_heated(c)) {
    all.push_back(
        "The iron is the main hazard: dry, dabbed on for 2 to 3 s every minute or two or "
        "parked on a 6 mm (1/4 in) plywood slip, never left alone, never on bare frets. Trust a "
        "second thermometer on the bar, not the iron's dial. Extinguisher and metal tray "
        "at hand.");
    all.push_back(stop_if(c));
  }
  all.push_back("Glasses on when strings, rod and cords are under load; stay out of the line of "
                "the cords; let go slowly, both sides in turn. Strings and rod slack before the "
                "clamp.");
  if (c.neck.headstock.kind == cases::HeadstockKind::tilted)
    all.push_back("A tilted headstock of one piece has short grain at the nut: look at it with a "
                  "lamp and flex it by hand first; a strap behind the nut is kinder than cords.");
  const std::vector<std::string> always = cautions_of_a_refusal();
  all.insert(all.end(), always.begin(), always.end());
  return all;
}

std::vector<std::string> cautions_of_a_refusal()
{
  return {"These are estimates, not orders, and they can be wrong. Keep to the local rules "
          "for fire, electricity, dust and protected woods, and leave to licensed or trained "
          "hands what you are not trained for."};
}
} // namespace overbend::solver
