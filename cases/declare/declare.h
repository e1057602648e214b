// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/climate.h"
#include "cases/declare/declarations.h"

// Short forms for the lines of the declaration table. For the files declarations_*.cc only.
namespace overbend::cases
{
using Declarations = std::vector<Declaration>;

constexpr double mm = 1e-3, minute = 60, hour = 3600, day = 86400, week = 604800, year = 31557600;
constexpr double degree = 3.14159265358979323846 / 180;
constexpr double celsius(double degrees)
{
  return degrees + 273.15;
}

// Appends lines of one section.
class Table
{
public:
  Table(Declarations &lines, std::string section) : lines_(lines), section_(std::move(section)) {}

  Declaration &quantity(const std::string &key, Dimension dimension, Access access, double low,
                        double high, const std::string &sentence, const std::string &preset_or = "")
  {
    Declaration &d = add(key, Kind::quantity, std::move(access), sentence, preset_or);
    d.dimension = dimension;
    d.low = low;
    d.high = high;
    return d;
  }
  Declaration &length(const std::string &key, Access access, double low, double high,
                      const std::string &sentence, const std::string &preset_or = "")
  {
    return quantity(key, Dimension::length, std::move(access), low, high, sentence, preset_or);
  }
  Declaration &time(const std::string &key, Access access, double low, double high,
                    const std::string &sentence, const std::string &preset_or = "")
  {
    return quantity(key, Dimension::time, std::move(access), low, high, sentence, preset_or);
  }
  Declaration &position(const std::string &key, Access access, const std::string &sentence,
                        const std::string &preset_or = "")
  {
    Declaration &d = length(key, std::move(access), -0.1, 1.2, sentence, preset_or);
    d.kind = Kind::position;
    return d;
  }
  Declaration &grain(const std::string &key, Access access, const std::string &sentence,
                     const std::string &preset_or = "")
  {
    Declaration &d = quantity(key, Dimension::angle, std::move(access), -90 * degree, 90 * degree,
                              sentence, preset_or);
    d.kind = Kind::grain;
    return d;
  }
  Declaration &count(const std::string &key, Access access, int low, int high,
                     const std::string &sentence, const std::string &preset_or = "")
  {
    Declaration &d = add(key, Kind::count, std::move(access), sentence, preset_or);
    d.low = low;
    d.high = high;
    return d;
  }
  Declaration &fret(const std::string &key, Access access, const std::string &word_for_zero,
                    const std::string &sentence, const std::string &preset_or)
  {
    Declaration &d = count(key, std::move(access), 1, 36, sentence, preset_or);
    d.kind = Kind::fret;
    if (!word_for_zero.empty())
      d.words = {word_for_zero};
    return d;
  }
  Declaration &flag(const std::string &key, Access access, const std::string &sentence,
                    const std::string &preset_or = "")
  {
    return add(key, Kind::flag, std::move(access), sentence, preset_or);
  }
  Declaration &fret_heights(const std::string &key, Access access, double low, double high,
                            const std::string &sentence, const std::string &preset_or)
  {
    Declaration &d = length(key, std::move(access), low, high, sentence, preset_or);
    d.kind = Kind::frets;
    return d;
  }
  Declaration &posts(const std::string &key, Access access, const std::string &sentence,
                     const std::string &preset_or)
  {
    return add(key, Kind::posts, std::move(access), sentence, preset_or);
  }
  Declaration &month(const std::string &key, Access access, const std::string &sentence,
                     const std::string &preset_or)
  {
    return add(key, Kind::month, std::move(access), sentence, preset_or);
  }
  Declaration &name(const std::string &key, Access access, const std::string &sentence,
                    const std::string &preset_or = "")
  {
    return add(key, Kind::name, std::move(access), sentence, preset_or);
  }
  Declaration &text(const std::string &key, Access access, const std::string &sentence,
                    const std::string &preset_or = "")
  {
    return add(key, Kind::text, std::move(access), sentence, preset_or);
  }
  // The words are in the order of the enumeration.
  template <class Reference>
  Declaration &choice(const std::string &key, const std::vector<std::string> &words,
                      Reference reference, const std::string &sentence,
                      const std::string &preset_or = "")
  {
    using Enumeration = std::remove_reference_t<decltype(reference(std::declval<Draft &>()))>;
    const ChoiceAccess access = {
        [reference](Draft &draft) { return static_cast<int>(reference(draft)); },
        [reference](Draft &draft, int index) {
          reference(draft) = static_cast<Enumeration>(index);
        }};
    Declaration &d = add(key, Kind::choice, access, sentence, preset_or);
    d.words = words;
    return d;
  }

private:
  Declaration &add(const std::string &key, Kind kind, Access access, const std::string &sentence,
                   const std::string &preset_or)
  {
    Declaration d;
    d.section = section_;
    d.key = key;
    d.kind = kind;
    d.sentence = sentence;
    d.preset_or = preset_or;
    d.access = std::move(access);
    lines_.push_back(d);
    return lines_.back();
  }

  Declarations &lines_;
  std::string section_;
};

// A reference into the draft, as a function.
#define OVERBEND_AT(member) [](Draft &draft) -> decltype(auto) { return (draft.member); }

// How the grain of a piece lies at its other end. `at`: "at_body" or "at_tip".
template <class Ring, class Across, class Depth>
void declare_other_end(Table &piece, const std::string &at, const std::string &place, Ring ring,
                       Across across, Depth depth)
{
  const std::string as_there = "unknown";
  Declaration &grain = piece.grain(
      "grain_" + at, ring,
      "The rings " + place + ", if they turn along the piece; unknown: as at the nut.", as_there);
  // A turn through quarter-sawn goes on beyond 90 degrees.
  grain.low = -180 * degree;
  grain.high = 180 * degree;
  piece.quantity("run_out_across_" + at, Dimension::slope, across, -0.35, 0.35,
                 "Slope seen from the front " + place + "; unknown: as at the nut.", as_there);
  piece.quantity("run_out_depth_" + at, Dimension::slope, depth, -0.35, 0.35,
                 "Slope seen from the side " + place + "; unknown: as at the nut.", as_there);
}

void declare_neck(Declarations &lines);         // neck, shaft, board, headstock, heel, rod
void declare_lamination(Declarations &lines);   // lamination
void declare_fittings(Declarations &lines);     // glue, strings, tuners, finish
void declare_wood(Declarations &lines);         // grain, moisture, climate
void declare_bench(Declarations &lines);        // found, warp, room, heater, probe, bench
void declare_heat(Declarations &lines);         // of these: heater, probe
void declare_bench_itself(Declarations &lines); // of these: bench
void declare_work(Declarations &lines);         // schedule, phase, target, numerics
} // namespace overbend::cases
