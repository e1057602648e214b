// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

// Small pieces of HTML and SVG. Texts from outside pass through `escaped`.
namespace overbend::viz
{
// Text for an element or a double-quoted attribute.
std::string escaped(const std::string &text);

// Units as print has them: "48 degC" becomes "48 °C", "0.25 deg" becomes "0.25°".
std::string typeset(const std::string &text);

// Text of the program's own between tags: escaped and typeset.
std::string words(const std::string &text);

// <ul> of texts; empty text without items.
std::string list_of(const std::vector<std::string> &items_as_html);

// A table of data that scrolls sideways where it is wider than the page: the part before its rows,
// with a caption in words and the columns' heads as HTML, and the part after them.
std::string table_start(const std::string &caption, const std::vector<std::string> &columns);
extern const char *const table_end;

// Base 64 (RFC 4648) of bytes.
std::string base64(const std::string &bytes);

// A document that runs and shows nothing but what is in it: a content-security policy allows the
// given style and scripts by their hash, and pictures and films as data.
struct Document
{
  std::string title;
  std::string style;                // of <style>
  std::string body;                 // HTML; no style attributes, they are not allowed
  std::vector<std::string> scripts; // run in order at the end of the body
  std::string plan;                 // code of the plan, for a script that keeps something by it
};
std::string as_html(const Document &document);

// A file as a data address; the kind is "image/png", "image/svg+xml" or "video/mp4".
std::string data_address(const std::string &bytes, const std::string &kind);
} // namespace overbend::viz
