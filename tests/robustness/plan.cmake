# SPDX-License-Identifier: GPL-3.0-or-later
# The program on the command line: exit status and words. Arguments: see command.cmake. With GATE it
# simulates a neck and stands in the gate, without it in the quick rung. The time limit is a guard
# against a program that hangs, wide enough for a machine that many use.
function(overbend_command_test name)
  cmake_parse_arguments(T "GATE;SLOW" "STATUS;SAYS;AGAIN;MAKE_FOLDER;CASE_TEXT;DISK_KIB;MEMORY_KIB;SIGNAL;WHEN;BUSY;OUTPUT"
    "RUN;FIRST;MAKES;PUTS;GONE;HOLDS;THEN" ${ARGN})
  set(rung quick)
  if(T_GATE)
    set(rung gate)
  elseif(T_SLOW)
    set(rung slow)
  endif()
  add_test(NAME command.${name}
    COMMAND ${CMAKE_COMMAND} -DPROGRAM=$<TARGET_FILE:overbend> "-DARGUMENTS=${T_RUN}"
      "-DSTATUS=${T_STATUS}" "-DSAYS=${T_SAYS}" "-DAGAIN=${T_AGAIN}" "-DCASE_TEXT=${T_CASE_TEXT}"
      "-DMAKE_FOLDER=${T_MAKE_FOLDER}" "-DDISK_KIB=${T_DISK_KIB}"
      "-DMEMORY_KIB=${T_MEMORY_KIB}" "-DSIGNAL=${T_SIGNAL}" "-DWHEN=${T_WHEN}"
      "-DBUSY=${T_BUSY}" "-DOUTPUT=${T_OUTPUT}" "-DFIRST=${T_FIRST}" "-DMAKES=${T_MAKES}"
      "-DPUTS=${T_PUTS}" "-DGONE=${T_GONE}" "-DHOLDS=${T_HOLDS}" "-DTHEN=${T_THEN}"
      -DFOLDER=${CMAKE_CURRENT_BINARY_DIR}/command/${name}
      -P ${CMAKE_CURRENT_SOURCE_DIR}/command.cmake)
  set_tests_properties(command.${name} PROPERTIES LABELS "robustness;${rung}" TIMEOUT 1800)
endfunction()

set(shipped ${CMAKE_SOURCE_DIR}/cases)

# Everyday use.
overbend_command_test(help RUN --help STATUS 0 SAYS "Exit status: 0 done")
overbend_command_test(check_shipped RUN check ${shipped}/demonstration.toml STATUS 0
  SAYS "complete, and nothing in it contradicts")
foreach(preset "electric" "steel-string acoustic" "classical" "long-scale bass")
  string(MAKE_C_IDENTIFIER "${preset}" word)
  overbend_command_test(template_is_a_good_case_${word} FIRST template ${preset}
    RUN check first.toml STATUS 0 SAYS "complete, and nothing in it contradicts")
endforeach()
overbend_command_test(check_says_what_plan_will_refuse RUN check ${shipped}/celluloid.toml STATUS 0
  SAYS "`plan` will refuse it .not by heat.:.*celluloid")
overbend_command_test(check_tells_worn_frets_and_the_neck_angle RUN check case.toml STATUS 0
  CASE_TEXT "preset = \"steel-string acoustic\"\n[found]\nbow = \"1 mm\"\n[readings]\nfret_heights = \"8: -4 thou\"\nover_bridge = \"-6 mm\"\n"
  SAYS "fret 8 -0.10 mm .-4.0 thou.*6.00 mm .236[ \n]+thou. below[ \n]+its top")
overbend_command_test(list_glue RUN list glues "white PVA" STATUS 0
  SAYS "softening = 32 degC.*\\[M\\]")
overbend_command_test(list_finishes RUN list finishes STATUS 0 SAYS "shellac")
overbend_command_test(list_finish RUN list finishes oiled STATUS 0
  SAYS "film_resistance = 1.7e.07 s/m.*\\[M\\] Feist.*FPL 462")
