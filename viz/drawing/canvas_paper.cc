// SPDX-License-Identifier: GPL-3.0-or-later
// Texts and flat shapes over the strips.
#include "viz/drawing/canvas.h"

#include <vtkActor2D.h>
#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkCoordinate.h>
#include <vtkPoints.h>
#include <vtkPolyDataMapper2D.h>
#include <vtkTextActor.h>
#include <vtkTextProperty.h>
#include <vtkUnsignedCharArray.h>

#include <cmath>

namespace overbend::viz
{
namespace
{
void style(vtkTextProperty *words, const std::string &font, int size)
{
  words->SetFontFamily(VTK_FONT_FILE);
  words->SetFontFile(font.c_str());
  words->SetFontSize(size);
  words->SetColor(0.1, 0.1, 0.1);
  words->BoldOff();
  words->ItalicOff();
  words->ShadowOff();
}

int justification(Align align)
{
  return align == Align::start    ? VTK_TEXT_LEFT
         : align == Align::centre ? VTK_TEXT_CENTERED
                                  : VTK_TEXT_RIGHT;
}
} // namespace

void Canvas::text(double x, double y, const std::string &words, int points, Align align)
{
  vtkNew<vtkTextActor> actor;
  actor->SetInput(words.c_str());
  style(actor->GetTextProperty(), font, points);
  actor->GetTextProperty()->SetJustification(justification(align));
  actor->GetTextProperty()->SetVerticalJustificationToCentered();
  actor->GetPositionCoordinate()->SetCoordinateSystemToNormalizedViewport();
  actor->SetPosition(x, y);
  paper->AddActor2D(actor);
}

void Canvas::label(vtkRenderer *strip, const Vec3 &place, const std::string &words, int points,
                   Align align)
{
  vtkNew<vtkTextActor> actor;
  actor->SetInput(words.c_str());
  vtkTextProperty *const look = actor->GetTextProperty();
  style(look, font, points);
  look->SetBackgroundColor(1, 1, 1);
  look->SetBackgroundOpacity(0.75);
  look->SetJustification(justification(align));
  look->SetVerticalJustificationToCentered();
  actor->GetPositionCoordinate()->SetCoordinateSystemToWorld();
  actor->GetPositionCoordinate()->SetValue(place[0], place[1], place[2]);
  strip->AddActor2D(actor);
}

void Canvas::box(const Frame &frame, const Colour &colour)
{
  boxes(frame, {colour});
}

void Canvas::boxes(const Frame &frame, const std::vector<Colour> &colours)
{
  vtkNew<vtkPoints> corners;
  vtkNew<vtkCellArray> cells;
  vtkNew<vtkUnsignedCharArray> paints;
  paints->SetNumberOfComponents(3);
  const double width = (frame.right - frame.left) / double(colours.size());
  for (std::size_t i = 0; i < colours.size(); ++i) {
    const double left = frame.left + double(i) * width, right = left + width;
    cells->InsertNextCell(4);
    for (const auto &[x, y] : {std::pair(left, frame.bottom), std::pair(right, frame.bottom),
                               std::pair(right, frame.top), std::pair(left, frame.top)})
      cells->InsertCellPoint(corners->InsertNextPoint(x, y, 0));
    for (const double part : colours[i])
      paints->InsertNextValue(static_cast<unsigned char>(std::lround(255 * part)));
  }
  vtkNew<vtkPolyData> shape;
  shape->SetPoints(corners);
  shape->SetPolys(cells);
  shape->GetCellData()->SetScalars(paints);
  vtkNew<vtkCoordinate> shares;
  shares->SetCoordinateSystemToNormalizedViewport();
  vtkNew<vtkPolyDataMapper2D> mapper;
  mapper->SetInputData(shape);
  mapper->SetTransformCoordinate(shares);
  vtkNew<vtkActor2D> actor;
  actor->SetMapper(mapper);
  paper->AddActor2D(actor);
}
} // namespace overbend::viz
