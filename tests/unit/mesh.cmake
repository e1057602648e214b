# SPDX-License-Identifier: GPL-3.0-or-later
find_library(OVERBEND_GMSH gmsh REQUIRED)
overbend_test(mesh_layered_beam_test SOURCES mesh_layered_beam_test.cc LIBRARIES overbend_mesh)
overbend_test(mesh_neck_test SOURCES mesh_neck_test.cc mesh_presets_test.cc LIBRARIES overbend_mesh ${OVERBEND_GMSH})
