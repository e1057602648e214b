# SPDX-License-Identifier: GPL-3.0-or-later
# What draws by VTK: a library and a program of its own, so that nothing else pays for VTK's headers
# and start, and a driver that crashes takes no run with it.
find_package(VTK 9.1 REQUIRED COMPONENTS CommonCore CommonDataModel CommonExecutionModel
  FiltersCore FiltersGeneral FiltersGeometry IOImage RenderingCore RenderingOpenGL2
  RenderingFreeType RenderingAnnotation)
find_package(OpenGL REQUIRED COMPONENTS OpenGL EGL)
find_package(GLEW REQUIRED)

add_library(overbend_drawing STATIC
  drawing/actors.cc
  drawing/animation.cc
  drawing/bench_shapes.cc
  drawing/canvas.cc
  drawing/canvas_paper.cc
  drawing/colour_scale.cc
  drawing/field_pictures.cc
  drawing/film.cc
  drawing/film_times.cc
  drawing/headless_window.cc
  drawing/legend.cc
  drawing/neck_shapes.cc
  drawing/picture_set.cc
  drawing/side_pictures.cc
  drawing/side_view.cc
  drawing/views.cc)
target_link_libraries(overbend_drawing PUBLIC overbend_flags overbend_viz ${VTK_LIBRARIES}
  PRIVATE OpenGL::EGL OpenGL::OpenGL GLEW::GLEW)
vtk_module_autoinit(TARGETS overbend_drawing MODULES ${VTK_LIBRARIES})

# Beside overbend, where overbend looks for it.
add_executable(overbend_pictures drawing/draw_main.cc)
target_link_libraries(overbend_pictures PRIVATE overbend_flags overbend_drawing)
set_target_properties(overbend_pictures PROPERTIES RUNTIME_OUTPUT_DIRECTORY ${CMAKE_BINARY_DIR}/solver)
add_dependencies(overbend overbend_pictures)