overbend_command_test(list_presets RUN list presets STATUS 0 SAYS "classical")
overbend_command_test(mesh RUN mesh ${shipped}/demonstration.toml STATUS 0 SAYS "unknowns"
  MAKES demonstration.msh)

# A user's mistake: 2.
overbend_command_test(no_command RUN STATUS 2 SAYS "Usage: overbend")
overbend_command_test(version RUN --version STATUS 0 SAYS "^overbend [0-9.]+ ")
overbend_command_test(unknown_command RUN plam x.toml STATUS 2
  SAYS "There is no command .plam.; did you mean .plan..")
overbend_command_test(unknown_option RUN plan x.toml --no-such-option STATUS 2 SAYS "no-such-option")
overbend_command_test(missing_case RUN plan missing.toml STATUS 2 SAYS "missing.toml: there is no such file")
overbend_command_test(unknown_preset RUN template ukulele-ish STATUS 2 SAYS "there is no preset")
overbend_command_test(unknown_list_name RUN list woods mapel STATUS 2 SAYS "maple")
overbend_command_test(did_you_mean RUN check case.toml STATUS 2
  CASE_TEXT "preset = \"electric\"\n[found]\nbow = \"1 mm\"\ntwits = \"0.2 deg\"\n"
  SAYS "case.toml:4: .*twits.*twist")
overbend_command_test(unknown_wood RUN plan case.toml STATUS 2
  CASE_TEXT "preset = \"electric\"\n[shaft]\nwood = \"suger maple\"\n[found]\nbow = \"1 mm\"\n"
  SAYS "case.toml:3: .*sugar maple")
overbend_command_test(nothing_to_pull RUN plan case.toml STATUS 2
  CASE_TEXT "preset = \"electric\"\n[found]\nbow = \"1 mm\"\n[[phase]]\nkind = \"rest\"\nduration = \"1 h\"\n"
  SAYS "pulls the cords to a reading")

# Files: 4. What was there stays.
overbend_command_test(folder_in_the_way RUN plan ${shipped}/celluloid.toml STATUS 4
  MAKE_FOLDER celluloid-plan SAYS "already holds something.*--replace")
overbend_command_test(a_foreign_file_is_not_replaced RUN plan ${shipped}/celluloid.toml --replace STATUS 4
  MAKE_FOLDER celluloid-plan PUTS celluloid-plan/plan.txt "DO IT"
  SAYS "^celluloid-plan: holds what no run wrote: kept.txt. nothing was removed. [^\n]*\n$"
  HOLDS celluloid-plan/plan.txt "^DO IT$")
overbend_command_test(a_refusal_leaves_nothing_of_the_plan_before RUN plan ${shipped}/celluloid.toml
  --replace STATUS 0 SAYS "VERDICT: NOT BY HEAT"
  PUTS celluloid-plan/bench-card.html "Pull both cords" celluloid-plan/plan.txt "DO IT"
    celluloid-plan/readings.csv "0" celluloid-plan/results.h5 "0" celluloid-plan/pictures/slip.png "0"
  GONE celluloid-plan/readings.csv celluloid-plan/results.h5 celluloid-plan/pictures/slip.png
  HOLDS celluloid-plan/bench-card.html "<h2 class=.no.>" celluloid-plan/plan.txt "NOT BY HEAT"
    celluloid-plan/record.txt "exit reason: refused")
overbend_command_test(folder_cannot_be_made RUN plan ${shipped}/celluloid.toml
  --output /proc/none/here STATUS 4 SAYS "cannot be made")

overbend_command_test(folder_is_a_file RUN simulate case.toml --output case.toml STATUS 4
  CASE_TEXT "preset = \"electric\"\n[found]\nbow = \"1 mm\"\n"
  SAYS "^case.toml: is a file, not a folder. name another folder with --output\n$"
  HOLDS case.toml "preset = \"electric\"")

