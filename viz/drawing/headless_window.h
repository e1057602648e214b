// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vtkGenericOpenGLRenderWindow.h>

#include <memory>
#include <stdexcept>

namespace overbend::viz
{
// Why nothing can be drawn here, as a sentence.
struct CannotDraw : std::runtime_error
{
  using std::runtime_error::runtime_error;
};

// A window of VTK's that is a piece of memory: no display, no graphics card. Debian's VTK knows X
// only, and stops the process without it, so the drawing context comes from EGL on Mesa's
// surfaceless platform.
class HeadlessWindow : public vtkGenericOpenGLRenderWindow
{
public:
  static HeadlessWindow *New();
  // clang-format off
  vtkTypeMacro(HeadlessWindow, vtkGenericOpenGLRenderWindow)
  // Throws CannotDraw if EGL or OpenGL 3.2 is not to be had. Once.
  void create(int width, int height);
  // clang-format on

  void MakeCurrent() override;
  bool IsCurrent() override;
  void Frame() override {}
  void OpenGLInitContext() override;

protected:
  HeadlessWindow();
  ~HeadlessWindow() override;

private:
  struct Context;
  std::unique_ptr<Context> context;
};
} // namespace overbend::viz
