// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace overbend::cases
{
// Smallest number of single letters inserted, deleted, replaced or swapped with their neighbour
// that turns one word into the other (optimal string alignment distance).
int edit_distance(const std::string &a, const std::string &b);

// Lower case, with blanks, hyphens and underscores taken as the same letter: the form in which
// words of a case file are compared, so that "bolt-on", "Bolt on" and "bolt_on" are one word.
std::string plain_word(const std::string &word);

// The candidate nearest to the word, or an empty string if none is near enough to be meant
// (distance at most 2, or a third of the word's length).
std::string nearest_word(const std::string &word, const std::vector<std::string> &candidates);

// Remedy for an unknown word: `did you mean "x"?` if one is near, otherwise
// `known <things> are "a", "b" and "c"`.
std::string suggestion(const std::string &word, const std::vector<std::string> &candidates,
                       const std::string &things);

// `known <things> are "a", "b" and "c"`.
std::string known_in_words(const std::vector<std::string> &candidates, const std::string &things);

// "a", "a and b", "a, b and c", each word as given.
std::string listed(const std::vector<std::string> &words, const std::string &conjunction = "and");

// Without the blanks at its ends.
std::string trimmed(const std::string &text);
} // namespace overbend::cases
