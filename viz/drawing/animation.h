// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/drawing/film_times.h"
#include "viz/run/pictures.h"

#include <string>

namespace overbend::viz
{
constexpr int film_width = 1280, film_height = 720;

// Makes pictures/history.mp4 in this process: the neck from the side under a straightedge, coloured
// by temperature, and the glue lines coloured by slip, with phase, clock, reading, magnification
// and a strip of the phases in each picture. Throws as PictureSet does.
Pictures make_animation(const std::string &folder);
} // namespace overbend::viz
