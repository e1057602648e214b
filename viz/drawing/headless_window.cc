// SPDX-License-Identifier: GPL-3.0-or-later
#include <GL/glew.h> // before any header of VTK
// A line between, so that the order stays.
#include <EGL/egl.h>
#include <EGL/eglext.h>

#include "viz/drawing/headless_window.h"

#include <cstdio>
#include <string>

namespace overbend::viz
{
namespace
{
[[noreturn]] void give_up(const std::string &what)
{
  char code[32];
  std::snprintf(code, sizeof code, "0x%x", static_cast<unsigned>(eglGetError()));
  throw CannotDraw("no pictures: " + what + " (EGL error " + code +
                   "); on Debian the packages libegl-mesa0 and libgl1-mesa-dri draw without a "
                   "display");
}
} // namespace

struct HeadlessWindow::Context
{
  EGLDisplay display = EGL_NO_DISPLAY;
  EGLSurface surface = EGL_NO_SURFACE;
  EGLContext context = EGL_NO_CONTEXT;

  void make_current() const { eglMakeCurrent(display, surface, surface, context); }

  void open_display()
  {
    const auto get_display = reinterpret_cast<PFNEGLGETPLATFORMDISPLAYEXTPROC>(
        eglGetProcAddress("eglGetPlatformDisplayEXT"));
    if (get_display == nullptr)
      give_up("EGL is too old here");
    display = get_display(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, nullptr);
    EGLint major = 0, minor = 0;
    if (display == EGL_NO_DISPLAY || eglInitialize(display, &major, &minor) == EGL_FALSE)
      give_up("EGL finds no driver that draws without a display");
  }

  void open_context(int width, int height)
  {
    const EGLint wanted[] = {EGL_SURFACE_TYPE,
                             EGL_PBUFFER_BIT,
                             EGL_RENDERABLE_TYPE,
                             EGL_OPENGL_BIT,
                             EGL_RED_SIZE,
                             8,
                             EGL_GREEN_SIZE,
                             8,
                             EGL_BLUE_SIZE,
                             8,
                             EGL_ALPHA_SIZE,
                             8,
                             EGL_DEPTH_SIZE,
                             24,
                             EGL_NONE};
    EGLConfig config = nullptr;
    EGLint found = 0;
    if (eglBindAPI(EGL_OPENGL_API) == EGL_FALSE ||
        eglChooseConfig(display, wanted, &config, 1, &found) == EGL_FALSE || found < 1)
      give_up("EGL has no OpenGL that draws into memory");
    const EGLint size[] = {EGL_WIDTH, width, EGL_HEIGHT, height, EGL_NONE};
    surface = eglCreatePbufferSurface(display, config, size);
    const EGLint version[] = {EGL_CONTEXT_MAJOR_VERSION,
                              3,
                              EGL_CONTEXT_MINOR_VERSION,
                              2,
                              EGL_CONTEXT_OPENGL_PROFILE_MASK,
                              EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                              EGL_NONE};
    context = eglCreateContext(display, config, EGL_NO_CONTEXT, version);
    if (surface == EGL_NO_SURFACE || context == EGL_NO_CONTEXT ||
        eglMakeCurrent(display, surface, surface, context) == EGL_FALSE)
      give_up("OpenGL 3.2 is not to be had");
  }

  ~Context()
  {
    if (display == EGL_NO_DISPLAY)
      return;
    eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
    if (context != EGL_NO_CONTEXT)
      eglDestroyContext(display, context);
    if (surface != EGL_NO_SURFACE)
      eglDestroySurface(display, surface);
    eglTerminate(display);
  }
};

HeadlessWindow *HeadlessWindow::New()
{
  auto *window = new HeadlessWindow;
  window->InitializeObjectBase();
  return window;
}

HeadlessWindow::HeadlessWindow() = default;

HeadlessWindow::~HeadlessWindow()
{
  if (context) {
    context->make_current();
    Finalize();
  }
}

void HeadlessWindow::create(int width, int height)
{
  context = std::make_unique<Context>();
  context->open_display();
  context->open_context(width, height);
  SetOwnContext(0);
  SetSize(width, height);
  SetOffScreenRendering(true);
  SetMapped(0);
  SetIsCurrent(true);
  SetReadyForRendering(true);
  SetSupportsOpenGL(1);
  SetIsDirect(1);
  OpenGLInitContext();
}

void HeadlessWindow::MakeCurrent()
{
  context->make_current();
}

bool HeadlessWindow::IsCurrent()
{
  return context && eglGetCurrentContext() == context->context;
}

void HeadlessWindow::OpenGLInitContext()
{
  ContextCreationTime.Modified();
  if (Initialized)
    return;
  // GLEW looks for GLX at last and misses it; by then the functions of OpenGL are loaded.
  const GLenum status = glewInit();
  const bool loaded = status == GLEW_OK || status == GLEW_ERROR_NO_GLX_DISPLAY;
  GlewInitValid = loaded && GLEW_VERSION_3_2 != 0;
  if (!GlewInitValid)
    give_up("the functions of OpenGL 3.2 are not to be had");
  Initialized = true;
  GLfloat width[2] = {1, 1};
  glGetFloatv(GL_ALIASED_LINE_WIDTH_RANGE, width);
  MaximumHardwareLineWidth = width[1];
}
} // namespace overbend::viz
