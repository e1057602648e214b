// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

// Numbers as a shop says them: sign in words, both units.
namespace overbend::solver
{
// "1.10 mm (43 thou) forward", "0.24 mm (9.4 thou) back-bow", "straight" below 0.005 mm.
std::string bow_in_words(double metres);

// "0.60 deg, treble corner of the nut up", "0.10 deg, bass corner of the nut up", "none" below
// 0.005 deg.
std::string twist_in_words(double radians);

// Length of the winding sticks, m (common practice, no source), and the difference at their tips.
constexpr double stick_length = 0.3;
double over_sticks(double radians);

// "+0.24 mm (+9.4 thou)": for tables, sign always.
std::string signed_length(double metres);

// "0:25", "-0:20" to the minute; from two days on "2 days 4 h".
std::string clock_face(double seconds);

// Button turns in eighths, as fingers do them: "1 3/8", "none".
std::string turns(double number);

// What the hand does with a button: "take up 1 3/8 turns", "let out 1/4 turn", "leave it".
std::string turns_to_make(double number);

// Of a cord, N/m: "30 N/mm (171 lbf/in)". 1 lbf = 4.4482216 N, 1 in = 25.4 mm.
std::string stiffness_in_words(double newtons_per_metre);

// With a capital first letter.
std::string capital(std::string words);

std::string fixed(double value, int decimals);

// Breaks a text into lines of `width` with the first line indented by `first` and the others by
// `rest`.
std::string folded(const std::string &text, const std::string &first, const std::string &rest,
                   std::size_t width = 80);

// Breaks each line that is longer than `width`; what follows keeps its indentation. Shorter lines
// stay as they are, so that what is drawn in letters does.
std::string wrapped(const std::string &lines, std::size_t width = 80);
} // namespace overbend::solver
