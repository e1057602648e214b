# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck shell=bash disable=SC2034
# Shared by cases/try and tests/run, which source it: installs the Debian packages and builds.
# Set before sourcing: nothing. Gives: say, install_packages, check_blas, configure, build_dir.

root_dir=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
build_dir=$root_dir/build/release
jobs=2

# What the program needs, and what only the tests need. What checks beside the tests need (peers,
# fuzzers, a browser) their own scripts install.
build_packages=(
  g++ cmake ninja-build git ca-certificates
  libdeal.ii-dev libgmsh-dev libssl-dev
  libtomlplusplus-dev libcli11-dev nlohmann-json3-dev
  libopenblas-dev libsuitesparse-dev
  libvtk9-dev libegl-dev libglew-dev libegl-mesa0 libgl1-mesa-dri fonts-dejavu-core ffmpeg
  libjs-three gnuplot-nox
)
test_packages=(libgtest-dev libgmock-dev python3-minimal)

say() { printf '== %s\n' "$*"; }

stop() {
  printf 'stopped: %s\n' "$*" >&2
  exit 1
}

as_root() {
  if [ "$(id -u)" -eq 0 ]; then
    "$@"
  elif command -v sudo > /dev/null; then
    sudo "$@"
  else
    stop "installing packages needs root or sudo; install these yourself: ${missing[*]}"
  fi
}

# Installs the named packages that are not there yet. Nothing to do: asks for no rights.
install_packages() {
  command -v dpkg-query > /dev/null ||
    stop "this is not a Debian system; install what README.md lists under Dependencies"
  missing=()
  local package
  for package in "$@"; do
    # shellcheck disable=SC2016  # ${...} is for dpkg-query
    dpkg-query -W -f '${Status}' "$package" 2> /dev/null | grep -q '^install ok installed' ||
      missing+=("$package")
  done
  if [ ${#missing[@]} -eq 0 ]; then
    say "all packages are there"
    return
  fi
  say "installing: ${missing[*]}"
  as_root apt-get update -q
  as_root env DEBIAN_FRONTEND=noninteractive \
    apt-get install -y -q --no-install-recommends "${missing[@]}"
}

# The reference BLAS makes the factorisation several times slower. Debian chooses OpenBLAS by
# itself when it is there, unless someone chose by hand: then the choice is theirs.
check_blas() {
  local name chosen
  name=libblas.so.3-$(dpkg-architecture -qDEB_HOST_MULTIARCH 2> /dev/null || gcc -print-multiarch)
  chosen=$(update-alternatives --query "$name" 2> /dev/null | sed -n 's/^Value: //p')
  case $chosen in
  *openblas*) say "BLAS: $chosen" ;;
  *) say "BLAS: ${chosen:-not known}, not OpenBLAS: slow." \
    "To change it: update-alternatives --config $name" ;;
  esac
}

# configure [cmake options]
configure() {
  say "configuring in build/release"
  (cd "$root_dir" && cmake --preset release "$@")
}

# build [targets]
build() {
  say "building, $jobs at a time"
  cmake --build "$build_dir" --parallel "$jobs" ${1:+--target "$@"}
}
