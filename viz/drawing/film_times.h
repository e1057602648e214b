// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/run/run_story.h"

#include <vector>

namespace overbend::viz
{
constexpr int frames_per_second = 12;

// One picture of the film: the state a share of the way from a stored step to the next.
struct FilmFrame
{
  std::size_t step = 0;
  double share = 0;
};

// How much happens from each stored step to the next: change of bow, of the highest temperature and
// of the largest slip, each as a share of what it changes in the whole history.
std::vector<double> activity(const RunStory &story);

// A history goes from seconds to days, so even steps of time would show nothing but the last rest.
// The film goes on by what happens: twenty frames for a whole range of bow, warmth or slip. It
// stands still for a third of a second where a phase begins, and for a second at the end.
std::vector<FilmFrame> film_frames(const std::vector<double> &activity,
                                   const std::vector<std::size_t> &phase_starts);
} // namespace overbend::viz
