// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

// Pictures of a run, drawn from its results folder alone.
//
// The drawing is done by a program of its own, overbend_pictures, which lies beside overbend or
// where it was built: a graphics driver that stops the process or hangs then takes no run with it,
// and only that program loads VTK. Nothing here throws for want of a display, a font or an encoder:
// the reason comes back as a sentence.
namespace overbend::viz
{
struct Picture
{
  std::string file;    // relative to the results folder: "pictures/stress.png"
  std::string caption; // what it shows, at which moment, how much it exaggerates
  std::string alternative_text;
};

struct Pictures
{
  std::vector<Picture> pictures; // 1600 x 900 PNG each, in the order to be shown
  std::string why_not;           // why some or all are missing, a sentence; empty: all are there
};

// Draws into folder/pictures: the neck beside the straight one, stress along the grain, use of
// strength, temperature at the end of heating, slip of the glue lines. The list with its texts is
// also left there as pictures.json.
Pictures draw_pictures(const std::string &folder);

// The pictures of an earlier draw_pictures of this folder, whose files are there. None, and why, if
// there was none.
Pictures drawn_pictures(const std::string &folder);

// Makes pictures/history.mp4 (1280 x 720), the whole history with the clock in the picture. Needs
// the program ffmpeg. Takes about a minute of processor time.
Pictures draw_animation(const std::string &folder);

// The film of an earlier draw_animation of this folder, as drawn_pictures.
Pictures drawn_animation(const std::string &folder);
} // namespace overbend::viz
