// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/drawing/canvas.h"
#include "viz/drawing/neck_shapes.h"
#include "viz/run/pictures.h"
#include "viz/run/run_story.h"

#include <string>
#include <vector>

namespace overbend::viz
{
constexpr int picture_width = 1600, picture_height = 900;

// Draws the pictures of a run (pictures.h) in this process. Each draws on the same canvas and
// writes one file.
class PictureSet
{
public:
  // `folder` holds results.h5; the pictures go to its folder "pictures", made if need be. Throws
  // CannotDraw, solver::FileError, cases::CaseError.
  explicit PictureSet(const std::string &folder);

  // All that this run has something to show for; `why_not` names what it has not.
  Pictures draw();

private:
  Picture beside_straight();
  Picture stress();
  Picture strength();
  Picture temperature();
  Picture slip();

  void heading(const std::string &title, const std::string &under);
  std::string scale_of_bending() const;
  void note_on_bending(const std::string &more = "");
  Picture save(const std::string &name, const std::string &caption, const std::string &alternative);
  std::vector<Vec3> places(std::size_t step) const;
  // A strip with a label above it: the neck at a step in colours, its cut along the middle, the
  // glue lines.
  vtkRenderer *labelled_strip(const Frame &frame, const std::string &label);
  void coloured_strip(const Frame &frame, const std::string &label, std::size_t step,
                      const std::vector<double> &value, const ColourScale &scale,
                      const Vec3 &towards);
  void cut_strip(const Frame &frame, const std::string &label, std::size_t step,
                 const std::vector<double> &value, const ColourScale &scale);
  void glue_strip(const Frame &frame, const std::string &label, std::size_t step,
                  const ColourScale &scale);

  std::string folder;
  RunStory story;
  const solver::ResultsFile &results;
  NeckShapes shapes;
  Canvas canvas;
  double times; // magnification
};
} // namespace overbend::viz
