// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/sheet/intake_sheet.h"

#include "cases/intake/bench_order.h"
#include "cases/intake/intake_answers.h"
#include "cases/text/document.h"
#include "cases/text/error.h"
#include "viz/page/embedded.h"
#include "viz/page/html.h"

#include <algorithm>
#include <cctype>
#include <cmath>

namespace overbend::viz
{
namespace
{
using namespace cases;
using viz::escaped;

std::string span(const std::string &kind, const std::string &text)
{
  return "<span class=\"" + kind + "\">" + escaped(text) + "</span>";
}

// A box with the usual value small in its corner.
std::string box(const std::string &usual)
{
  return "<span class=\"box\">" + (usual.empty() ? "" : span("usual", usual)) + "</span>";
}

// Both systems of units on the line, to ring the one that was used.
std::string units_of(const Declaration &field)
{
  constexpr double small = 20e-3; // read with feeler gauges or callipers
  switch (field.dimension) {
  case Dimension::number:
    return "";
  case Dimension::length:
    return std::max(std::abs(field.low), field.high) <= small ? "mm / thou" : "mm / in";
  case Dimension::temperature:
    return "degC / degF";
  case Dimension::force:
    return "N / kgf / lbf";
  case Dimension::time:
    return "min / h / days";
  default:
    return short_text(1, field.dimension).substr(short_text(1, field.dimension).find(' ') + 1);
  }
}

// A word to tick; the usual one is underlined.
std::string tick(const std::string &word, const std::string &usual)
{
  return span(word == usual ? "tick usual" : "tick", word);
}

std::string ticks(const std::vector<std::string> &words, const std::string &usual)
{
  std::string html = "<span class=\"words\">";
  for (const std::string &word : words)
    html += tick(word, usual) + " ";
  return html + "</span>";
}

// Where the answer goes.
std::string room_for(const Declaration &field, const std::string &usual, const std::string &unit)
{
  switch (field.kind) {
  case Kind::choice:
    return ticks(field.words, usual);
  case Kind::flag:
    return tick("yes", usual == "true" ? "yes" : "") + " " +
           tick("no", usual == "false" ? "no" : "");
  case Kind::month:
    return box(usual);
  case Kind::position:
    return box(usual) + (unit.empty() ? "" : " mm / in / fret");
  case Kind::grain:
    return box("") + " deg " + ticks({"flat", "rift", "quarter"}, usual);
  case Kind::radius:
    return box(usual) + " mm / in " + tick("flat", usual);
  case Kind::fret:
    return box(usual) + (field.words.empty() ? "" : " " + tick(field.words.front(), usual));
  default:
    return box(usual) + " " + unit;
  }
}

std::string field_html(const Declaration &field, const IntakeAnswers &answers, bool at_the_bench)
{
  std::string usual = in_both(field, answers.otherwise(field));
  if (usual == "unknown" && field.kind != Kind::choice)
    usual.clear();
  // A setting shows its unit in its usual value.
  const std::string unit = at_the_bench || usual.empty() ? units_of(field) : "";
  std::string html = "<div class=\"field\" data-key=\"" + escaped(field.name()) + "\">" +
                     span("label", label_of(field)) + " ";
  if (field.to_be_given)
    html += span("must", "must") + " ";
  html += is_preset_field(field) ? ticks(preset_names(), answers.given(field).value_or(""))
                                 : room_for(field, usual, unit);
  if (field.may_be_unknown() && field.kind != Kind::choice)
    html += " " + tick("unknown", "");
  return html + span("say", field.sentence) + "</div>\n";
}

std::string fret_table(int from, int to)
{
  std::string html = "<table><caption>Gap under the straightedge at frets " + std::to_string(from) +
                     " to " + std::to_string(to) +
                     " (0 where it touches)</caption><thead><tr><th scope=\"col\">fret</th>";
  for (int fret = from; fret <= to; ++fret)
    html += "<th scope=\"col\">" + std::to_string(fret) + "</th>";
  html += "</tr></thead><tbody>";
  for (const EdgeLine line : {EdgeLine::bass, EdgeLine::centre, EdgeLine::treble}) {
    html += "<tr><th scope=\"row\">" + name_of(line) + "</th>";
    for (int fret = from; fret <= to; ++fret)
      html += "<td></td>";
    html += "</tr>";
  }
  return html + "</tbody></table>\n";
}

std::string grid_html()
{
  const std::string line = "<span class=\"line\"></span>";
  return "<p>" + tick("mm", "") + " " + tick("thou", "") +
         " &nbsp; Ring the two rest frets; both gaps there belong to the reading. Forward bow: the "
         "edge rests on both. Back-bow: it balances on the hump, equal gaps at both ends.</p>\n" +
         fret_table(1, 12) + fret_table(13, 24) +
         "<p><b>Winding sticks</b>: treble tip at the nut " + tick("up", "") + " " +
         tick("down", "") + " by " + line + " mm / thou over " + line + " mm / in, frets " + line +
         " and " + line + "</p>\n";
}

// Paper is short: the first sentence.
std::string first_sentence(const std::string &text)
{
  return text.substr(0, text.find(". "));
}

std::string title_of(const BenchSection &section)
{
  std::string name = section.name.empty() ? "job" : section.name;
  name.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(name.front())));
  return name;
}

