// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/suggest.h"

#include <algorithm>
#include <cctype>

namespace overbend::cases
{
int edit_distance(const std::string &a, const std::string &b)
{
  std::vector<std::vector<int>> d(a.size() + 1, std::vector<int>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i)
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        d[i][j] = static_cast<int>(i + j);
        continue;
      }
      const int replace = d[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, replace});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
    }
  return d[a.size()][b.size()];
}

std::string plain_word(const std::string &word)
{
  std::string plain;
  for (const char letter : word) {
    const bool gap = letter == '_' || letter == '-' || letter == ' ';
    plain += gap ? ' ' : static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
  }
  return plain;
}

std::string nearest_word(const std::string &word, const std::vector<std::string> &candidates)
{
  constexpr std::size_t longest_word = 100; // longer ones are no slips of the pen
  if (word.empty() || word.size() > longest_word)
    return "";
  const int allowed =
      std::min(static_cast<int>(word.size()) - 1, std::max(2, static_cast<int>(word.size()) / 3));
  std::string best;
  int best_distance = allowed + 1;
  for (const std::string &candidate : candidates) {
    const int distance = edit_distance(plain_word(word), plain_word(candidate));
    if (distance < best_distance) {
      best_distance = distance;
      best = candidate;
    }
  }
  return best;
}

std::string listed(const std::vector<std::string> &words, const std::string &conjunction)
{
  std::string list;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0)
      list += i + 1 == words.size() ? " " + conjunction + " " : ", ";
    list += words[i];
  }
  return list;
}

std::string suggestion(const std::string &word, const std::vector<std::string> &candidates,
                       const std::string &things)
{
  const std::string near = nearest_word(word, candidates);
  if (!near.empty())
    return "did you mean \"" + near + "\"?";
  return known_in_words(candidates, things);
}

std::string known_in_words(const std::vector<std::string> &candidates, const std::string &things)
{
  std::vector<std::string> quoted;
  for (const std::string &candidate : candidates)
    quoted.push_back("\"" + candidate + "\"");
  return "known " + things + " are " + listed(quoted);
}

std::string trimmed(const std::string &text)
{
  const char *const blanks = " \t\r\n\v\f";
  const std::size_t from = text.find_first_not_of(blanks);
  if (from == std::string::npos)
    return "";
  return text.substr(from, text.find_last_not_of(blanks) - from + 1);
}
} // namespace overbend::cases
