// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/paraview/paraview_opener.h"

#include "solver/results/text_file.h"

#include <filesystem>
#include <stdexcept>

namespace overbend::viz
{
// viz/open_in_paraview.py.in, embedded by the build.
extern const char *const opener_template;

namespace
{
// Field names go into a Python string: a quote or a backslash would end it.
std::string python_text(const std::string &text)
{
  if (text.find_first_of("\"\\\n") != std::string::npos)
    throw std::invalid_argument("'" + text + "' cannot be the name of a field");
  return text;
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
  std::string script = opener_template;
  replace(script, "@MAGNIFICATION@", solver::number_text(view.magnification));
  replace(script, "@DISPLACEMENT@", python_text(view.displacement));
  replace(script, "@COLOUR@", python_text(view.colour));
  solver::write_text_file((std::filesystem::path(folder) / "open_in_paraview.py").string(), script);
}
} // namespace overbend::viz