std::string section_html(const BenchSection &section, const IntakeAnswers &usual,
                         SheetExtent extent)
{
  std::string fields;
  for (const Declaration *field : section.fields)
    if (extent == SheetExtent::all || is_needed(*field))
      fields += field_html(*field, usual, section.at_the_bench);
  if (fields.empty())
    return "";
  std::string html = "<h2>" + title_of(section) + " <small>" +
                     escaped(first_sentence(section.sentence)) + "</small></h2>\n";
  if (!section.caution.empty())
    html += "<p class=\"caution\">" + escaped(section.caution) + "</p>\n";
  if (section.name == "found")
    return html + grid_html() + "<div class=\"columns\">\n" + fields + "</div>\n";
  return html + fields;
}

std::string body_html(const IntakeAnswers &usual, SheetExtent extent)
{
  // The readings take the whole width and part the columns.
  std::string html = "<div class=\"columns\">\n";
  bool settings = false;
  for (const BenchSection &section : bench_order()) {
    const std::string inside = section_html(section, usual, extent);
    if (inside.empty())
      continue;
    if (!section.at_the_bench && !settings) {
      settings = true;
      html += "</div>\n<p><b>What follows has usual values: fill in only what differs.</b></p>\n"
              "<div class=\"columns settings\">\n";
    }
    const std::string part =
        "<section data-section=\"" + section.name + "\">\n" + inside + "</section>\n";
    html += section.name == "found" ? "</div>\n" + part + "<div class=\"columns\">\n" : part;
  }
  return html + "</div>\n";
}

IntakeAnswers usual_of(const std::string &preset)
{
  IntakeAnswers usual({});
  if (preset.empty())
    return usual;
  try {
    usual.take(*find_declaration("", "preset"), preset);
  } catch (const UnitError &error) {
    throw CaseError("sheet", 0, error.problem, error.remedy);
  }
  return usual;
}
} // namespace

std::string intake_sheet(const std::string &preset, SheetExtent extent)
{
  const IntakeAnswers usual = usual_of(preset);
  std::string html =
      "<header><h1>Intake sheet" + (preset.empty() ? "" : ": " + escaped(preset)) + "</h1>\n";
  for (const std::string &caution : intake_cautions())
    html += "<p class=\"caution\">" + escaped(caution) + "</p>\n";
  html +=
      "<p>Ring the unit you used. What stands small in a box, or underlined, holds if it is left "
      "blank; an empty box without it: the preset's value. Bow forward +, back-bow -; twist + "
      "when the treble corner of the nut is up.</p>\n"
      "<p>Date <span class=\"line\"></span> Read by <span class=\"line wide\"></span></p>\n"
      "</header>\n<main>\n" +
      body_html(usual, extent);
  if (extent == SheetExtent::needed)
    html += "<p>Everything else has usual values that fit an ordinary neck of the preset's kind: "
            "<b>overbend sheet --all</b> prints a sheet with every key.</p>\n";
  Document page;
  page.title = "Intake sheet";
  page.style = sheet_style;
  page.body = html + "</main>\n";
  return as_html(page);
}
} // namespace overbend::viz
