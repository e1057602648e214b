# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(robustness_intake QUICK SOURCES intake_keystrokes.cc LIBRARIES overbend_cases)

# The two commands of the intake, the questionnaire through a pipe.
overbend_command_test(sheet RUN sheet electric STATUS 0 SAYS "Intake sheet in intake-sheet.html"
  MAKES intake-sheet.html)
overbend_command_test(sheet_is_not_replaced_unasked RUN sheet --output held/kept.txt STATUS 4
  SAYS "is there already" MAKE_FOLDER held)
overbend_command_test(ask_without_input_writes_nothing RUN ask new.toml STATUS 0
  SAYS "nothing is written")
overbend_command_test(ask_does_not_replace_unasked RUN ask case.toml CASE_TEXT "title = \"mine\"\n"
  STATUS 4 SAYS "is there already")
overbend_command_test(ask_unknown_preset RUN ask new.toml --preset electrik STATUS 2
  SAYS "did you mean")
foreach(script finished unfinished)
  add_test(NAME command.ask_${script}
    COMMAND ${CMAKE_COMMAND} -DPROGRAM=$<TARGET_FILE:overbend> -DSCRIPT=${script}
      -DFOLDER=${CMAKE_CURRENT_BINARY_DIR}/command/ask_${script}
      -P ${CMAKE_CURRENT_SOURCE_DIR}/ask.cmake)
  set_tests_properties(command.ask_${script} PROPERTIES LABELS "robustness;quick" TIMEOUT 1800)
endforeach()
