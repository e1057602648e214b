// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/report/pages.h"

#include "solver/results/text_file.h"
#include "viz/card/card.h"
#include "viz/report/index_page.h"
#include "viz/report/report.h"

#include <filesystem>

namespace overbend::viz
{
void write_pages(const std::string &folder)
{
  const PlanFile plan(folder);
  const auto write = [&](const char *name, const std::string &page) {
    solver::write_text_file((std::filesystem::path(folder) / name).string(), page);
  };
  // All before the first is written: a plan that is damaged leaves the pages of before as they are.
  std::string card, report, index;
  plan.read_by([&] {
    card = bench_card(plan);
    report = report_page(plan);
    index = index_page(plan);
  });
  write("bench-card.html", card);
  write("report.html", report);
  write("index.html", index);
}
} // namespace overbend::viz