# A run leaves its record, also one that stops. Cords can only pull back: no take-up brings the neck
# forward, so that the clamp has no solution.
set(short_run "preset = \"electric\"\n[glue]\nboard = \"white PVA\"\n[found]\nbow = \"0.6 mm\"\n[numerics]\nresolution = 0.5\n[[phase]]\nkind = \"rest\"\nduration = \"10 min\"\n")
overbend_command_test(simulate_leaves_its_record RUN simulate case.toml --no-pictures STATUS 0
  CASE_TEXT "${short_run}" GATE SAYS "Results in case-run"
  HOLDS case-run/record.txt "exit reason: done\n.*case text:\npreset = \"electric\""
    case-run/readings.csv "^time .h.,phase,moment,\"bow bass[^\n]*deepest bow treble, at .fret.[^\n]*straightedge resting, gap bass[^\n]*straightedge rocking, end gap treble[^\n]*relief bass, string held down[^\n]*pull of the treble end of the bar .lbf.[^\n]*slip of board glue line, nut end .thou.[^\n]*shear of board glue line, 10 mm at the body end .MPa.[^\n]*share of strength used, shaft .-.[^\n]*probe .degF."
    case-run/gaps.csv "^time .h.,phase,moment,fret .fret.,from the nut .mm.,from the nut .in.,\"bow bass[^\n]*gap under the straightedge treble .thou.,twist against fret [^\n]*\n0,rest,start,1,")
overbend_command_test(simulate_that_does_not_converge RUN simulate case.toml --no-pictures STATUS 3
  CASE_TEXT "${short_run}[[phase]]\nkind = \"clamp\"\nduration = \"10 min\"\npull = \"to reading\"\nbow = \"5 mm\"\n"
  GATE SAYS "^Not converged: Phase \"clamp\" does not converge at its start: [^\n]*what bends the neck can only pull[^\n]*\n$"
  HOLDS case-run/record.txt "exit reason: not converged: Phase \"clamp\"" case-run/results.xdmf "<Time "
  THEN pictures case-run --no-film)
# The packaged HDF5 must not crash as it closes.
overbend_command_test(simulate_on_a_full_disk RUN simulate case.toml STATUS 4
  CASE_TEXT "${short_run}" GATE DISK_KIB 64
  SAYS "^case-run/results.h5: cannot (be|hold) [^\n]*File too large[^\n]*\n$"
  HOLDS case-run/record.txt "exit reason: files: case-run/results.h5: cannot (be|hold) ")
overbend_command_test(a_killed_run_leaves_nothing_of_the_one_before RUN simulate case.toml --replace
  STATUS 137 CASE_TEXT "${short_run}" GATE SIGNAL KILL WHEN case-run/results.h5 SAYS ""
  PUTS case-run/bench-card.html "Pull both cords" case-run/report.html "do it" case-run/index.html "go"
    case-run/plan.txt "DO IT" case-run/plan.json "{}"
  MAKES case-run/results.h5
  GONE case-run/bench-card.html case-run/report.html case-run/index.html case-run/plan.txt
    case-run/plan.json
  HOLDS case-run/record.txt "exit reason: did not reach its end")

# A refusal is an answer: 0, without any simulation.
overbend_command_test(celluloid_is_refused RUN plan ${shipped}/celluloid.toml STATUS 0
  SAYS "NOT BY HEAT.*celluloid.*Instead" GONE celluloid-plan/results.h5
  MAKES celluloid-plan/plan.json celluloid-plan/plan.txt celluloid-plan/record.txt
    celluloid-plan/bench-card.html celluloid-plan/report.html celluloid-plan/index.html)
overbend_command_test(stiffness_that_does_not_fit RUN plan case.toml STATUS 0
  CASE_TEXT "preset = \"electric\"\n[glue]\nboard = \"white PVA\"\n[found]\nbow = \"1 mm\"\nstrung_bow = \"3 mm\"\n[numerics]\nresolution = 0.5\n"
  SAYS "DO NOT DO IT.*Look again")
overbend_command_test(a_damp_neck_is_conditioned_first RUN plan case.toml STATUS 0
  CASE_TEXT "preset = \"electric\"\n[glue]\nboard = \"white PVA\"\n[found]\nbow = \"1 mm\"\n[moisture]\ncontent = \"22 %\"\n[numerics]\nresolution = 0.5\n"
  SAYS "CONDITION IT FIRST, AND READ IT AGAIN.*The wood is too damp"
  HOLDS case-plan/plan.json "\"word\": \"condition_first\"")
