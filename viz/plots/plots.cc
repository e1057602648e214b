// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/plots/plots.h"

#include "viz/page/html.h"
#include "viz/programs/child_program.h"

namespace overbend::viz
{
namespace
{
// The picture is called by what it shows, not by the program that drew it.
std::string named(std::string svg, const std::string &title)
{
  for (const char *tag : {"title", "desc"}) {
    const std::string open = std::string("<") + tag + ">", close = std::string("</") + tag + ">";
    const std::size_t from = svg.find(open), to = svg.find(close);
    if (from != std::string::npos && to != std::string::npos)
      svg.replace(from + open.size(), to - from - open.size(), escaped(title));
  }
  return svg;
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
  const ChildEnd end = run_program({"gnuplot"}, gnuplot_script(plot), longest);
  if (end.went_well() && end.output.find("</svg>") != std::string::npos)
    return named(end.output, plot.title);
  problem = std::string("Plots are missing because gnuplot ") +
            (end.kind == ChildEnd::Kind::too_slow ? "did not end" : "failed") +
            " here; the tables hold their numbers.";
  return "";
}
} // namespace overbend::viz
