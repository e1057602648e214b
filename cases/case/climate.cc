// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/climate.h"

#include "cases/case/humid_air.h"
#include "cases/text/encoding.h"
#include "cases/text/error.h"
#include "cases/text/suggest.h"
#include "cases/text/units.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <sstream>

namespace overbend::cases
{
namespace
{
struct Column
{
  std::string name, unit;
  Dimension dimension;
};

// A cell without the quotes that spreadsheets put around text.
std::string bare_cell(const std::string &text)
{
  const std::string cell = trimmed(text);
  const bool quoted = cell.size() > 1 && cell.front() == '"' && cell.back() == '"';
  return quoted ? trimmed(cell.substr(1, cell.size() - 2)) : cell;
}

std::vector<std::string> cells_of(const std::string &line, char separator)
{
  std::vector<std::string> cells;
  std::istringstream stream(line);
  std::string cell;
  while (std::getline(stream, cell, separator))
    cells.push_back(bare_cell(cell));
  return cells;
}

const std::vector<std::string> &column_names()
{
  static const std::vector<std::string> names = {"time", "temperature", "humidity", "dew point"};
  return names;
}

Column parse_column(const std::string &text)
{
  constexpr Dimension dimensions[] = {Dimension::time, Dimension::temperature, Dimension::fraction,
                                      Dimension::temperature};
  const std::size_t open = text.find('['), close = text.find(']');
  if (open == std::string::npos || close != text.size() - 1)
    throw UnitError("the column \"" + text + "\" has no unit",
                    "write it in brackets, such as time [h], temperature [degC], humidity [%]");
  const std::string name = plain_word(trimmed(text.substr(0, open)));
  const auto found = std::find(column_names().begin(), column_names().end(), name);
  if (found == column_names().end())
    throw UnitError("there is no column \"" + name + "\"",
                    suggestion(name, column_names(), "columns"));
  const Column column = {name, text.substr(open + 1, close - open - 1),
                         dimensions[found - column_names().begin()]};
  parse_quantity("1 " + column.unit, column.dimension);
  return column;
}

// One table while it is being read.
class Reader
{
public:
  Reader(const std::string &file, Climate &climate) : file_(file), climate_(climate) {}

  void read(const std::string &text)
  {
    std::istringstream stream(text);
    std::string line;
    while (std::getline(stream, line)) {
      ++line_;
      if (line.size() > longest_line)
        throw CaseError(file_, line_, "the line has " + std::to_string(line.size()) + " bytes",
                        "write one row of the table a line");
      const std::string content = trimmed(line);
      if (content.empty() || content.front() == '#')
        continue;
      try {
        columns_.empty() ? read_header(content) : read_row(content);
      } catch (const UnitError &error) {
        throw CaseError(file_, line_, error.problem, error.remedy);
      }
    }
    finish();
  }

private:
  bool has(const std::string &name) const
  {
    return std::any_of(columns_.begin(), columns_.end(),
                       [&](const Column &column) { return column.name == name; });
  }

  void read_header(const std::string &line)
  {
    // Spreadsheets of countries with a decimal comma put semicolons between the cells.
    separator_ = line.find(';') == std::string::npos ? ',' : ';';
    for (const std::string &cell : cells_of(line, separator_)) {
      const Column column = parse_column(cell);
      if (has(column.name))
        throw UnitError("the column \"" + column.name + "\" stands twice", "leave one of them out");
      columns_.push_back(column);
    }
    for (const char *needed : {"time", "temperature"})
      if (!has(needed))
        throw UnitError("the table has no column \"" + std::string(needed) + "\"",
                        "begin it with time [h], temperature [degC], humidity [%]");
    if (has("humidity") == has("dew point"))
      throw UnitError(has("humidity") ? "the table has humidity and dew point"
                                      : "the table has neither humidity nor dew point",
                      "give one of the two");
  }

  void read_row(const std::string &line)
  {
    const std::vector<std::string> cells = cells_of(line, separator_);
    if (cells.size() != columns_.size())
      refuse_count(cells.size());
    ClimatePoint point;
    std::optional<double> dew_point;
    for (std::size_t c = 0; c < cells.size(); ++c) {
      const Column &column = columns_[c];
      const double value =
          parse_quantity(number_of(cells[c]) + " " + column.unit, column.dimension);
      if (column.name == "time")
        point.time = value;
      else if (column.name == "temperature")
        point.temperature = value;
      else if (column.name == "humidity")
        point.humidity = value;
      else
        dew_point = value;
    }
    if (dew_point)
      point.humidity = humidity_at(point.temperature, *dew_point);
    check(point, dew_point.has_value());
    if (climate_.points.empty())
      begin_ = point.time;
    point.time -= begin_;
    if (!climate_.points.empty() && point.time <= climate_.points.back().time)
      throw UnitError("the time does not grow", "sort the rows by time, each time once");
    climate_.points.push_back(point);
  }

  void refuse_count(std::size_t count) const
  {
    const std::string what =
        "the row has " + std::to_string(count) + " values, not " + std::to_string(columns_.size());
    if (separator_ == ',' && count == 2 * columns_.size())
      throw UnitError(what + ", are these decimal commas?",
                      "write decimal points, or put semicolons between the values");
    throw UnitError(what, separator_ == ';'
                              ? "write one for each column, with a semicolon between"
                              : "write one for each column, with a comma between and a decimal "
                                "point");
  }

  // Between semicolons a comma is the decimal one.
  std::string number_of(std::string cell) const
  {
    const std::size_t comma = cell.find(',');
    if (separator_ == ';' && comma != std::string::npos && cell.find('.') == std::string::npos)
      cell[comma] = '.';
    return cell;
  }

  static void check(const ClimatePoint &point, bool by_dew_point)
  {
    constexpr double coldest = 273.15 - 40, hottest = 273.15 + 95, driest = 0.02;
    if (point.temperature < coldest || point.temperature > hottest)
      throw UnitError("the temperature is out of range",
                      "it must lie between -40 and 95 degC (-40 and 203 degF)");
    if (by_dew_point && point.humidity > 1)
      throw UnitError("the dew point lies above the temperature", "check the two columns");
    if (point.humidity < driest || point.humidity > 1)
      throw UnitError("the humidity is out of range", "it must lie between 2 and 100 %");
  }

  void finish()
  {
    std::vector<ClimatePoint> &points = climate_.points;
    if (points.size() < 2)
      throw CaseError(file_, line_, "the table has fewer than two rows",
                      "give the air at two times at least");
    climate_.period = 0;
    if (!climate_.repeats)
      return;
    const ClimatePoint &first = points.front(), &last = points.back();
    if (std::abs(first.temperature - last.temperature) > 1e-6 ||
        std::abs(first.humidity - last.humidity) > 1e-6)
      throw CaseError(file_, line_, "the table is to repeat, but ends in other air than it begins",
                      "add a last row with the air of the first, or write climate_repeats = false");
    climate_.period = last.time;
  }

  static constexpr std::size_t longest_line = 1000; // bytes

  const std::string &file_;
  Climate &climate_;
  char separator_ = ',';
  std::vector<Column> columns_;
  int line_ = 0;
  double begin_ = 0;
};

} // namespace

void parse_climate(const std::string &text, const std::string &file, Climate &climate)
{
  climate.points.clear();
  check_encoding(text, file);
  Reader(file, climate).read(without_byte_order_mark(text));
}
} // namespace overbend::cases
