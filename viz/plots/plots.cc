// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/plots/plots.h"

#include "solver/results/text_file.h"
#include "viz/programs/child_program.h"

#include <algorithm>
#include <array>
#include <sstream>

namespace overbend::viz
{
namespace
{
// Okabe and Ito's colours but the yellow, which is lost on white [M].
const std::array<const char *, 7> colours = {"#000000", "#0072B2", "#D55E00", "#009E73",
                                             "#CC79A7", "#56B4E9", "#E69F00"};

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
  return solver::number_text(value, 7);
}

void write_data(std::ostream &script, const Plot &plot)
{
  for (std::size_t i = 0; i < plot.curves.size(); ++i) {
    script << "$c" << i << " << EOD\n";
    for (const auto &[x, y] : plot.curves[i].points)
      script << number(x) << " " << number(y) << "\n";
    script << "EOD\n";
  }
}

// Range of y with a margin, fixed so that both scales fit each other.
std::pair<double, double> range_of(const Plot &plot)
{
  double low = 1e300, high = -1e300;
  for (const Curve &curve : plot.curves)
    for (const auto &[x, y] : curve.points) {
      low = std::min(low, y);
      high = std::max(high, y);
    }
  if (low > high)
    return {0, 1};
  const double margin = std::max(0.06 * (high - low), 1e-6);
  return {low - margin, high + margin};
}

void write_axes(std::ostream &script, const Plot &plot)
{
  script << "set xlabel " << quoted(plot.x_label) << "\nset ylabel " << quoted(plot.y_label)
         << "\nset grid lc rgb '#cccccc' lw 0.6 dt 1\nset border 11 lc rgb '#000000'\n"
         << "set xzeroaxis lc rgb '#000000' lw 1\nset tics nomirror\n"
         << "set key outside below center horizontal samplen 5 spacing 1.1\n";
  const auto [low, high] = range_of(plot);
  script << "set autoscale xfix\nset yrange [" << number(low) << ":" << number(high) << "]\n";
  if (!plot.y2_label.empty())
    script << "set y2range [" << number(low * plot.y2_factor + plot.y2_offset) << ":"
           << number(high * plot.y2_factor + plot.y2_offset) << "]\nset y2tics\nset y2label "
           << quoted(plot.y2_label) << " offset -1,0\n";
  if (plot.x_marks.empty())
    return;
  script << "set xtics (";
  for (const auto &[x, name] : plot.x_marks)
    script << (&name == &plot.x_marks.front().second ? "" : ", ") << quoted(name) << " "
           << number(x);
  script << ")\n";
}

std::string script_of(const Plot &plot)
{
  std::ostringstream script;
  script << "set encoding utf8\nset terminal svg size 900,470 noenhanced background '#ffffff' "
            "font 'DejaVu Sans,15' lw 1.3\n";
  write_data(script, plot);
  write_axes(script, plot);
  script << "plot ";
  for (std::size_t i = 0; i < plot.curves.size(); ++i) {
    const std::size_t n = plot.curves[i].points.size();
    script << (i > 0 ? ", " : "") << "$c" << i << " using 1:2 with linespoints lc rgb '"
           << colours[i % colours.size()] << "' lw 2 dt " << 1 + i % 5 << " pt " << 4 + i
           << " ps 0.7 pi " << (n > 24 ? n / 12 : 1) << " title " << quoted(plot.curves[i].name);
  }
  script << "\n";
  return script.str();
}
} // namespace

Plotter::Plotter(std::chrono::seconds longest_plot) : longest(longest_plot)
{
  const ChildEnd end = run_program({"gnuplot", "--version"}, "", longest);
  if (end.kind == ChildEnd::Kind::too_slow)
    problem = "The plots are missing because gnuplot does not answer here; the tables hold their "
              "numbers.";
  else if (!end.went_well())
    problem = "The plots are missing because the program gnuplot is not installed here (Debian: "
              "gnuplot-nox); the tables hold their numbers.";
}

std::string Plotter::draw(const Plot &plot)
{
  if (!problem.empty())
    return "";
  // The drawing comes back on the standard output: no temporary file that could not be made.
  const ChildEnd end = run_program({"gnuplot"}, script_of(plot), longest);
  if (end.went_well() && end.output.find("</svg>") != std::string::npos)
    return end.output;
  problem = std::string("Plots are missing because gnuplot ") +
            (end.kind == ChildEnd::Kind::too_slow ? "did not end" : "failed") +
            " here; the tables hold their numbers.";
  return "";
}
} // namespace overbend::viz