overbend_command_test(straight_neck_needs_nothing RUN plan case.toml STATUS 0
  CASE_TEXT "preset = \"electric\"\n[glue]\nboard = \"white PVA\"\n[found]\nbow = \"0 mm\"\ntwist = \"0 deg\"\n[finish]\nkind = \"polyester\"\nbinding = \"none\"\n"
  SAYS "VERDICT: NOTHING TO DO.*Nothing to do: the bow .straight. is below what"
  HOLDS case-plan/plan.json "\"word\": \"nothing_to_do\""
  MAKES case-plan/plan.json case-plan/plan.txt case-plan/record.txt)

overbend_command_test(neck_angle_is_no_bow RUN plan case.toml STATUS 0
  CASE_TEXT "preset = \"steel-string acoustic\"\n[glue]\nboard = \"white PVA\"\n[found]\nbow = \"0 mm\"\ntwist = \"0 deg\"\n[finish]\nkind = \"polyester\"\nbinding = \"none\"\n[readings]\nover_bridge = \"-3 mm\"\n"
  SAYS "NOT BY HEAT.*It is the neck angle, too low.*a neck reset"
  MAKES case-plan/plan.json case-plan/bench-card.html)
overbend_command_test(worn_frets_are_no_bow RUN plan case.toml STATUS 0
  CASE_TEXT "preset = \"electric\"\n[glue]\nboard = \"white PVA\"\n[found]\nbow = \"0.3 mm\"\ntwist = \"0 deg\"\n[finish]\nkind = \"polyester\"\nbinding = \"none\"\n[readings]\nfret_heights = \"7: -0.3 mm\"\n"
  SAYS "NOT BY HEAT.*It is the frets, not the neck"
  HOLDS case-plan/plan.json "\"edge_on\": \"frets\"")

# Ends of a dense board that dry while hot would crack under cloth alone: foil is laid under it.
overbend_command_test(a_wide_ebony_board_is_wrapped_in_foil RUN plan case.toml --no-pictures STATUS 0
  SLOW CASE_TEXT "preset = \"classical\"\n[glue]\nboard = \"white PVA\"\n[found]\nbow = \"0.6 mm\"\n[finish]\nkind = \"polyurethane\"\nbinding = \"none\"\n[numerics]\nresolution = 0.5\n"
  SAYS "VERDICT: DO IT.*kitchen[ \n]+foil"
  HOLDS case-plan/plan.json "\"foil_under_wrap\": true")

# A plan all the way: setting, what it should read and when, limits; files; and not over itself.
set(short_plan "preset = \"electric\"\n[glue]\nboard = \"white PVA\"\n[found]\nbow = \"0.5 mm\"\ntwist = \"0 deg\"\n[finish]\nkind = \"polyester\"\nbinding = \"none\"\n[readings]\nfret_heights = \"7: -1 thou\"\n[warp]\nstrings_off_for = \"0 min\"\nslip_share = \"100 %\"\n[headstock]\nwidth = \"80 mm\"\n[tuners]\nlayout = \"both sides\"\nacross = \"66 mm\"\n[heater]\nbar_temperature = \"65 degC\"\nwidth = \"50 mm\"\nto = \"470 mm\"\niron_to = \"470 mm\"\n[target]\nrelief = \"0.55 mm\"\nrod = \"slack\"\nafter_release = \"20 min\"\n[numerics]\nresolution = 0.5\nbow_error = \"0.1 mm\"\n")
foreach(phase "clamp;10 min;pull = \"to reading\"" "heat;120 min;" "cool;60 min;" "release;10 min;" "string up;10 min;")
  list(GET phase 0 kind)
  list(GET phase 1 duration)
  list(GET phase 2 pull)
  string(APPEND short_plan "[[phase]]\nkind = \"${kind}\"\nduration = \"${duration}\"\n${pull}\n")
