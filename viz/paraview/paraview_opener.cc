// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/paraview/paraview_opener.h"

#include "solver/results/text_file.h"

#include <filesystem>
#include <stdexcept>

namespace overbend::viz
{
// viz/paraview/open_in_paraview.py.in and layouts_in_paraview.py.in, embedded by the build.
extern const char *const open_in_paraview, *const layouts_in_paraview;

namespace
{
// Field names go into a Python string: a quote or a backslash would end it.
std::string python_text(const std::string &text)
{
  if (text.find_first_of("\"\\\n") != std::string::npos)
    throw std::invalid_argument("'" + text + "' cannot be the name of a field");
  return "\"" + text + "\"";
}

// Any text, such as a name of a phase from the case, as a Python string.
std::string python_string(const std::string &text)
{
  std::string out = "\"";
  for (const char c : text)
    out += c == '\n'               ? std::string("\\n")
           : c == '"' || c == '\\' ? std::string("\\") + c
                                   : std::string(1, c);
  return out + "\"";
}

std::string number(double value)
{
  return solver::number_text(value, 9);
}

std::string python_field(const OpenerField &field)
{
  return "Field(" + python_text(field.name) + ", " + number(field.low) + ", " + number(field.high) +
         (field.is_signed ? ", True)" : ", False)");
}

std::string python_moments(const std::vector<OpenerMoment> &moments)
{
  std::string out = "[\n";
  for (const OpenerMoment &moment : moments)
    out += "    (" + number(moment.hours) + ", " + python_string(moment.name) + "),\n";
  return out + "]";
}

std::string python_list(const std::vector<double> &values)
{
  std::string out;
  for (const double value : values)
    out += (out.empty() ? "" : ", ") + number(value);
  return "[" + out + "]";
}

std::string python_bench(const BenchPlaces &bench)
{
  std::string pulled;
  for (const auto &place : bench.pulled_at)
    pulled += python_list({place.begin(), place.end()}) + ", ";
  return "Bench(" + python_list(bench.fret_x) + ", " + number(bench.board_thickness) + ", " +
         python_list({bench.bar_from, bench.bar_to, bench.bar_width, bench.bar_thickness}) + ", " +
         python_list({bench.cradle_x, bench.cradle_width}) + ", [" + pulled + "], " +
         (bench.turned_over ? "True, " : "False, ") + (bench.pulled_up ? "True)" : "False)");
}

void replace(std::string &text, const std::string &mark, const std::string &value)
{
  const std::size_t at = text.find(mark);
  if (at == std::string::npos)
    throw std::logic_error("the opener's template has no " + mark);
  text.replace(at, mark.size(), value);
}
} // namespace

void write_paraview_opener(const std::string &folder, const OpenerView &view)
{
  std::string script = std::string(open_in_paraview) + layouts_in_paraview;
  replace(script, "@MAGNIFICATION@", solver::number_text(view.magnification));
  replace(script, "@DISPLACEMENT@", python_text(view.displacement));
  replace(script, "@STRESS@", python_field(view.stress));
  replace(script, "@USE@", python_field(view.use));
  replace(script, "@TEMPERATURE@", python_field(view.temperature));
  replace(script, "@SLIP@", python_field(view.slip));
  replace(script, "@OPENS_AT@", number(view.opens_at));
  replace(script, "@BENCH@", python_bench(view.bench));
  replace(script, "@STAGES@", python_moments(view.stages));
  replace(script, "@CAPTIONS@", python_moments(view.captions));
  solver::write_text_file((std::filesystem::path(folder) / "open_in_paraview.py").string(), script);
}
} // namespace overbend::viz
