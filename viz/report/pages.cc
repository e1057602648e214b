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
  write("bench-card.html", bench_card(plan));
  write("report.html", report_page(plan));
  write("index.html", index_page(plan));
}
} // namespace overbend::viz
