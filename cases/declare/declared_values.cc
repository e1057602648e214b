// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/fret_heights.h"
#include "cases/case/posts.h"
#include "cases/declare/declarations.h"
#include "cases/text/suggest.h"

#include <algorithm>
#include <cmath>
#include <limits>

// Text to value and back, by the kind of a declaration.
namespace overbend::cases
{
namespace
{
constexpr double degree = 3.14159265358979323846 / 180;
constexpr const char *flat = "flat", *rift = "rift", *quarter = "quarter", *unknown = "unknown";

std::string in_quotes(const std::string &text)
{
  constexpr std::size_t shown = 60;
  return "\"" + (text.size() > shown ? text.substr(0, shown) + "..." : text) + "\"";
}

double parse_whole(const std::string &text)
{
  const double value = parse_quantity(text, Dimension::number);
  if (value != std::floor(value))
    throw UnitError(in_quotes(text) + " is not a whole number", "write a whole number such as 14");
  return value;
}

double parse_position(const std::string &text, const Draft &draft)
{
  const std::string plain = plain_word(text);
  if (plain == "join")
    return fret_position(draft.result.neck.scale_length, draft.result.neck.join_fret);
  if (plain.rfind("fret ", 0) != 0) {
    try {
      return parse_quantity(text, Dimension::length);
    } catch (const UnitError &error) {
      throw UnitError(error.problem, error.remedy + "; or \"fret 7\", or \"join\"");
    }
  }
  // plain_word has made a blank of a minus.
  if (text.find('-') != std::string::npos)
    throw UnitError(in_quotes(text) + " is no fret", "name it without a minus, such as \"fret 7\"");
  const double fret = parse_quantity(plain.substr(5), Dimension::number);
  const int last = draft.result.neck.frets;
  if (fret < 0 || fret > last)
    throw UnitError(in_quotes(text) + " does not exist on a board with " + std::to_string(last) +
                        " frets",
                    "name a fret from 0 (the nut) to " + std::to_string(last));
  return draft.result.neck.scale_length * (1 - std::exp2(-fret / 12));
}

double parse_grain(const std::string &text)
{
  const std::string plain = plain_word(text);
  if (plain == flat)
    return 0;
  if (plain == rift)
    return 45 * degree;
  if (plain == quarter)
    return 90 * degree;
  try {
    return parse_quantity(text, Dimension::angle);
  } catch (const UnitError &error) {
    throw UnitError(error.problem, "write \"flat\", \"rift\", \"quarter\" or an angle such as "
                                   "\"30 deg\"");
  }
}

void check_range(const Declaration &declaration, const std::string &text, double value)
{
  // An angle written in degrees may miss its bound by the rounding of pi.
  const double slack = 1e-12 * std::max(std::abs(declaration.low), std::abs(declaration.high));
  if (value >= declaration.low - slack && value <= declaration.high + slack)
    return;
  const auto bound = [&](double limit) {
    return declaration.kind == Kind::count || declaration.kind == Kind::fret
               ? std::to_string(static_cast<int>(limit))
               : typed_in_both(short_text(limit, declaration.dimension), declaration.dimension);
  };
  throw UnitError(in_quotes(text) + " is out of range", "it must lie between " +
                                                            bound(declaration.low) + " and " +
                                                            bound(declaration.high));
}

double parse_real(const Declaration &declaration, const std::string &text, const Draft &draft)
{
  if (declaration.kind == Kind::radius && plain_word(text) == flat)
    return std::numeric_limits<double>::infinity();
  double value = 0;
  switch (declaration.kind) {
  case Kind::position:
    value = parse_position(text, draft);
    break;
  case Kind::grain:
    value = parse_grain(text);
    break;
  default:
    value = parse_quantity(text, declaration.dimension);
  }
  check_range(declaration, text, value);
  return value;
}

int parse_index(const Declaration &declaration, const std::string &text)
{
  for (std::size_t i = 0; i < declaration.words.size(); ++i)
    if (plain_word(declaration.words[i]) == plain_word(text))
      return static_cast<int>(i);
  throw UnitError(in_quotes(text) + " is not a word for `" + declaration.key + "`",
                  suggestion(text, declaration.words, "words"));
}

bool parse_flag(const std::string &text)
{
  if (text == "true" || text == "yes")
    return true;
  if (text == "false" || text == "no")
    return false;
  throw UnitError(in_quotes(text) + " is neither true nor false", "write true or false");
}

int parse_count(const Declaration &declaration, const std::string &text)
{
  if (!declaration.words.empty() && plain_word(text) == declaration.words.front())
    return 0;
  const double value = parse_whole(text);
  check_range(declaration, text, value);
  return static_cast<int>(value);
}

void check_name(const Declaration &declaration, const std::string &text)
{
  constexpr std::size_t longest = 200;
  if (text.size() > longest)
    throw UnitError(in_quotes(text) + " is too long", "use at most 200 letters");
  if (declaration.kind == Kind::name && text.find_first_not_of(" \t\n") == std::string::npos)
    throw UnitError("the name is empty",
                    declaration.may_be_unknown() ? "write a name, or \"unknown\"" : "write a name");
}

MonthAir parse_month(const std::string &text)
{
  const std::size_t comma = text.find(',');
  if (comma == std::string::npos)
    throw UnitError(in_quotes(text) + " is not a temperature and a humidity",
                    "write both with a comma between, such as \"20 degC, 45 %\"");
  const MonthAir air = {parse_quantity(text.substr(0, comma), Dimension::temperature),
                        parse_quantity(text.substr(comma + 1), Dimension::fraction)};
  constexpr double coldest = 273.15 - 40, hottest = 273.15 + 95, driest = 0.02;
  if (air.temperature < coldest || air.temperature > hottest || air.humidity < driest ||
      air.humidity > 1)
    throw UnitError(
        in_quotes(text) + " is out of range",
        "it must lie between -40 degC (-40 degF) and 95 degC (203 degF), 2 % and 100 %");
  return air;
}

template <class... Functions>
struct Overloaded : Functions...
{
  using Functions::operator()...;
};
template <class... Functions>
Overloaded(Functions...) -> Overloaded<Functions...>;
} // namespace

void store(const Declaration &declaration, const std::string &text, Draft &draft)
{
  const bool not_known = plain_word(text) == unknown;
  std::visit(
      Overloaded{
          [&](double &(*at)(Draft &)) { at(draft) = parse_real(declaration, text, draft); },
          [&](std::optional<double> &(*at)(Draft &)) {
            at(draft) = not_known ? std::nullopt
                                  : std::optional<double>(parse_real(declaration, text, draft));
          },
          [&](int &(*at)(Draft &)) { at(draft) = parse_count(declaration, text); },
          [&](bool &(*at)(Draft &)) { at(draft) = parse_flag(text); },
          [&](std::string &(*at)(Draft &)) {
            check_name(declaration, text);
            at(draft) = text;
          },
          [&](std::optional<std::string> &(*at)(Draft &)) {
            check_name(declaration, text);
            at(draft) = not_known ? std::nullopt : std::optional<std::string>(text);
          },
          [&](MonthAir &(*at)(Draft &)) { at(draft) = parse_month(text); },
          [&](FretHeights &(*at)(Draft &)) {
            at(draft) = parse_fret_heights(text, declaration.low, declaration.high);
          },
          [&](std::vector<Post> &(*at)(Draft &)) { at(draft) = parse_posts(text); },
          [&](const ChoiceAccess &choice) { choice.set(draft, parse_index(declaration, text)); }},
      declaration.access);
}

std::string show(const Declaration &declaration, Draft &draft)
{
  const auto number = [&](double value) -> std::string {
    return std::isinf(value) ? flat : exact_text(value, declaration.dimension);
  };
  return std::visit(
      Overloaded{
          [&](double &(*at)(Draft &)) { return number(at(draft)); },
          [&](std::optional<double> &(*at)(Draft &)) {
            return at(draft) ? number(*at(draft)) : std::string(unknown);
          },
          [&](int &(*at)(Draft &)) {
            const bool worded = at(draft) == 0 && !declaration.words.empty();
            return worded ? declaration.words.front() : std::to_string(at(draft));
          },
          [&](bool &(*at)(Draft &)) { return std::string(at(draft) ? "true" : "false"); },
          [&](std::string &(*at)(Draft &)) { return at(draft); },
          [&](std::optional<std::string> &(*at)(Draft &)) { return at(draft).value_or(unknown); },
          [&](MonthAir &(*at)(Draft &)) {
            return exact_text(at(draft).temperature, Dimension::temperature) + ", " +
                   exact_text(at(draft).humidity, Dimension::fraction);
          },
          [&](FretHeights &(*at)(Draft &)) { return fret_heights_text(at(draft)); },
          [&](std::vector<Post> &(*at)(Draft &)) { return posts_text(at(draft)); },
          [&](const ChoiceAccess &choice) {
            return declaration.words[static_cast<std::size_t>(choice.get(draft))];
          }},
      declaration.access);
}

std::string toml_value(const Declaration &declaration, const std::string &text)
{
  const bool bare_number =
      declaration.kind == Kind::quantity && declaration.dimension == Dimension::number;
  const bool word = !declaration.words.empty() && text == declaration.words.front();
  const bool count = declaration.kind == Kind::count || (declaration.kind == Kind::fret && !word);
  if (declaration.kind == Kind::flag || bare_number || count)
    return text;
  std::string escaped;
  for (const char letter : text) {
    const auto code = static_cast<unsigned char>(letter);
    if (letter == '"' || letter == '\\') {
      escaped += std::string("\\") + letter;
    } else if (code < 0x20 || code == 0x7F) {
      constexpr const char *digits = "0123456789ABCDEF";
      escaped += std::string("\\u00") + digits[code >> 4] + digits[code & 15];
    } else {
      escaped += letter;
    }
  }
  return "\"" + escaped + "\"";
}
} // namespace overbend::cases
