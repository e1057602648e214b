// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/page/plan_file.h"

#include <string>

namespace overbend::viz
{
// What the interactive view of the report draws: the neck's surface and its glue lines at the
// plan's stages, from results.h5.
struct ViewData
{
  // JSON: counts, stages with what the bench reads, fields with their range and colours, frets and
  // rest frets, in the order of the bytes.
  std::string description;
  // Base 64 of little-endian bytes. For the wood, then for the glue lines: nodes (float32, mm),
  // triangles (uint32), sharp edges (uint32), then for each stage the displacement (int16, times
  // "step" mm; as a straightedge meets the neck, run/edge_frame.h) and each field (uint16 over its
  // range).
  std::string bytes;
  std::string why_not; // a sentence, where there is nothing to draw
};

// Corners of the cells only: between them the surface is drawn flat.
// Errors: solver::FileError if there is a results file that cannot be read.
ViewData view_data(const PlanFile &plan);
} // namespace overbend::viz
