# SPDX-License-Identifier: GPL-3.0-or-later
# How the program ends when the system, or somebody, ends it or gives it too little.
set(neck_for_endings "preset = \"electric\"\n[found]\nbow = \"0.6 mm\"\n[numerics]\nresolution = 0.5\n")
set(run_for_endings "${neck_for_endings}[glue]\nboard = \"white PVA\"\n[[phase]]\nkind = \"rest\"\nduration = \"10 min\"\n")

# Told to end: a sentence, a record, and the status that the shell expects.
foreach(ending "INT;130" "TERM;143" "HUP;129")
  list(GET ending 0 signal)
  list(GET ending 1 status)
  overbend_command_test(a_run_that_is_stopped_by_${signal} RUN simulate case.toml --no-pictures
    STATUS ${status} CASE_TEXT "${run_for_endings}" GATE SIGNAL ${signal} WHEN case-run/results.h5
    SAYS "^Overbend was stopped by the signal ${signal}[^\n]*: the folder case-run holds [^\n]*--replace\n$"
    HOLDS case-run/record.txt "exit reason: stopped by the signal ${signal}"
    GONE case-run/results.xdmf.tmp case-run/record.txt.tmp)
endforeach()

# Two at once.
overbend_command_test(a_folder_that_another_run_is_writing_into RUN simulate case.toml --replace
  STATUS 4 CASE_TEXT "${run_for_endings}" BUSY case-run GONE case-run/record.txt
  SAYS "^case-run: another run or command is writing into this folder now. wait [^\n]*\n$")
overbend_command_test(a_report_of_a_plan_that_is_being_written RUN report case-plan STATUS 4
  BUSY case-plan SAYS "another run or command is writing")

# Nothing that was asked for is lost without a word.
overbend_command_test(a_list_that_the_disk_does_not_take RUN list woods STATUS 4 OUTPUT /dev/full
  SAYS "^standard output: not all of the text could be written")
overbend_command_test(a_template_that_the_disk_does_not_take RUN template electric STATUS 4
  OUTPUT /dev/full SAYS "^standard output: not all of the text could be written")
overbend_command_test(a_help_that_the_disk_does_not_take RUN --help STATUS 4 OUTPUT /dev/full
  SAYS "^standard output: not all of the text could be written")
overbend_command_test(a_mesh_on_a_full_disk RUN mesh case.toml STATUS 4
  CASE_TEXT "${neck_for_endings}" DISK_KIB 64 GONE case.msh case.part.msh
  SAYS "case.msh: could not be written, or not all of it")
overbend_command_test(a_mesh_is_not_replaced_by_half_of_one RUN mesh case.toml --replace STATUS 4
  CASE_TEXT "${neck_for_endings}" DISK_KIB 64 PUTS case.msh "of before" HOLDS case.msh "^of before$"
  SAYS "case.msh: could not be written, or not all of it")
foreach(name neck.vtu neck)
  overbend_command_test(a_mesh_named_${name} RUN mesh case.toml --output ${name} STATUS 2
    CASE_TEXT "${neck_for_endings}" GONE ${name}
    SAYS "^${name}: the name of a mesh file ends in .msh, Gmsh's format. name it neck.msh\n$")
endforeach()

# Too little memory. The sanitizers alone take more.
if(NOT OVERBEND_SANITIZE)
  overbend_command_test(a_run_in_too_little_memory RUN simulate case.toml --no-pictures STATUS 4
    CASE_TEXT "${run_for_endings}" MEMORY_KIB 600000
    SAYS "memory of this machine[^\n]*does not suffice")
endif()
