// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/drawing/bench_shapes.h"
#include "viz/drawing/canvas.h"
#include "viz/drawing/neck_shapes.h"
#include "viz/drawing/side_view.h"
#include "viz/run/edge_frame.h"
#include "viz/run/pictures.h"
#include "viz/run/run_story.h"

#include <string>
#include <vector>

namespace overbend::viz
{
constexpr int picture_width = 1600, picture_height = 900;

// Draws the pictures of a run (pictures.h) in this process. Each draws on the same canvas and
// writes one file. The neck is shown as a straightedge meets it (edge_frame.h), its bend as many
// times larger as its picture has room for.
class PictureSet
{
public:
  // `folder` holds results.h5; the pictures go to its folder "pictures", made if need be. Throws
  // CannotDraw, solver::FileError, cases::CaseError.
  explicit PictureSet(const std::string &folder);

  // All that this run has something to show for; `why_not` names what it has not.
  Pictures draw();

private:
  // side_pictures.cc
  Picture beside_straight();
  // field_pictures.cc
  Picture stress();
  Picture strength();
  Picture temperature();
  Picture slip();

  // A number at a place of the straight neck, m; written `lift` higher, with a line to the place.
  struct Probe
  {
    Vec3 place;
    std::string words;
    double lift = 0;
  };
  // Returns where the words are.
  Vec3 show(vtkRenderer *strip, const Probe &probe, const std::vector<Vec3> &places);
  std::vector<Probe> strength_by_part() const;
  std::vector<Probe> extremes(const std::vector<double> &value, const std::string &unit) const;
  std::vector<Probe> temperatures(const std::vector<double> &value) const;

  void heading(const std::string &title, const std::string &under);
  std::string scale_of_bending(double times) const;
  void note_on_bending(double times, const std::string &more = "");
  Picture save(const std::string &name, const std::string &caption, const std::string &alternative);
  std::vector<double> seen(std::size_t step) const; // displacement as EdgeFrame leaves it
  // A strip with a label above it.
  vtkRenderer *labelled_strip(const Frame &frame, const std::string &label);
  // The neck at a step in colours from above and from below, with frets and numbers, and what
  // stands on the bench.
  void above_and_below(std::size_t step, const std::vector<double> &value, const ColourScale &scale,
                       const std::vector<Probe> &probes);
  void coloured_strip(const Frame &frame, const std::string &label, std::size_t step,
                      const std::vector<double> &value, const ColourScale &scale, bool from_above,
                      const std::vector<Probe> &probes);
  // Where the neck is cut along (y, m): over a rod's channel there is no glue, so just beside it.
  double cut_at() const;
  // The neck cut along there, with the glue lines.
  void cut_strip(const Frame &frame, const std::string &label, std::size_t step,
                 const std::vector<double> &value, const ColourScale &scale,
                 const std::vector<Probe> &probes);
  void glue_strip(const Frame &frame, const std::string &label, std::size_t step,
                  const ColourScale &scale);
  double times_for(std::size_t step) const; // magnification in the strips of a field

  std::string folder;
  RunStory story;
  const solver::ResultsFile &results;
  NeckShapes shapes;
  EdgeFrame frame;
  BenchShapes bench;
  Canvas canvas;
};
} // namespace overbend::viz
