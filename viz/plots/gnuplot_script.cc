// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/plots/plots.h"

#include "solver/results/text_file.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <sstream>

namespace overbend::viz
{
namespace
{
// Okabe and Ito's colours but the yellow, which is lost on white [M].
const std::array<const char *, 7> colours = {"#000000", "#0072B2", "#D55E00", "#009E73",
                                             "#CC79A7", "#56B4E9", "#E69F00"};
constexpr int band_font = 12;                // points
constexpr double letter = 6.7;               // pixels of a letter of that size
constexpr double axis_pixels = 735;          // about what the axes leave of the width
constexpr double upright = 1.25 * band_font; // pixels that a name needs that stands upright

// A text in single quotes for gnuplot, where a quote is doubled.
std::string quoted(const std::string &text)
{
  std::string out = "'";
  for (const char c : text)
    out += c == '\'' ? std::string("''") : std::string(1, c);
  return out + "'";
}

std::string number(double value)
{
  return std::isfinite(value) ? solver::number_text(value, 7) : "NaN";
}

void write_data(std::ostream &script, const Plot &plot)
{
  for (std::size_t i = 0; i < plot.curves.size(); ++i) {
    script << "$c" << i << " << EOD\n";
    for (const auto &[x, y] : plot.curves[i].points)
      script << number(x) << " " << number(y) << "\n";
    script << "EOD\n";
  }
  for (std::size_t i = 0; i < plot.ranges.size(); ++i) {
    script << "$r" << i << " << EOD\n";
    for (const Range &r : plot.ranges[i])
      script << number(r.x) << " " << number(0.5 * (r.low + r.high)) << " " << number(r.low) << " "
             << number(r.high) << "\n";
    script << "EOD\n";
  }
}

struct Extent
{
  double low = 1e300, high = -1e300;
  void add(double value)
  {
    if (std::isfinite(value)) {
      low = std::min(low, value);
      high = std::max(high, value);
    }
  }
};

// Range of y with a margin, fixed so that both scales fit each other.
std::pair<double, double> range_of(const Plot &plot)
{
  Extent all;
  for (const Curve &curve : plot.curves)
    for (const auto &[x, y] : curve.points)
      all.add(y);
  for (const Level &level : plot.levels)
    all.add(level.y);
  for (const auto &joined : plot.ranges)
    for (const Range &r : joined) {
      all.add(r.low);
      all.add(r.high);
    }
  if (all.low > all.high)
    return {0, 1};
  const double margin = std::max(0.06 * (all.high - all.low), 1e-6);
  return {all.low - margin, all.high + margin};
}

std::pair<double, double> width_of(const Plot &plot)
{
  Extent all;
  for (const Curve &curve : plot.curves)
    for (const auto &[x, y] : curve.points)
      all.add(x);
  for (const Band &band : plot.bands) {
    all.add(band.from);
    all.add(band.to);
  }
  return all.low < all.high ? std::make_pair(all.low, all.high) : std::make_pair(0., 1.);
}

const char *shade(BandKind kind)
{
  switch (kind) {
  case BandKind::heated:
    return "#fbe3cf";
  case BandKind::clamped:
    return "#e8eef6";
  case BandKind::strung:
    return "#eaf3e2";
  case BandKind::free:
    break;
  }
  return "#ffffff";
}

// Shades under the curves with their names over the frame: along it where that fits, else upright.
void write_bands(std::ostream &script, const Plot &plot)
{
  const auto [left, right] = width_of(plot);
  std::size_t longest = 0, number_of = 1;
  for (const Band &band : plot.bands) {
    const double pixels = (band.to - band.from) / (right - left) * axis_pixels;
    const bool fits = letter * double(band.name.size()) < pixels - 4;
    script << "set object " << number_of++ << " rectangle from first " << number(band.from)
           << ", graph 0 to first " << number(band.to) << ", graph 1 behind fc rgb '"
           << shade(band.kind) << "' fs solid noborder\nset arrow from first " << number(band.to)
           << ", graph 0 to first " << number(band.to)
           << ", graph 1 nohead back lc rgb '#999999' lw 0.6 dt 1\n";
    if (!fits && pixels < 0.8 * upright)
      continue; // its neighbours' names would lie on it
    script << "set label " << quoted(band.name) << " at first "
           << number(0.5 * (band.from + band.to)) << ", graph 1.02 "
           << (fits ? "center offset 0,0.25" : "left rotate by 90 offset 0.35,0") << " font ',"
           << band_font << "'\n";
    longest = std::max(longest, fits ? std::size_t(2) : band.name.size());
  }
  const double above = letter * double(longest) + 10;
  for (const auto &[x, name] : plot.over_bands)
    script << "set label " << quoted(name) << " at first " << number(x) << ", screen "
           << number(1 - 12. / plot_height) << " left font ',14'\n";
  if (!plot.bands.empty())
    script << "set tmargin at screen "
           << number(1 - (above + (plot.over_bands.empty() ? 0 : 18)) / plot_height) << "\n";
}

void write_levels(std::ostream &script, const Plot &plot)
{
  for (const Level &level : plot.levels)
    script << "set arrow from graph 0, first " << number(level.y) << " to graph 1, first "
           << number(level.y) << " nohead front lc rgb '#000000' lw 1.4 dt (12,4,2,4)\nset label "
           << quoted(level.name) << " at graph 0.5, first " << number(level.y)
           << " center offset 0,0.5 front font ',13'\n";
}

void write_marks(std::ostream &script, const Plot &plot)
{
  if (plot.x_marks.empty())
    return;
  script << "set xtics (";
  for (const auto &[x, name] : plot.x_marks)
    script << (&name == &plot.x_marks.front().second ? "" : ", ") << quoted(name) << " "
           << number(x);
  for (const double x : plot.x_ticks)
    script << ", '' " << number(x) << " 1"; // 1: a small one
  script << ")\n";
}

void write_axes(std::ostream &script, const Plot &plot)
{
  script << "set xlabel " << quoted(plot.x_label) << "\nset ylabel " << quoted(plot.y_label)
         << "\nset grid lc rgb '#cccccc' lw 0.6 dt 1\nset border 11 lc rgb '#000000'\n"
         << "set xzeroaxis lc rgb '#000000' lw 1\nset tics nomirror\n"
         << "set key outside bottom center horizontal Left reverse samplen 4.5 spacing 1.15 width "
            "-3 height 0.7 font ',13'\n";
  const auto [low, high] = range_of(plot);
  const auto [left, right] = width_of(plot);
  script << "set xrange [" << number(left) << ":" << number(right) << "]\nset yrange ["
         << number(low) << ":" << number(high) << "]\n";
  if (!plot.y2_label.empty())
    script << "set y2range [" << number(low * plot.y2_factor + plot.y2_offset) << ":"
           << number(high * plot.y2_factor + plot.y2_offset) << "]\nset y2tics\nset y2label "
           << quoted(plot.y2_label) << " offset -1.6,0\n";
  write_marks(script, plot);
}

// First what lies under the curves: the ranges as grey bands, with a stroke at each occasion.
void write_ranges(std::ostream &script, const Plot &plot)
{
  for (std::size_t i = 0; i < plot.ranges.size(); ++i) {
    const std::string title = i == 0 ? "title " + quoted(plot.range_name) : "notitle";
    const bool joined = plot.ranges[i].size() > 1;
    if (joined)
      script << "$r" << i << " using 1:3:4 with filledcurves fc rgb '#b8b8b8' fs transparent solid "
             << "0.55 noborder " << title << ", ";
    script << "$r" << i
           << " using 1:3:(0):($4-$3) with vectors heads size graph 0.008,90 lc rgb '#555555' lw "
              "1.6 "
           << (joined ? "notitle" : title) << ", ";
  }
}
} // namespace

std::string gnuplot_script(const Plot &plot)
{
  std::ostringstream script;
  script << "set encoding utf8\nset terminal svg size " << plot_width << "," << plot_height
         << " noenhanced background '#ffffff' font 'DejaVu Sans,15' lw 1.3\n";
  write_data(script, plot);
  write_axes(script, plot);
  write_bands(script, plot);
  write_levels(script, plot);
  script << "plot ";
  write_ranges(script, plot);
  for (std::size_t i = 0; i < plot.curves.size(); ++i) {
    const std::size_t n = plot.curves[i].points.size();
    const bool point = n == 1;
    script << (i > 0 ? ", " : "") << "$c" << i << " using 1:2 with "
           << (point ? "points" : "linespoints") << " lc rgb '" << colours[i % colours.size()]
           << "' lw 2 dt " << 1 + i % 5 << (point ? " pt 3 ps 1.8" : " pt " + std::to_string(4 + i))
           << (point ? "" : " ps 0.75 pi " + std::to_string(n > 24 ? n / 12 : 1)) << " title "
           << quoted(plot.curves[i].name);
  }
  script << "\n";
  return script.str();
}
} // namespace overbend::viz
