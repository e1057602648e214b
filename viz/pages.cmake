# SPDX-License-Identifier: GPL-3.0-or-later
# Bench card, report and index: sources, and the texts they embed.

# Debian's libjs-three: three.js r111 and its OrbitControls, as classic scripts.
find_file(OVERBEND_THREE_JS three.min.js PATHS /usr/share/javascript/three REQUIRED)
find_file(OVERBEND_ORBIT_CONTROLS_JS OrbitControls.js
  PATHS /usr/share/javascript/three/examples/js/controls REQUIRED)

set(page_texts)
function(overbend_embed file symbol)
  cmake_parse_arguments(E "" "LICENCE" "" ${ARGN})
  set(source ${CMAKE_CURRENT_BINARY_DIR}/${symbol}.cc)
  add_custom_command(OUTPUT ${source}
    COMMAND ${CMAKE_COMMAND} -DIN=${file} -DOUT=${source} -DNAMESPACE=overbend::viz
      -DSYMBOL=${symbol} -DLICENCE=${E_LICENCE} -P ${CMAKE_CURRENT_SOURCE_DIR}/embed_text.cmake
    DEPENDS ${file} ${CMAKE_CURRENT_SOURCE_DIR}/embed_text.cmake ${E_LICENCE} VERBATIM)
  set(page_texts ${page_texts} ${source} PARENT_SCOPE)
endfunction()
overbend_embed(${CMAKE_CURRENT_SOURCE_DIR}/card/card.css card_style)
overbend_embed(${CMAKE_CURRENT_SOURCE_DIR}/card/card.js card_script)
overbend_embed(${CMAKE_CURRENT_SOURCE_DIR}/report/report.css report_style)
overbend_embed(${CMAKE_CURRENT_SOURCE_DIR}/report/index.css index_style)
overbend_embed(${CMAKE_CURRENT_SOURCE_DIR}/sheet/sheet.css sheet_style)
overbend_embed(${CMAKE_CURRENT_SOURCE_DIR}/view/neck_colours.js neck_colours_script)
overbend_embed(${CMAKE_CURRENT_SOURCE_DIR}/view/neck_data.js neck_data_script)
overbend_embed(${CMAKE_CURRENT_SOURCE_DIR}/view/neck_keys.js neck_keys_script)
overbend_embed(${CMAKE_CURRENT_SOURCE_DIR}/view/neck_view.js neck_view_script)
overbend_embed(${OVERBEND_THREE_JS} three_script
  LICENCE ${CMAKE_CURRENT_SOURCE_DIR}/view/three_licence.txt)
overbend_embed(${OVERBEND_ORBIT_CONTROLS_JS} orbit_controls_script)

target_sources(overbend_viz PRIVATE
  ${page_texts}
  card/card.cc
  card/card_clock.cc
  card/card_expect.cc
  card/card_parts.cc
  card/card_second.cc
  card/card_sketch.cc
  page/html.cc
  report/index_page.cc
  report/pages.cc
  page/plan_file.cc
  plots/board_plots.cc
  plots/gnuplot_script.cc
  plots/plots.cc
  plots/time_axis.cc
  plots/time_plots.cc
  report/report.cc
  report/report_found.cc
  report/report_plan.cc
  report/report_what_if.cc
  report/report_plots.cc
  report/report_stages.cc
  report/report_view.cc
  page/show.cc
  sheet/intake_sheet.cc
  vary/member.cc
  vary/table.cc
  vary/vary.cc
  view/across_top.cc
  view/surface.cc
  view/view_data.cc)
