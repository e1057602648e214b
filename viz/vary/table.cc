// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/vary/table.h"

#include "cases/text/printable.h"
#include "cases/text/units.h"
#include "solver/results/file_error.h"
#include "solver/words/shop_words.h"
#include "viz/page/embedded.h"
#include "viz/page/html.h"

#include <algorithm>
#include <sstream>

namespace overbend::viz
{
namespace
{
constexpr double freezing = 273.15; // K

std::string mm(const std::optional<double> &length)
{
  if (!length)
    return "-";
  const std::string text = solver::fixed(1e3 * *length, 2);
  return *length > 0 ? "+" + text : text;
}

std::vector<std::string> outcome_cells(const Member &member)
{
  if (!member.why_not.empty())
    return {"no plan: " + member.why_not, "-", "-", "-", "-", "-", "-", "-"};
  const Outcome o = outcome_of(member);
  return {o.verdict,
          o.set_point ? solver::fixed(*o.set_point - freezing, 0) : "-",
          o.hold ? cases::clock(*o.hold) : "-",
          o.passes > 0 ? std::to_string(o.passes) : "-",
          mm(o.overbend),
          mm(o.strung),
          o.strung_slow ? mm(o.strung_slow) + " to " + mm(o.strung_fast) : "-",
          o.hardest.empty() ? "-" : o.hardest + " " + solver::fixed(100 * o.share, 0) + " %"};
}

// A cell that a spreadsheet would take for a formula begins with an apostrophe.
std::string csv_cell(const std::string &text)
{
  const bool number = !text.empty() && text.find_first_not_of("+-.0123456789") == std::string::npos;
  const bool formula =
      !text.empty() && !number && std::string("=+-@\t").find(text.front()) != std::string::npos;
  std::string cell = formula ? "'" + text : text;
  for (std::size_t at = 0; (at = cell.find('"', at)) != std::string::npos; at += 2)
    cell.insert(at, "\"");
  return "\"" + cell + "\"";
}
} // namespace

StudyTable study_table(const std::vector<std::string> &varied, const std::vector<Member> &members)
{
  StudyTable table;
  table.head = {"no."};
  table.head.insert(table.head.end(), varied.begin(), varied.end());
  for (const char *name : {"verdict", "bar, degC", "hold", "passes", "first overbend, mm",
                           "strung, mm", "slow to fast, mm", "nearest to its limit"})
    table.head.push_back(name);
  for (const Member &member : members) {
    std::vector<std::string> row = {std::to_string(member.number)};
    row.insert(row.end(), member.variant.values.begin(), member.variant.values.end());
    for (const std::string &cell : outcome_cells(member))
      row.push_back(cell);
    table.rows.push_back(std::move(row));
  }
  return table;
}

std::string as_text(const StudyTable &table)
{
  std::vector<std::size_t> width(table.head.size());
  const auto widen = [&](const std::vector<std::string> &row) {
    for (std::size_t i = 0; i < row.size(); ++i)
      width[i] = std::max(width[i], row[i].size());
  };
  widen(table.head);
  for (const auto &row : table.rows)
    widen(row);
  std::string out;
  const auto add = [&](const std::vector<std::string> &row) {
    for (std::size_t i = 0; i < row.size(); ++i)
      out += cases::printable(row[i]) +
             (i + 1 < row.size() ? std::string(width[i] - row[i].size() + 2, ' ') : "\n");
  };
  add(table.head);
  for (const auto &row : table.rows)
    add(row);
  return out;
}

std::string as_csv(const StudyTable &table)
{
  std::string out;
  const auto add = [&](const std::vector<std::string> &row) {
    for (std::size_t i = 0; i < row.size(); ++i)
      out += csv_cell(row[i]) + (i + 1 < row.size() ? "," : "\n");
  };
  add(table.head);
  for (const auto &row : table.rows)
    add(row);
  return out;
}

std::string as_page(const StudyTable &table, const std::string &title)
{
  std::vector<std::string> head;
  for (const std::string &name : table.head)
    head.push_back(words(name));
  std::string body = "<main id=\"main\">\n<h1>" + escaped(title) + "</h1>\n" +
                     table_start("Each row is a plan; its folder has card and report", head);
  for (const auto &row : table.rows) {
    const std::string folder = row.front();
    body += "<tr><th scope=\"row\"><a href=\"" + escaped(folder) + "/index.html\">" +
            escaped(folder) + "</a></th>";
    for (std::size_t i = 1; i < row.size(); ++i)
      body += "<td>" + words(row[i]) + "</td>";
    body += "</tr>\n";
  }
  Document page;
  page.title = title;
  page.style = report_style;
  page.body = body + table_end +
              "<p>Strung: the middle line on the day that the target holds for, bow on the centre "
              "line, forward +. Slow to fast: what the glue line's speed leaves open. Estimates, "
              "not orders; the cautions stand on each card.</p>\n</main>\n";
  return as_html(page);
}
} // namespace overbend::viz
