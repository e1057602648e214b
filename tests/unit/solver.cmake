# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(test_factor_sweep QUICK SOURCES factor_sweep_test.cc LIBRARIES overbend_solver)
overbend_test(test_bench_device QUICK
  SOURCES bench_statics.cc bench_device.cc clamp_setting.cc device_choice.cc line_fit.cc
          reading_at.cc sliding_line.cc
  LIBRARIES overbend_solver)
