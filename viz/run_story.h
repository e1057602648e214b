// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case.h"
#include "solver/results/results_reader.h"

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

  // Steps in the order of the history, grouped by phase: [first, last] of each phase that has some.
  struct PhaseSteps
  {
    std::string name;
    std::size_t first = 0, last = 0;
  };
  const std::vector<PhaseSteps> &phases() const { return phase_steps; }

  std::size_t start_of_work() const; // first step of the first phase of the case
  std::size_t last_step() const { return file.n_steps() - 1; }
  std::optional<std::size_t> end_of_heating() const; // last step of the last phase with the bar on
  std::optional<std::size_t> just_released() const;  // first step without the cords, after them

  // The moments worth a picture, in their order: as found (if stored), at the start, end of
  // heating, just released, at the end; those there are.
  struct Moment
  {
    std::string name;
    std::size_t step = 0;
  };
  std::vector<Moment> moments() const;

  // "phase \"heat\", clock 0:25", "phase \"rest\", 2 h after release". 0:00 is when the heat comes
  // on with the cords on, as on the plan; without that, the start.
  std::string moment(std::size_t step) const;
  std::string moment(const std::string &phase, double time) const;

  // What the straightedge reads on the centre line then, in words; empty if it was not read.
  std::string reading(std::size_t step) const;

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
  const cases::Phase *phase_named(const std::string &name) const;

  solver::ResultsFile file;
  cases::Case case_;
  std::vector<PhaseSteps> phase_steps;
  std::vector<double> bow; // centre line at each step; empty: not read
  int bow_fret = 0;
  double zero = 0;
  std::optional<double> release;
};
} // namespace overbend::viz
