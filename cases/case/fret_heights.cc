// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/fret_heights.h"

#include "cases/text/suggest.h"
#include "cases/text/units.h"

#include <cmath>
#include <set>
#include <utility>

namespace overbend::cases
{
namespace
{
constexpr int most_frets = 36;
constexpr const char *level = "level";
constexpr const char *how_to_write =
    "write frets and heights such as \"5: -2 thou, 9-12: 0.1 mm, 7 treble: -3 thou\", or \"level\"";

std::string in_quotes(const std::string &text)
{
  constexpr std::size_t shown = 60;
  return "\"" + (text.size() > shown ? text.substr(0, shown) + "..." : text) + "\"";
}

// The word at the end of a text, taken off; false if it does not end so.
bool take_off(std::string &text, const std::string &word)
{
  const std::string plain = plain_word(text);
  if (plain.size() < word.size() || plain.substr(plain.size() - word.size()) != word)
    return false;
  text = trimmed(text.substr(0, text.size() - word.size()));
  return true;
}

int fret_number(const std::string &text)
{
  const bool digits = !text.empty() && text.size() <= 2 &&
                      text.find_first_not_of("0123456789") == std::string::npos;
  const int fret = digits ? std::stoi(text) : 0;
  if (fret < 1 || fret > most_frets)
    throw UnitError(in_quotes(text) + " is no fret", how_to_write);
  return fret;
}

struct Frets
{
  int from = 0, to = 0;
  bool bass = true, treble = true;
};

Frets parse_frets(std::string text)
{
  Frets frets;
  frets.treble = !take_off(text, "bass");
  if (frets.treble)
    frets.bass = !take_off(text, "treble");
  if (const std::string plain = plain_word(text); plain.rfind("frets ", 0) == 0)
    text = trimmed(text.substr(6));
  else if (plain.rfind("fret ", 0) == 0)
    text = trimmed(text.substr(5));
  for (const std::string between : {"-", "to"})
    if (const std::size_t at = text.find(between); at != std::string::npos) {
      frets.from = fret_number(trimmed(text.substr(0, at)));
      frets.to = fret_number(trimmed(text.substr(at + between.size())));
      if (frets.from >= frets.to)
        throw UnitError(in_quotes(text) + " ends before it begins", how_to_write);
      return frets;
    }
  frets.from = frets.to = fret_number(text);
  return frets;
}

double parse_height(const std::string &text, double low, double high)
{
  const double height = parse_quantity(text, Dimension::length);
  if (height < low || height > high)
    throw UnitError(in_quotes(text) + " is out of range",
                    "it must lie between " + both_lengths(low) + " and " + both_lengths(high));
  return height;
}

std::string with_sign(double metres)
{
  return (metres > 0 ? "+" : "") + both_lengths(metres);
}
} // namespace

FretHeights parse_fret_heights(const std::string &text, double low, double high)
{
  FretHeights heights;
  if (plain_word(trimmed(text)) == level)
    return heights;
  std::set<std::pair<int, int>> told; // fret, and which sides of it
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t comma = std::min(text.find(',', at), text.size());
    const std::string item = trimmed(text.substr(at, comma - at));
    at = comma + 1;
    const std::size_t colon = item.find(':');
    if (colon == std::string::npos)
      throw UnitError(in_quotes(item) + " is no fret with its height", how_to_write);
    const Frets frets = parse_frets(trimmed(item.substr(0, colon)));
    const double height = parse_height(trimmed(item.substr(colon + 1)), low, high);
    for (int fret = frets.from; fret <= frets.to; ++fret) {
      if (!told.insert({fret, 2 * frets.bass + frets.treble}).second)
        throw UnitError("fret " + std::to_string(fret) + " is given twice", "keep one of the two");
      if (frets.bass)
        heights[fret].bass = height;
      if (frets.treble)
        heights[fret].treble = height;
    }
  }
  for (auto fret = heights.begin(); fret != heights.end();)
    fret =
        fret->second.bass == 0 && fret->second.treble == 0 ? heights.erase(fret) : std::next(fret);
  return heights;
}

std::string fret_heights_text(const FretHeights &heights)
{
  std::string text;
  const auto add = [&](int fret, const std::string &side, double height) {
    text += (text.empty() ? "" : ", ") + std::to_string(fret) + side + ": " +
            exact_text(height, Dimension::length);
  };
  for (const auto &[fret, height] : heights)
    if (height.bass == height.treble)
      add(fret, "", height.bass);
    else {
      add(fret, " bass", height.bass);
      add(fret, " treble", height.treble);
    }
  return text.empty() ? level : text;
}

std::string fret_heights_in_words(const FretHeights &heights)
{
  std::string text;
  for (const auto &[fret, height] : heights) {
    text += (text.empty() ? "fret " : ", fret ") + std::to_string(fret) + " ";
    text += height.bass == height.treble
                ? with_sign(height.bass)
                : "bass " + with_sign(height.bass) + " treble " + with_sign(height.treble);
  }
  return text.empty() ? "all level" : text;
}
} // namespace overbend::cases
