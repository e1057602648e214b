// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/read/read_case.h"
#include "mesh/make_neck_mesh.h"
#include "solver/climate/moisture.h"
#include "solver/verdict/verdict.h"

#include "solver/job/job.h"

#include <functional>
#include <memory>

namespace overbend::tests
{
constexpr double celsius = 273.15, degree = 3.14159265358979323846 / 180;

inline cases::Case the_case(const char *glue)
{
  cases::Case c = cases::preset_case("electric");
  c.board_glue.kind = glue;
  return c;
}

// A job and its accepted history written by hand, on a real bench with temperatures of its own.
class JudgeAfter : public ::testing::Test
{
protected:
  void use(const cases::Case &chosen)
  {
    c = chosen;
    neck = mesh::make_neck_mesh(c.neck, 0.5);
    input = std::make_unique<solver::PlanInput>(
        solver::PlanInput{c, neck, materials::tables(), [](const std::string &) {}, {}});
    bench = std::make_unique<solver::Workbench>(input->the_case, input->mesh, input->tables,
                                                solver::ModelChoices{});
    warm([](double) { return celsius + 55; });
    column.on_target = true;
    job = {};
    job.planned = c;
    job.heat.set_point = celsius + 66;
    job.heat.overshoot = 3;
    job.heat.limits = solver::heat_limits(c, materials::tables());
    job.passes = {solver::PassPlan()};
    job.ends = true;
  }
  void SetUp() override { use(the_case("white PVA")); }

  // Temperature along the neck, all the time.
  void warm(const std::function<double(double)> &along)
  {
    solver::ThermalState state;
    for (const auto &p : bench->model.space.position)
      state.temperature.push_back(along(p[0]));
    heat = {};
    heat.add(state);
    double time = 0;
    for (const cases::Phase &phase : c.phases)
      time += phase.duration;
    state.time = time;
    heat.add(state);
  }
  // One moisture content all over, all the time.
  solver::MoistureHistory water(double moisture) const
  {
    solver::MoistureHistory history;
    const std::vector<double> nodal(bench->model.space.position.size(), moisture);
    history.add(0, nodal);
    history.add(heat.end(), nodal);
    return history;
  }
  void put_on_posts()
  {
    c.tuners.layout = cases::TunerLayout::both_sides;
    c.tuners.across = 60e-3;
    c.bench.device = cases::Device::posts;
  }
  solver::Verdict judge() { return solver::judge_after(job, column, *bench, heat, nullptr); }
  void expect_refused(const std::string &because,
                      solver::Verdict::Kind as = solver::Verdict::do_not)
  {
    const solver::Verdict v = judge();
    EXPECT_EQ(v.kind, as) << because;
    EXPECT_THAT(v.reasons, ::testing::Contains(::testing::HasSubstr(because)));
    EXPECT_FALSE(v.alternatives.empty());
  }

  cases::Case c;
  mesh::NeckMesh neck;
  std::unique_ptr<solver::PlanInput> input;
  std::unique_ptr<solver::Workbench> bench;
  solver::ThermalHistory heat;
  solver::PlanColumn column;
  solver::Job job;
};
} // namespace overbend::tests
