// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/drawing/canvas.h"
#include "viz/drawing/neck_shapes.h"
#include "viz/run/run_story.h"

#include <string>
#include <vector>

// What pictures and film have in common.
namespace overbend::viz
{
// The directions they look along: from above and from below past the bass side.
constexpr Vec3 from_above = {0.03, 1, -0.8}, from_below = {0.03, 1, 0.75},
               from_bass_level = {0, 1, 0}, from_top = {0, 0.25, -1};
constexpr Colour line_dark = {0.2, 0.2, 0.2}, line_light = {0.75, 0.75, 0.75};

// Makes the folder "pictures" in a results folder. FileError.
void make_pictures_folder(const std::string &folder);

// The glue lines coloured by a value at their points, from above, in the outline of the straight
// neck. The scarf's lies under the board's, so it is shown in the place of the headstock.
void draw_glue_lines(Canvas &canvas, vtkRenderer *strip, const NeckShapes &shapes,
                     const solver::MeshData &mesh, const std::vector<double> &value,
                     const ColourScale &scale);
} // namespace overbend::viz
