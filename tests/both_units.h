// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <regex>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

// Whether every length, force, stiffness and temperature of a text has its other unit beside it.
namespace overbend::tests
{
inline std::string in_one_line(const std::string &text)
{
  std::istringstream words(text);
  std::string line;
  for (std::string word; words >> word;)
    line += (line.empty() ? "" : " ") + word;
  return line;
}

inline void replace_all(std::string &text, const std::string &from, const std::string &to)
{
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
    text.replace(at, from.size(), to);
}

// A cell, a row or a paragraph ends a sentence; an inline element does not. By hand: the pictures
// of a page are too long for std::regex.
inline std::string without_tags(const std::string &html)
{
  std::string text;
  for (std::size_t at = 0; at < html.size();) {
    const std::size_t open = std::min(html.find('<', at), html.size());
    text += html.substr(at, open - at);
    if (open + 1 >= html.size())
      break;
    const std::size_t name = html[open + 1] == '/' ? open + 2 : open + 1;
    const std::string tag = html.substr(name, html.find_first_of(" >", name) - name);
    for (const char *block : {"td", "th", "tr", "p", "li", "h1", "h2", "h3", "div", "figcaption",
                              "caption", "br", "option"})
      if (tag == block)
        text += " | ";
    const std::size_t end = html.find('>', open);
    at = end == std::string::npos ? html.size() : end + 1;
  }
  return text;
}

// What a reader sees of a page: no tags, scripts, styles, and not the case word for word.
inline std::string text_of_html(std::string html)
{
  for (const char *element : {"script", "style", "pre", "head"})
    for (std::size_t at; (at = html.find(std::string("<") + element + ">")) != html.npos ||
                         (at = html.find(std::string("<") + element + " ")) != html.npos;) {
      const std::string end = std::string("</") + element + ">";
      html.erase(at, html.find(end, at) + end.size() - at);
    }
  replace_all(html, "<span class=\"box\">", " _ "); // room for an answer
  replace_all(html, "<span class=\"say\">", " | ");
  html = without_tags(html);
  for (const auto &[from, to] :
       {std::pair("&quot;", "\""), std::pair("&lt;", "<"), std::pair("&gt;", ">"),
        std::pair("&nbsp;", " "), std::pair("\u00a0", " "), std::pair("\u00b0", "deg"),
        std::pair("\u2212", "-"), std::pair("&amp;", "&")})
    replace_all(html, from, to);
  return html;
}

// Numbers with a unit that stand without their partner: mm without thou or in, N without kgf and
// lbf, degC without degF, N/mm without lbf/in. What stands in "quotes" is an example to type.
inline std::vector<std::string> bare_numbers(const std::string &text)
{
  static const std::regex quoted("\"[^\"]{0,60}\"");
  static const std::regex number("([0-9]) (mm|N|degC|N/mm)(?! m|[A-Za-z0-9/])");
  static const std::regex partner_mm("^ \\([-+0-9./ to]+ (thou|in)\\)"),
      partner_force("^ \\([-+0-9.]+ kgf, [-+0-9.]+ lbf\\)"),
      partner_warm("^ \\([-+0-9. to]+ degF\\)"), partner_stiff("^ \\([0-9., to]+ lbf/in\\)");
  const std::string line = std::regex_replace(in_one_line(text), quoted, "\"\"");
  std::vector<std::string> bare;
  for (std::sregex_iterator at(line.begin(), line.end(), number), end; at != end; ++at) {
    const std::string unit = (*at)[2], rest = at->suffix().str().substr(0, 60);
    const std::regex &partner = unit == "mm"     ? partner_mm
                                : unit == "N"    ? partner_force
                                : unit == "degC" ? partner_warm
                                                 : partner_stiff;
    if (!std::regex_search(rest, partner))
      bare.push_back(line.substr(std::size_t(std::max<long>(0, at->position() - 30)), 60));
  }
  return bare;
}
} // namespace overbend::tests
