#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Shows that the tests can fail: puts each of fifteen deliberate faults into a copy of the committed
# sources, builds what the fault's tests need, runs them, and prints a table of the tests that turn
# red. Not a part of CI: it took 7.5 minutes on two cores with a warm ccache.
#
#   tests/sabotage.sh            all faults
#   tests/sabotage.sh 03 05      only the faults whose file names begin so
#
# The faults are the patches in tests/robustness/sabotage, one or more for a fault. The head of a
# patch says what is wrong ("Fault:") and names the tests that should see it ("Test: program
# Suite.Name"). A patch that no longer fits the sources, or that changes nothing, is an error.
#
# Needs what tests/run installs, and patch; ccache is used if it is there. The copy lies in a
# temporary folder (TMPDIR) and is removed at the end; SABOTAGE_KEEP=1 leaves it. The table goes to
# standard output, progress to standard error.
#
# Exit status: 0 every fault turned at least one of its tests red; 1 a fault stayed undetected, or a
# test was not green without faults; 2 the script could not do its work.
set -euo pipefail

root_dir=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
test_seconds=900 # longer than this counts as red

say() { echo "sabotage: $*" >&2; }
stop() {
  say "$*"
  exit 2
}

for tool in git tar patch cmake ninja; do
  command -v "$tool" > /dev/null || stop "$tool is not installed"
done

work_dir=$(mktemp -d -t overbend-sabotage-XXXXXX)
# shellcheck disable=SC2317 # called by the trap
clean_up() {
  if [[ ${SABOTAGE_KEEP:-} == 1 ]]; then
    say "the copy is left in $work_dir"
  else
    rm -rf "$work_dir"
  fi
}
trap clean_up EXIT
tree=$work_dir/tree build_dir=$work_dir/build log=$work_dir/log originals=$work_dir/originals
mkdir "$tree" "$log" "$originals"

# As in tests/run: one thread a program, and Open MPI must start for root.
export OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1 DEAL_II_NUM_THREADS=1
export OMPI_ALLOW_RUN_AS_ROOT=1 OMPI_ALLOW_RUN_AS_ROOT_CONFIRM=1
# The folder has another name each time; objects may still come from the cache.
export CCACHE_BASEDIR=$work_dir CCACHE_NOHASHDIR=1

faults=()

choose_faults() { # beginnings of names, or none for all
  local file name wanted
  for file in "$tree"/tests/robustness/sabotage/*.patch; do
    name=$(basename "$file" .patch)
    [[ $# -gt 0 ]] || faults+=("$name")
    for wanted in "$@"; do
      [[ $name == "$wanted"* ]] && faults+=("$name") && break
    done
  done
  [[ ${#faults[@]} -gt 0 ]] || stop "there is no such fault"
}

patch_of() { echo "$tree/tests/robustness/sabotage/$1.patch"; }
description() { sed -n 's/^Fault: //p' "$(patch_of "$1")"; }
tests_of() { sed -n 's/^Test: //p' "$(patch_of "$1")"; }
files_of() { sed -n 's|^+++ b/\([^[:space:]]*\).*|\1|p' "$(patch_of "$1")"; }
programs_of() { tests_of "$1" | cut -d' ' -f1 | sort -u; }

build() { # name of the log, targets
  local name=$1
  shift
  nice ninja -C "$build_dir" -j2 "$@" > "$log/$name.build" 2>&1 || {
    tail -n 30 "$log/$name.build" >&2
    stop "$name does not build"
  }
}

# Runs one test by its full name and prints green, red, or what else happened.
run_test() { # name of the log, program, test
  local out=$log/$1-$3.out binary status=0
  binary=$(find "$build_dir/tests" -type f -name "$2" -perm -u+x)
  timeout "$test_seconds" nice "$binary" --gtest_filter="$3" < /dev/null > "$out" 2>&1 || status=$?
  if [[ $status -eq 0 ]] && grep -q '^\[  PASSED  \] 1 test\.' "$out"; then
    echo "green"
  elif [[ $status -eq 0 ]]; then
    echo "not there"
  elif grep -q "^\[  FAILED  \] $3" "$out"; then
    echo "red"
  else
    echo "red (no verdict, status $status)"
  fi
}

# The first complaint of a test, so that a reader sees whether it is red for the fault's sake.
why() { # name of the log, test
  sed -n '/: Failure$/,/^\[/{/^\[/!p}' "$log/$1-$2.out" | head -n 6 | sed 's/^/    /' >&2
}

apply_fault() {
  local file
  for file in $(files_of "$1"); do
    mkdir -p "$originals/$(dirname "$file")"
    cp "$tree/$file" "$originals/$file"
  done
  patch -d "$tree" -p1 --fuzz=0 --no-backup-if-mismatch < "$(patch_of "$1")" > "$log/$1.patch" || {
    cat "$log/$1.patch" >&2
    stop "$1 does not fit the sources any more"
  }
  for file in $(files_of "$1"); do
    ! cmp -s "$tree/$file" "$originals/$file" || stop "$1 changes nothing in $file"
  done
}

take_fault_out() {
  local file
  for file in $(files_of "$1"); do
    cp "$originals/$file" "$tree/$file" # a new date, so that it is built again
  done
}

declare -A before # state without faults, by "program test"
trouble=0

check_before() {
  local name program test key programs
  mapfile -t programs < <(for name in "${faults[@]}"; do programs_of "$name"; done | sort -u)
  say "building ${programs[*]} without faults"
  build before "${programs[@]}"
  while read -r program test; do
    key="$program $test"
    before[$key]=$(run_test before "$program" "$test")
    say "without faults: $key ${before[$key]}"
    [[ ${before[$key]} == green ]] || trouble=1
  done < <(for name in "${faults[@]}"; do tests_of "$name"; done | sort -u)
}

try_fault() {
  local name=$1 program test key after detected=no programs
  mapfile -t programs < <(programs_of "$name")
  apply_fault "$name"
  build "$name" "${programs[@]}"
  while read -r program test; do
    key="$program $test"
    after=$(run_test "$name" "$program" "$test")
    say "$name: $key $after"
    why "$name" "$test"
    [[ $after == red* && ${before[$key]} == green ]] && detected=yes
    echo "| $name: $(description "$name") | $key | ${before[$key]} | $after |" >> "$work_dir/table"
  done < <(tests_of "$name")
  take_fault_out "$name"
  if [[ $detected == no ]]; then
    say "$name STAYED UNDETECTED"
    trouble=1
  fi
}

git -C "$root_dir" archive HEAD | tar x -C "$tree"
choose_faults "$@"
cmake -G Ninja -S "$tree" -B "$build_dir" -DCMAKE_BUILD_TYPE=Release > "$log/configure" 2>&1 || {
  tail -n 30 "$log/configure" >&2
  stop "the copy cannot be configured"
}
check_before
for fault in "${faults[@]}"; do
  try_fault "$fault"
done

echo "Sources: $(git -C "$root_dir" rev-parse --short HEAD)"
echo
echo "| fault | test that turns red | green before | red after |"
echo "|---|---|---|---|"
cat "$work_dir/table"
exit "$trouble"
