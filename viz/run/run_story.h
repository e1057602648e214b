// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "solver/results/results_reader.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace overbend::viz
{
// The history of a stored run: which step is which moment at the bench, and how to say it.
class RunStory
{
public:
  // Throws solver::FileError (no results, none that can be read), cases::CaseError.
  explicit RunStory(const std::string &folder);

  const cases::Case &the_case() const { return case_; }
  const solver::ResultsFile &results() const { return file; }

  // Steps in the order of the history, grouped by phase: [first, last] of each phase that has some,
  // with what stands on the bench, as the results hold it: a plan has phases that its case has not.
  struct PhaseSteps
  {
    std::string name;
    std::size_t first = 0, last = 0;
    solver::OnBench on_bench = {};
  };
  const std::vector<PhaseSteps> &phases() const { return phase_steps; }

  std::size_t start_of_work() const; // first step of the first phase
  std::size_t last_step() const { return file.n_steps() - 1; }
  std::optional<std::size_t> end_of_heating() const; // last step of the last phase with the bar on

  // The moments worth a picture, in their order: as found (if stored), at the start, of each pass
  // the end of heating and just released (", pass 2" in the names of a later one), at the end;
  // those there are.
  enum class MomentKind { found, start, end_of_heating, released, end };
  struct Moment
  {
    std::string name;
    std::size_t step = 0;
    MomentKind kind = MomentKind::found;
  };
  std::vector<Moment> moments() const;

  // "phase \"heat\", clock 0:25", "phase \"rest\", 2:00 after release". Each pass has its clock, as
  // on the plan: 0:00 is when the heat comes on with the cords on; without that, its start.
  std::string moment(std::size_t step) const;
  std::string moment(const std::string &phase, double time) const;

  // What the straightedge reads on the centre line then, in words; empty if it was not read.
  std::string reading(std::size_t step) const;
  std::string reading_of(double bow_in_m) const;
  std::optional<double> bow_at(std::size_t step) const; // m; none: not read

  // The largest value of a field over all steps and nodes, and the step it occurs at first.
  struct Extreme
  {
    double least = 0, largest = 0; // over all steps
    std::size_t step = 0;          // of the largest amount
  };
  Extreme extreme(const std::string &field) const;

  // A round number of times to draw the displacement larger: the largest displacement at the start
  // or the end of a phase is then not more than a twelfth of the neck's length.
  double magnification() const;

private:
  // Of one pass, s: 0:00 of its clock, and its release; the step it is just released at, and the
  // last one that is heated.
  struct Pass
  {
    double zero = 0;
    std::optional<double> release;
    std::optional<std::size_t> end_of_heating, just_released;
  };
  void tell_passes();
  const PhaseSteps &phase_named(const std::string &name) const;

  solver::ResultsFile file;
  cases::Case case_;
  std::vector<PhaseSteps> phase_steps;
  std::vector<double> bow; // centre line at each step; empty: not read
  int bow_fret = 0;
  std::map<int, Pass> passes;
};
} // namespace overbend::viz
