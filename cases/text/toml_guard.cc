// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/toml_guard.h"

#include "cases/text/error.h"

#include <algorithm>
#include <cstring>

namespace overbend::cases
{
namespace
{
constexpr int most_dots = 10; // of a key; ours have one

bool is_key_letter(char c)
{
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
         c == '-';
}

bool is_blank(char c)
{
  return c == ' ' || c == '\t';
}

// Goes through a text once and knows of it what is text in quotes, comment and the rest.
class Scanner
{
public:
  Scanner(const std::string &of_text, const std::string &in_file) : text(of_text), file(in_file) {}

  void run()
  {
    if (text.rfind("\xEF\xBB\xBF", 0) == 0)
      at = 3;
    while (at < text.size())
      step();
  }

private:
  char here(std::size_t ahead = 0) const
  {
    return at + ahead < text.size() ? text[at + ahead] : '\0';
  }

  void step()
  {
    const char c = here();
    if (c == '"' || c == '\'')
      skip_quoted(c);
    else if (c == '#')
      at = std::min(text.find('\n', at), text.size());
    else if (c == '[' && begins_line)
      check_header();
    else
      check_plain(c);
  }

  void check_plain(char c)
  {
    if (static_cast<unsigned char>(c) >= 0x80)
      refuse("a letter outside ASCII stands outside quotes (" +
                 text.substr(at, utf8_length(text, at)) + ")",
             "keys are plain words; put texts in quotes");
    word = is_key_letter(c) ? word + 1 : 0;
    if (word > longest_key)
      refuse("a word of more than " + std::to_string(longest_key) +
                 " letters stands outside quotes",
             "keys are plain words; put texts in quotes");
    if (c == '.')
      ++dots;
    else if (c != '\0' && std::strchr("\n=,{[", c) != nullptr)
      dots = 0;
    if (dots > most_dots)
      refuse("a name has more than " + std::to_string(most_dots) + " dots",
             "write key = \"value\" under a [section]");
    begins_line = c == '\n' || (begins_line && is_blank(c));
    line += c == '\n' ? 1 : 0;
    ++at;
  }

  // At the bracket of a section.
  void check_header()
  {
    begins_line = false;
    dots = 0;
    const auto skip_blanks = [&] {
      while (is_blank(here()))
        ++at;
    };
    ++at;
    if (here() == '[')
      ++at;
    skip_blanks();
    const char c = here();
    if (at < text.size() && !is_key_letter(c) && c != '"' && c != '\'' && c != ']' && c != '[' &&
        static_cast<unsigned char>(c) < 0x80)
      refuse("a section has no name", "write [name] on a line of its own, such as [found]");
  }

  void skip_quoted(char quote)
  {
    begins_line = false;
    word = 0;
    const std::string three(3, quote);
    const bool lines = text.compare(at, 3, three) == 0;
    at += lines ? 3 : 1;
    while (at < text.size()) {
      if (lines ? text.compare(at, 3, three) == 0 : here() == quote) {
        at += lines ? 3 : 1;
        return;
      }
      if (here() == '\n' && !lines)
        return; // the parser says what is wrong
      if (here() == '\\' && quote == '"' && here(1) != '\n')
        ++at;
      line += here() == '\n' ? 1 : 0;
      ++at;
    }
  }

  [[noreturn]] void refuse(const std::string &what, const std::string &remedy) const
  {
    throw CaseError(file, line, what, remedy);
  }

  const std::string &text, &file;
  std::size_t at = 0, word = 0;
  int line = 1, dots = 0;
  bool begins_line = true; // nothing but blanks so far
};
} // namespace

void refuse_what_the_parser_does_not_bear(const std::string &text, const std::string &file)
{
  Scanner(text, file).run();
}
} // namespace overbend::cases