endforeach()
overbend_command_test(full_plan RUN plan case.toml --no-pictures STATUS 0
  CASE_TEXT "${short_plan}" GATE SAYS "In the folder case-plan:.*bench-card.html"
  MAKES case-plan/results.h5 case-plan/results.xdmf case-plan/readings.csv case-plan/gaps.csv
    case-plan/bench-card.html case-plan/report.html case-plan/index.html
  HOLDS case-plan/plan.txt "Clamp it cold to [0-9.]+ mm .[0-9.]+ thou.[ \n]+back-bow"
    case-plan/plan.txt "Straightedge on the frets from fret 1 to"
    case-plan/plan.txt "0.03 mm .1.0[ \n]+thou.[ \n]+of[ \n]+the[ \n]+0.50[ \n]+mm .20[ \n]+thou.[ \n]+reading[ \n]+at[ \n]+the[ \n]+centre[ \n]+is[ \n]+frets,[ \n]+not[ \n]+neck"
    case-plan/bench-card.html "Frets not level"
    case-plan/plan.txt "20[ \n]+min[ \n]+after[ \n]+release,[ \n]+it[ \n]+should[ \n]+read"
    case-plan/plan.txt "hold[ \n]+for[ \n]+that[ \n]+day"
    case-plan/plan.txt "WHAT MIGHT GIVE[^\n]*\n *Hardest pull, bass cord: [0-9]+ N"
    case-plan/plan.txt "allowed"
    case-plan/plan.json "\"line_speed\": \"middle\""
    case-plan/record.txt "exit reason: done"
  THEN plan ${shipped}/celluloid.toml --output case-plan --replace
  AGAIN "already holds something.*--replace")

# What if: refusals need no simulation, so that a study of them is quick.
overbend_command_test(vary_sets_plans_side_by_side RUN vary ${shipped}/celluloid.toml
  --set "found.bow = 0.5 mm, 1 mm" --set "glue.board = hide, white PVA" --output study STATUS 0
  SAYS "4 of 4.*no. *found.bow *glue.board *verdict.*2 *0.5 mm *white PVA *not by heat"
  MAKES study/table.html study/table.csv study/table.txt study/4.toml study/4/plan.json
  HOLDS study/table.csv "^.no..,.found.bow.,.glue.board.,.verdict.")
overbend_command_test(vary_goes_on_where_it_was FIRST vary ${shipped}/celluloid.toml
  --set "found.bow = 0.5 mm, 1 mm" --output study
  RUN vary ${shipped}/celluloid.toml --set "found.bow = 0.5 mm, 1 mm" --output study STATUS 0
  SAYS "^\nno. ")
overbend_command_test(vary_lists_commands RUN vary ${shipped}/celluloid.toml
  --set "found.bow = 0.5 mm, 1 mm" --output study --list STATUS 0
  SAYS "'plan' 'study/2.toml' '--output' 'study/2'" GONE study/table.csv)
overbend_command_test(vary_an_entry_that_is_none RUN vary ${shipped}/celluloid.toml
  --set "found.bwo = 1 mm" STATUS 2 SAYS "no entry `found.bwo`.*did you mean .found.bow")
overbend_command_test(vary_keeps_the_rest_when_one_fails RUN vary ${shipped}/celluloid.toml
  --set "found.bow = 0.5 mm, 99 mm" --output study STATUS 0
  SAYS "2 *99 mm *no plan: .*bow")
overbend_command_test(vary_leaves_another_study_alone FIRST vary ${shipped}/celluloid.toml
  --set "found.bow = 0.5 mm, 1 mm" --output study --list
  RUN vary ${shipped}/celluloid.toml --set "found.bow = 2 mm" --output study STATUS 4
  SAYS "^study: holds something else, or a study of other values")
overbend_command_test(vary_leaves_a_folder_of_others_alone RUN vary ${shipped}/celluloid.toml
  --set "found.bow = 2 mm" --output held STATUS 4 MAKE_FOLDER held SAYS "^held: holds something else"
  GONE held/1.toml)
