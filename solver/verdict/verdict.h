// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "materials/tables.h"
#include "solver/heating/heat_limits.h"
#include "solver/plan/bench_heat.h"
#include "solver/plan/plan.h"

#include <optional>
#include <string>
#include <vector>

// Should it be done at all? Each reason, caution and alternative is a sentence in shop words.
//
// The limits are numbers of the tables (limits.toml; finishes.toml, glues.toml and tuners.toml for
// what each kind bears), with their origin; `overbend list limits` prints them. No input sets a
// limit aside.
namespace overbend::solver
{
struct Verdict
{
  // From the mildest to the strictest; from nothing_to_do on nothing is to be done with heat and
  // clamp now. changed: do it, but not with the set-up that the case asks for.
  enum Kind {
    do_it,
    with_cautions,
    changed,
    nothing_to_do,
    condition_first,
    not_by_heat,
    do_not
  } kind = do_it;
  bool refused() const { return kind >= nothing_to_do; }
  std::vector<std::string> reasons;      // why not, or what was changed
  std::vector<std::string> cautions;     // what to look out for
  std::vector<std::string> of_the_neck;  // those of them that are true whatever is done
  std::vector<std::string> alternatives; // what to do instead
  // All cautions of work that is to be done. A refusal gives no orders: only those of the neck.
  const std::vector<std::string> &shown_cautions() const;

  void refuse(const std::string &reason, const std::vector<std::string> &instead = {},
              Kind as = do_not);
  enum class Of { the_work, the_neck };
  void caution(const std::string &sentence, Of what = Of::the_work);
  // Do it, with another set-up than was asked for: what is changed, and why it was not as asked.
  void change(const std::vector<std::string> &changes, const std::vector<std::string> &why);
  void join(const Verdict &other); // the worse kind; every sentence once
};

// Strings' lift of the unstressed neck (m) on the mesh: by the set it lived under and by the one to
// come.
struct Lifts
{
  double found = 0, planned = 0;
  // By the set it lived under together with the rod as found: what strung minus slack should read.
  double as_read = 0;
  // By the set to come together with the rod as the target asks.
  double at_target = 0;
};

// Refusals that the case alone tells, before any mesh: plastic and finish against heat, open crack,
// loaded rod, an angle taken for a bow, glue that no bench heat softens, strings on while hot, a
// bow that needs nothing.
Verdict refuse_before(const cases::Case &the_case, const materials::Tables &tables);

// Factor on all moduli that brings the computed lift to strung minus slack as read, by the pair of
// readings that tells it best (stiffness_told.h); not positive: the strings lifted the neck the
// wrong way. Infinite without any lift. Throws std::bad_optional_access without a strung reading.
double fit_stiffness(const cases::Case &the_case, const Lifts &lifts);

// What the lift of the strings tells, before any history: a neck stiffer or softer than its table,
// one whose strung bow no wood explains, and one that will read right without any work.
// `stiffness_factor` is empty without a strung reading.
Verdict judge_lift(const cases::Case &the_case, const Lifts &lifts,
                   std::optional<double> stiffness_factor);

// What the simulated job tells: a line that does not move and why, both ends cold, a job that does
// not end in two passes with every limit that is passed, glue and surfaces too hot, ceiling of
// slip. column: the recorded history. moisture may be null: as the neck was built.
struct Job;
Verdict judge_after(const Job &job, const PlanColumn &column, const Workbench &workbench,
                    const ThermalHistory &heat, const MoistureHistory *moisture);

// What the simulation does not follow of the air of this case, a sentence a phase: swings within
// the day in phases of more than two weeks.
std::vector<std::string> left_out_of_the_air(const cases::Case &the_case);

// Cautions of how the case sets the neck up: a seized rod, one at its stop, a stop block.
std::vector<std::string> set_up_cautions(const cases::Case &the_case);

// Cautions of the work itself that fit the case: iron, finish, strings and rods under tension,
// estimates and not orders, local rules. Of a refusal, which gives no orders: the last alone.
std::vector<std::string> standing_cautions(const cases::Case &the_case);
std::vector<std::string> cautions_of_a_refusal();

// Signs to stop the work at once, as short as a card needs them.
std::vector<std::string> stop_signs(const cases::Case &the_case);

// For people: "do it", "do it, with these cautions", "not by heat".
std::string in_words(Verdict::Kind kind);
// The same for programs, stable: the name of the kind, "with_cautions".
std::string word(Verdict::Kind kind);
} // namespace overbend::solver
