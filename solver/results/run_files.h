// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

// What a run leaves in its folder, and how it is cleared away for the next one.
//
// A new run in the folder of an earlier one clears it first, before any long work. The other way, a
// folder beside it that is swapped in at the end, would keep the old plan longer: a run that was
// killed would leave the old bench card where the new one is looked for, and it would be clamped
// by. So a run that is refused, stops or is killed stands beside nothing older than itself.
namespace overbend::solver
{
// Whether a run writes a file of this name, given relative to its folder ("plan.txt",
// "pictures/slip.png"); also the unfinished form that a kill leaves ("plan.txt.tmp"). A test holds
// the list against the folders of whole runs.
bool written_by_a_run(const std::string &relative_name);

// Removes the files of an earlier run from the folder, first those that say what to do at the
// bench: a kill in between leaves no card without its results. Nothing is removed when anything
// else is there (a file of another name, a folder, a link, a device): it is named. Errors:
// FileError.
void clear_run(const std::string &folder);
} // namespace overbend::solver
