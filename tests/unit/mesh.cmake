# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(mesh_layered_beam_test SOURCES mesh_layered_beam_test.cc LIBRARIES overbend_mesh)
