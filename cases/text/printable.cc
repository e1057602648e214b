// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/printable.h"

#include <algorithm>
#include <array>
#include <cstdio>

namespace overbend::cases
{
namespace
{
unsigned byte_at(const std::string &text, std::size_t at)
{
  return at < text.size() ? static_cast<unsigned char>(text[at]) : 0u;
}

// Of a valid sequence.
unsigned long code_point(const std::string &text, std::size_t at, std::size_t length)
{
  if (length == 1)
    return byte_at(text, at);
  unsigned long code = byte_at(text, at) & (0xFFu >> (length + 1));
  for (std::size_t i = 1; i < length; ++i)
    code = code << 6 | (byte_at(text, at + i) & 0x3Fu);
  return code;
}

std::string escape(const char *pattern, unsigned long code)
{
  std::array<char, 16> written;
  std::snprintf(written.data(), written.size(), pattern, code);
  return written.data();
}
} // namespace

std::size_t utf8_length(const std::string &text, std::size_t at)
{
  const auto byte = [&](std::size_t i) { return byte_at(text, at + i); };
  const auto follows = [&](std::size_t i) { return (byte(i) & 0xC0u) == 0x80u; };
  const unsigned first = byte(0);
  if (first < 0x80)
    return 1;
  if (first >= 0xC2 && first < 0xE0)
    return follows(1) ? 2 : 0;
  if (first >= 0xE0 && first < 0xF0) {
    const bool overlong = first == 0xE0 && byte(1) < 0xA0;
    const bool surrogate = first == 0xED && byte(1) >= 0xA0;
    return follows(1) && follows(2) && !overlong && !surrogate ? 3 : 0;
  }
  if (first >= 0xF0 && first < 0xF5) {
    const bool overlong = first == 0xF0 && byte(1) < 0x90;
    const bool too_large = first == 0xF4 && byte(1) >= 0x90;
    return follows(1) && follows(2) && follows(3) && !overlong && !too_large ? 4 : 0;
  }
  return 0;
}

bool is_control(const std::string &text, std::size_t at)
{
  const unsigned long code = code_point(text, at, utf8_length(text, at));
  const auto within = [code](unsigned long from, unsigned long to) {
    return code >= from && code <= to;
  };
  return code < 0x20 || within(0x7F, 0x9F) || within(0x200E, 0x200F) || within(0x2028, 0x202E) ||
         within(0x2066, 0x2069);
}

std::string printable(const std::string &text)
{
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = utf8_length(text, at);
    if (length == 0)
      out += escape("\\x%02lx", byte_at(text, at));
    else if (text[at] == '\n' || text[at] == '\t')
      out += text[at] == '\n' ? "\\n" : "\\t";
    else if (is_control(text, at))
      out += escape(length == 1 ? "\\x%02lx" : "\\u%04lx", code_point(text, at, length));
    else
      out += text.substr(at, length);
    at += length == 0 ? 1 : length;
  }
  return out;
}

std::string shortened(const std::string &text, std::size_t most)
{
  std::size_t end = 0, characters = 0;
  for (; end < text.size() && characters < most; ++characters)
    end += std::max<std::size_t>(utf8_length(text, end), 1);
  if (end >= text.size())
    return text;
  return text.substr(0, end) + "... (" + std::to_string(text.size()) + " bytes)";
}
} // namespace overbend::cases
