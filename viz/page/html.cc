// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/page/html.h"

#include "solver/results/record.h"

#include <regex>
#include <stdexcept>

namespace overbend::viz
{
namespace
{
std::string bytes_of_hex(const std::string &hex)
{
  std::string bytes;
  for (std::size_t i = 0; i + 1 < hex.size(); i += 2)
    bytes.push_back(char(std::stoi(hex.substr(i, 2), nullptr, 16)));
  return bytes;
}

// Source of a policy for an inline style or script: CSP level 2, "valid hash source".
std::string hash_source(const std::string &text)
{
  return "'sha256-" + base64(bytes_of_hex(solver::sha256(text))) + "'";
}

// The parser ends a script at its closing tag, wherever that stands.
void check_that_it_stays_inside(const std::string &script)
{
  if (script.find("</script") != std::string::npos)
    throw std::invalid_argument("a script for a page holds its own closing tag");
}
} // namespace

std::string escaped(const std::string &text)
{
  std::string out;
  for (const char c : text)
    switch (c) {
    case '&':
      out += "&amp;";
      break;
    case '<':
      out += "&lt;";
      break;
    case '>':
      out += "&gt;";
      break;
    case '"':
      out += "&quot;";
      break;
    case '\n':
    case '\t':
      out += c;
      break;
    default:
      // A plan that was changed by hand may hold characters that a page must not.
      if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F)
        out += "\uFFFD";
      else
        out += c;
    }
  return out;
}

std::string typeset(const std::string &text)
{
  static const std::regex scale(" deg([CF])\\b"), angle("([0-9]) deg\\b");
  return std::regex_replace(std::regex_replace(text, scale, " °$1"), angle, "$1°");
}

std::string words(const std::string &text)
{
  return escaped(typeset(text));
}

std::string list_of(const std::vector<std::string> &items)
{
  if (items.empty())
    return "";
  std::string out = "<ul>\n";
  for (const std::string &item : items)
    out += "<li>" + item + "</li>\n";
  return out + "</ul>\n";
}

std::string base64(const std::string &bytes)
{
  static const char *const digits =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve(bytes.size() / 3 * 4 + 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    unsigned group = 0;
    for (std::size_t k = 0; k < 3; ++k)
      group = group << 8 | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0u);
    for (std::size_t k = 0; k < 4; ++k)
      out += i + k > bytes.size() ? '=' : digits[group >> (18 - 6 * k) & 63];
  }
  return out;
}

std::string as_html(const Document &d)
{
  std::string policy =
      "default-src 'none'; base-uri 'none'; form-action 'none'; img-src data:; media-src data:; "
      "style-src " +
      hash_source(d.style);
  std::string scripts;
  for (const std::string &script : d.scripts) {
    check_that_it_stays_inside(script);
    scripts += "<script>" + script + "</script>\n";
    policy += (&script == &d.scripts.front() ? "; script-src " : " ") + hash_source(script);
  }
  return "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
         "<meta http-equiv=\"Content-Security-Policy\" content=\"" +
         policy +
         "\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>" +
         escaped(d.title) + "</title>\n<style>" + d.style + "</style>\n</head>\n<body" +
         (d.plan.empty() ? "" : " data-plan=\"" + escaped(d.plan) + "\"") + ">\n" + d.body +
         scripts + "</body>\n</html>\n";
}

std::string data_address(const std::string &bytes, const std::string &kind)
{
  return "data:" + kind + ";base64," + base64(bytes);
}

std::string table_start(const std::string &caption, const std::vector<std::string> &columns)
{
  std::string out = "<div class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"" +
                    escaped(caption) + "\">\n<table class=\"data\">\n<caption>" + words(caption) +
                    "</caption>\n<thead><tr>";
  for (const std::string &column : columns)
    out += "<th scope=\"col\">" + column + "</th>";
  return out + "</tr></thead>\n<tbody>\n";
}

const char *const table_end = "</tbody>\n</table>\n</div>\n";
} // namespace overbend::viz
