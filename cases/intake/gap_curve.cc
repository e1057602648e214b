// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/intake/gap_curve.h"

#include "cases/case/case.h"
#include "cases/text/units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace overbend::cases
{
namespace
{
constexpr int columns = 60, rows_wanted = 8;
constexpr double letter_shape = 2; // a letter of a terminal is twice as high as wide [E]

// Height of a row: the smallest of 1, 2, 5 times a power of ten with which the curve fits.
double row_height(double greatest)
{
  for (double power = 0.01e-3;; power *= 10)
    for (const int step : {1, 2, 5})
      if (greatest <= step * power * rows_wanted)
        return step * power;
}

class Drawing
{
public:
  Drawing(const std::vector<BowAt> &bows, double scale_length, Rests rests)
      : bows_(bows), scale_length_(scale_length)
  {
    const int from = std::min(rests.near_nut, bows.front().fret);
    const int to = std::max({rests.near_body, bows.back().fret, from + 1});
    begin_ = fret_position(scale_length, from);
    column_ = (fret_position(scale_length, to) - begin_) / columns;
    double greatest = 0;
    for (const BowAt &bow : bows)
      greatest = std::max(greatest, std::abs(bow.bow));
    row_ = row_height(greatest);
    for (const BowAt &bow : bows) {
      first_ = std::min(first_, row_of(bow.bow));
      last_ = std::max(last_, row_of(bow.bow));
    }
    lines_.assign(static_cast<std::size_t>(last_ - first_ + 1), std::string(columns + 1, ' '));
    lines_[static_cast<std::size_t>(-first_)] = std::string(columns + 1, '-');
  }

  std::string text()
  {
    draw();
    std::string text;
    for (int row = first_; row <= last_; ++row) {
      std::array<char, 32> label{};
      std::snprintf(label.data(), label.size(), "%9.2f mm ", row * row_ * 1e3 + 0.0);
      std::string line = label.data() + lines_[static_cast<std::size_t>(row - first_)];
      line.erase(line.find_last_not_of(' ') + 1);
      text += line + "\n";
    }
    return text + frets() + scale();
  }

private:
  int column_of(double x) const
  {
    return std::clamp(static_cast<int>(std::lround((x - begin_) / column_)), 0, columns);
  }
  int column_at(int fret) const { return column_of(fret_position(scale_length_, fret)); }
  int row_of(double bow) const { return static_cast<int>(std::lround(bow / row_)); }
  char &at(int column, double bow)
  {
    return lines_[static_cast<std::size_t>(row_of(bow) - first_)][static_cast<std::size_t>(column)];
  }

  void draw()
  {
    for (std::size_t i = 0; i + 1 < bows_.size(); ++i) {
      const int from = column_at(bows_[i].fret), to = column_at(bows_[i + 1].fret);
      for (int column = from + 1; column < to; ++column)
        at(column,
           bows_[i].bow + (bows_[i + 1].bow - bows_[i].bow) * (column - from) / (to - from)) = '.';
    }
    for (const BowAt &bow : bows_)
      at(column_at(bow.fret), bow.bow) = 'O';
  }

  std::string frets() const
  {
    constexpr std::size_t margin = 13;
    std::string line = "   fret";
    line.resize(margin, ' ');
    for (const BowAt &bow : bows_) {
      const std::size_t place = margin + static_cast<std::size_t>(column_at(bow.fret));
      if (place < line.size() + (line.size() > margin ? 1 : 0))
        continue;
      line.resize(place, ' ');
      line += std::to_string(bow.fret);
    }
    return line + "\n";
  }

  std::string scale() const
  {
    std::array<char, 200> line{};
    std::snprintf(line.data(), line.size(),
                  "   Scale: a row is %s, a column %.1f mm; heights are drawn about %.0f times too "
                  "large.\n",
                  both_lengths(row_).c_str(), column_ * 1e3, letter_shape * column_ / row_);
    return line.data();
  }

  const std::vector<BowAt> &bows_;
  double scale_length_, begin_ = 0, column_ = 1, row_ = 1;
  int first_ = 0, last_ = 0; // rows; forward bow is drawn downwards, as the board lies
  std::vector<std::string> lines_;
};
} // namespace

std::string gap_curve(const Gaps &gaps, double scale_length, Rests rests)
{
  std::vector<BowAt> bows = bows_from_gaps(gaps, scale_length, rests);
  if (bows.empty())
    for (const auto &[fret, gap] : gaps)
      bows.push_back({fret, gap});
  return bows.empty() ? "" : Drawing(bows, scale_length, rests).text();
}
} // namespace overbend::cases
