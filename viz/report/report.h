// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/page/plan_file.h"

#include <string>

namespace overbend::viz
{
// The report of a plan: one file with everything in it, which works from disk without a network and
// without scripts for its numbers. Plots by gnuplot, the interactive view by three.js, pictures
// from the folder's `pictures`.
std::string report_page(const PlanFile &plan);

// Its sections (HTML), each with its heading.
std::string report_verdict(const PlanFile &plan);
std::string report_found(const PlanFile &plan);
std::string report_meaning(const PlanFile &plan);
std::string report_plan(const PlanFile &plan);
std::string report_expected(const PlanFile &plan);
std::string report_what_if(const PlanFile &plan);
std::string report_stages(const PlanFile &plan);
std::string report_plots(const PlanFile &plan);
std::string report_view(const PlanFile &plan); // without the scripts
std::string report_pictures(const PlanFile &plan);
std::string report_strength(const PlanFile &plan);
std::string report_customer(const PlanFile &plan);
std::string report_cautions(const PlanFile &plan);
std::string report_record(const PlanFile &plan);
} // namespace overbend::viz
