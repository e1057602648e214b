// SPDX-License-Identifier: GPL-3.0-or-later
// The interactive view's frame and data, and the pictures.
#include "viz/report/report.h"

#include "viz/page/html.h"
#include "viz/run/pictures.h"
#include "viz/view/view_data.h"

#include <filesystem>
#include <fstream>
#include <sstream>

namespace overbend::viz
{
namespace
{
// Shown while the script has not said that it can draw.
const char *const without =
    "This view needs JavaScript and WebGL; one of them is off here. All figures, tables and "
    "plots of this page are complete without it.";

const char *const frame = R"(
<p id="neck-without">@WITHOUT@</p>
<div id="neck-view">
<div class="controls">
<label for="neck-stage">Stage</label> <select id="neck-stage"></select>
<button type="button" id="neck-before" aria-label="Stage before">&#9664;</button>
<button type="button" id="neck-play">Play</button>
<button type="button" id="neck-after" aria-label="Next stage">&#9654;</button>
<label for="neck-field">Colour</label> <select id="neck-field"></select>
</div>
<div class="controls">
<label for="neck-scale">Bend drawn larger</label>
<input id="neck-scale" type="range" min="1" max="100" value="10" step="1">
<output id="neck-times" for="neck-scale"></output>
<button type="button" id="neck-home">From the side</button>
<button type="button" id="neck-above">From above</button>
<button type="button" id="neck-below">From below</button>
</div>
<p id="neck-now" role="status"></p>
<p id="neck-reading"></p>
<div class="drawing"><canvas id="neck-canvas" tabindex="0" role="img" aria-label="The neck, bent and coloured; stage and reading are said above. Arrow keys turn it, plus and minus move closer and away, zero goes back, n and p go to the next and the previous stage."></canvas></div>
<p id="neck-field-name"></p>
<div class="drawing"><canvas id="neck-bar" aria-hidden="true"></canvas></div>
<p id="neck-said"></p>
<p class="note" data-fixed>Arrow keys turn the neck, + and - move closer and away, 0 goes back, n and p
change the stage; or drag. Drawn by three.js, MIT licence: its text is in this page's source.</p>
</div>
)";

std::string contents(const std::filesystem::path &path)
{
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

// JSON inside a script element: no tag may end it.
std::string harmless(const std::string &json)
{
  std::string out;
  for (const char c : json)
    out += c == '<' ? std::string("\\u003c") : std::string(1, c);
  return out;
}
} // namespace

std::string report_view(const PlanFile &plan)
{
  const ViewData data = view_data(plan);
  if (!data.why_not.empty())
    return "<p class=\"missing\">" + words(data.why_not) + "</p>\n";
  std::string html = frame;
  html.replace(html.find("@WITHOUT@"), 9, without);
  return html + "<script type=\"application/json\" id=\"neck-about\">" +
         harmless(data.description) +
         "</script>\n<script type=\"application/octet-stream\" id=\"neck-data\">" + data.bytes +
         "</script>\n";
}

namespace
{
// A film that is longer than this stays a file of its own, bytes.
constexpr std::size_t largest_film = 4u << 20;

std::string report_film(const PlanFile &plan)
{
  std::string out;
  for (const Picture &film : drawn_animation(plan.folder).pictures) {
    const std::string mp4 = contents(std::filesystem::path(plan.folder) / film.file);
    if (mp4.empty())
      continue;
    const std::string link =
        "<a href=\"" + escaped(film.file) + "\">" + escaped(film.file) + "</a>";
    out += "<figure class=\"film\">\n";
    if (mp4.size() <= largest_film)
      out += "<video controls muted playsinline preload=\"metadata\" width=\"1280\" "
             "height=\"720\" aria-label=\"" +
             escaped(film.alternative_text) + "\" src=\"" + data_address(mp4, "video/mp4") +
             "\"></video>\n";
    out += "<figcaption data-fixed>" + words(film.caption) + " As a file: " + link +
           ".</figcaption>\n</figure>\n";
  }
  return out;
}
} // namespace

std::string report_pictures(const PlanFile &plan)
{
  const Pictures drawn = drawn_pictures(plan.folder);
  std::string out;
  for (const Picture &picture : drawn.pictures) {
    const std::string png = contents(std::filesystem::path(plan.folder) / picture.file);
    if (!png.empty())
      out += "<figure>\n<img alt=\"" + escaped(picture.alternative_text) + "\" src=\"" +
             data_address(png, "image/png") + "\">\n<figcaption data-fixed>" +
             words(picture.caption) + "</figcaption>\n</figure>\n";
  }
  out += report_film(plan);
  if (!drawn.why_not.empty())
    out += "<p class=\"missing\" data-fixed>" + words(drawn.why_not) + "</p>\n";
  return out;
}
} // namespace overbend::viz
