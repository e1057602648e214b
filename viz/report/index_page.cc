// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/report/index_page.h"

#include "viz/page/embedded.h"
#include "viz/page/html.h"
#include "viz/page/show.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <set>

namespace overbend::viz
{
namespace
{
namespace fs = std::filesystem;

struct Known
{
  const char *file, *what;
};

// In the order in which they are worth opening.
const std::array<Known, 13> known = {
    Known{"bench-card.html", "the page to print and pin above the bench"},
    Known{"report.html", "everything: what was found, the plan, plots, pictures, view of the neck"},
    Known{"plan.txt", "the plan as text, as it was printed"},
    Known{"pictures", "the pictures of the report as files, and the animation if there is one"},
    Known{"readings.csv", "the readings over time, for a spreadsheet"},
    Known{"gaps.csv", "bow and gap under the straightedge, fret by fret"},
    Known{"plan.json", "the plan for other programs"},
    Known{"results.h5", "the computed fields (HDF5)"},
    Known{"results.xdmf", "the same for ParaView; needs results.h5 beside it"},
    Known{"open_in_paraview.py", "opens them: paraview --script=open_in_paraview.py"},
    Known{"record.txt", "with what this was computed, and the case word for word"},
    Known{"index.html", "this page"},
    Known{"index.txt", "this page as text"}};

std::vector<std::pair<std::string, std::string>> files_of(const std::string &folder)
{
  std::set<std::string> there = {"bench-card.html", "report.html", "index.html"};
  for (const auto &entry : fs::directory_iterator(folder))
    there.insert(entry.path().filename().string());
  std::vector<std::pair<std::string, std::string>> files;
  for (const Known &one : known)
    if (there.erase(one.file) > 0)
      files.emplace_back(one.file, one.what);
  for (const std::string &other : there)
    files.emplace_back(other, "");
  return files;
}
} // namespace

std::string index_page(const PlanFile &plan)
{
  std::string rows;
  for (const auto &[file, what] : files_of(plan.folder))
    rows += "<li><a href=\"" + escaped(file) + (file == "pictures" ? "/" : "") + "\">" +
            escaped(file) + "</a>" + (what.empty() ? "" : ": " + escaped(what)) + "</li>\n";
  Document page;
  page.title = "Straightening plan: " + plan.text("/title");
  page.style = index_style;
  page.body = "<header>\n<h1>Straightening plan: " + shown(plan, "/title", As::text) +
              "</h1>\n</header>\n<main>\n<p class=\"verdict\">" +
              shown(plan, "/verdict/kind", As::text) +
              "</p>\n<p class=\"first\"><a href=\"bench-card.html\">Bench card</a> first, then the "
              "<a href=\"report.html\">report</a>.</p>\n<h2>What is in this folder</h2>\n<ul>\n" +
              rows + "</ul>\n</main>\n";
  return as_html(page);
}
} // namespace overbend::viz
