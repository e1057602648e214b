// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/page/show.h"

#include "cases/text/units.h"
#include "solver/results/text_file.h"
#include "solver/words/shop_words.h"
#include "viz/page/html.h"

#include <array>
#include <cmath>

namespace overbend::viz
{
namespace
{
constexpr double thou = 25.4e-6, degree = 3.14159265358979323846 / 180;

std::string with_sign(double value, int decimals)
{
  const std::string text = solver::fixed(value, decimals);
  const bool zero = text.find_first_not_of("0.") == std::string::npos;
  return text.front() == '-' || zero ? text : "+" + text;
}

std::string mm_of(double metres)
{
  return with_sign(metres * 1e3, 2);
}

std::string thou_of(double metres)
{
  const double in_thou = metres / thou;
  return with_sign(in_thou, std::abs(in_thou) < 10 ? 1 : 0);
}

std::string number_text(double v, As as)
{
  switch (as) {
  case As::length:
    return cases::both_lengths(v);
  case As::size:
    return cases::both_lengths(std::abs(v));
  case As::signed_both:
    return solver::signed_length(v);
  case As::pair:
    return mm_of(v) + " / " + thou_of(v);
  case As::mm:
    return mm_of(v);
  case As::thou:
    return thou_of(v);
  case As::bow:
    return solver::bow_in_words(v);
  case As::twist:
    return solver::twist_in_words(v);
  case As::angle:
    return with_sign(v / degree, 2) + " deg";
  case As::angle_size:
    return cases::degrees(std::abs(v));
  case As::sticks:
    return cases::both_lengths(std::abs(solver::over_sticks(v)));
  case As::temperature:
    return cases::both_temperatures(v);
  case As::force:
    return cases::all_forces(v);
  case As::megapascal:
    return solver::fixed(v * 1e-6, 3) + " MPa";
  case As::clock:
    return solver::clock_face(v);
  case As::duration:
    return cases::clock(v);
  case As::turns:
    return solver::turns_to_make(v);
  case As::percent:
    return solver::fixed(100 * v, 0) + " %";
  case As::ratio:
    return solver::fixed(v, 2);
  case As::count:
    return solver::fixed(v, 0);
  case As::text:
  case As::verbatim:
    break;
  }
  throw std::logic_error("a number shown as a text");
}

std::string element(const PlanFile &plan, const std::string &pointer, As as, const char *tag)
{
  const Json &value = plan.at(pointer);
  const std::string text = text_of(value, as);
  // A text keeps its place in the sentence; a number stays in one line.
  const bool is_data = std::string(tag) == "data";
  const std::string raw =
      value.is_number() ? solver::number_text(value.get<double>()) : std::string();
  std::string out = std::string("<") + tag + " data-value=\"" + escaped(pointer) + "\" data-as=\"" +
                    name(as) + "\"";
  if (is_data)
    out += " value=\"" + escaped(raw) + "\"";
  return out + ">" + (as == As::verbatim ? escaped(text) : words(text)) + "</" + tag + ">";
}
} // namespace

const char *name(As as)
{
  static const std::array<const char *, 22> names = {
      "length", "size",       "signed_both", "pair",       "mm",     "thou",
      "bow",    "twist",      "angle",       "angle_size", "sticks", "temperature",
      "force",  "megapascal", "clock",       "duration",   "turns",  "percent",
      "ratio",  "count",      "text",        "verbatim"};
  return names.at(std::size_t(as));
}

std::string text_of(const Json &value, As as)
{
  if (value.is_null())
    return "-";
  if (as == As::text || as == As::verbatim || value.is_string())
    return value.get<std::string>();
  return number_text(value.get<double>(), as);
}

std::string shown(const PlanFile &plan, const std::string &pointer, As as)
{
  return element(plan, pointer, as, as == As::text || as == As::verbatim ? "span" : "data");
}

std::string shown_in_svg(const PlanFile &plan, const std::string &pointer, As as)
{
  return element(plan, pointer, as, "tspan");
}

std::string shown_list(const PlanFile &plan, const std::string &pointer)
{
  std::vector<std::string> items;
  for (std::size_t i = 0; i < plan.size(pointer); ++i)
    items.push_back(shown(plan, pointer + "/" + std::to_string(i), As::text));
  return list_of(items);
}

std::string fixed_words(const std::string &text)
{
  return "<span data-fixed>" + words(text) + "</span>";
}
} // namespace overbend::viz
