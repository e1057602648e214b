// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/run/pictures.h"
#include "viz/run/run_story.h"

#include <string>
#include <vector>

namespace overbend::viz
{
constexpr int film_width = 1280, film_height = 720, frames_per_second = 12;

// One picture of the film: the state a share of the way from a stored step to the next.
struct FilmFrame
{
  std::size_t step = 0;
  double share = 0;
};

// A history goes from seconds to days, so even steps of time would show nothing but the last rest.
// Each phase gets two seconds of film and goes evenly through its stored steps, which lie dense
// where much happens; a phase of one step, and the end, stand still for a second.
std::vector<FilmFrame> film_frames(const RunStory &story);

// Makes pictures/history.mp4 in this process: the neck from above coloured by temperature, and the
// glue lines coloured by slip, with phase, clock and magnification in each picture. Throws as
// PictureSet does.
Pictures make_animation(const std::string &folder);
} // namespace overbend::viz
