// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/encoding.h"

#include "cases/text/error.h"
#include "cases/text/printable.h"

namespace overbend::cases
{
void check_encoding(const std::string &text, const std::string &file)
{
  const char *remedy = "save it as plain text in UTF-8";
  if (text.rfind("\xFF\xFE", 0) == 0 || text.rfind("\xFE\xFF", 0) == 0)
    throw CaseError(file, 1, "the file is written in UTF-16", remedy);
  int line = 1;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = utf8_length(text, at);
    if (length == 0)
      throw CaseError(file, line, "the line holds bytes that are not UTF-8", remedy);
    if (text[at] == '\0')
      throw CaseError(file, line, "the line holds a zero byte, so this is not a text file", remedy);
    if (text[at] == '\n')
      ++line;
    at += length;
  }
}

std::string without_byte_order_mark(const std::string &text)
{
  const std::string mark = "\xEF\xBB\xBF";
  return text.rfind(mark, 0) == 0 ? text.substr(mark.size()) : text;
}
} // namespace overbend::cases
