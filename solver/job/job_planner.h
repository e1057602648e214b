// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/job/job.h"

#include <memory>

namespace overbend::solver
{
// Looks for set-up and passes on a coarse mesh and settles the passes on the mesh asked for
// (plan_job in job.h tells how). Used once and thrown away.
class JobPlanner
{
public:
  explicit JobPlanner(const JobInput &in);
  Job plan();

private:
  void look_for_passes();
  bool may_lay_foil() const;
  bool strength_gave() const;
  void start_over();
  void tell_heat_of_first_pass();
  const mesh::NeckMesh &coarse() const { return search_mesh ? *search_mesh : input.mesh; }
  LineChoice choice_at(double place, bool search) const;
  std::unique_ptr<NeckLine> make_line(const mesh::NeckMesh &mesh, unsigned speed,
                                      const NeckLine *like = nullptr) const;
  void learn_from_first_pass();
  std::vector<cases::Bench> possible_devices() const;
  NeckLine &line(unsigned speed);
  bool first_pass();
  PlanColumn size_first_pass();
  PlanColumn quick_of(const PlanColumn &column);
  double furthest_for(const PlanColumn &quick, const PlanColumn &of_middle) const;
  static bool headstock_gave(const PlanColumn &column);
  double miss(const PlanColumn &column) const;
  void finish_pass(PlanColumn column);
  bool may_read_twice() const;
  void read_twice(bool twice);
  struct Second
  {
    SecondReading reading;
    PlanColumn quick; // the fast line with what is let up
  };
  std::optional<Second> second_reading(const PlanColumn &column, const PlanColumn &quick);
  // A line faster than the middle one, and how far forward of the target it is to end (m).
  struct Faster
  {
    NeckLine &neck;
    double place, forward;
  };
  std::optional<Second> let_up_faster_lines(const PlanColumn &column, const PlanColumn &quick);
  void let_up_alike(Second &second, const PlanColumn &column);
  std::optional<LetUp> let_up(const Faster &faster, const PlanColumn &of_middle,
                              const PlanColumn &own, PlanColumn &then) const;
  PlanColumn run(unsigned speed, const PlanColumn &as);
  static double share_kept(const Reading &strung, const PlanColumn &of_middle);
  void read(unsigned speed, const PlanColumn &column, PassPlan &pass);
  bool ends_too_far_back(const PlanColumn &quick) const;
  PlanColumn hold_back(const PlanColumn &column, double furthest);
  static void write_down(const PlanColumn &column, PassPlan &pass);
  bool may_go_on() const;
  void one_more_pass();
  void finish_later_pass(const PlanColumn &column);
  void settle_on_the_mesh_asked_for();
  static void move_lines(BySpeed &lines, const Reading &to);
  void move_second_reading(SecondReading &second, const PlanColumn &column,
                           const ClampSetting &before) const;
  void fill_in_pulls();

  // Places in BySpeed.
  static constexpr unsigned slow = 0, middle = 1, fast = 2;
  const JobInput &input;
  const materials::WorkLimits &limits;
  const std::optional<mesh::NeckMesh> search_mesh;
  Job job;
  // Places in the spread of slow, middle and fast line (materials::place_in_spread).
  std::array<double, 3> places = {-1, 0, 1};
  std::array<std::unique_ptr<NeckLine>, 3> lines;
  std::optional<PlanColumn> quick_as_aimed; // the fast line of the device at hand
  cases::Bench best_bench;
  std::array<double, 3> kept{};                 // share of the clamped way, in the first pass
  bool holds_longest = false, has_foil = false; // beyond what was chosen at first
};
} // namespace overbend::solver
