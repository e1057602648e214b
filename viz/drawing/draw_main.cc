// SPDX-License-Identifier: GPL-3.0-or-later
// overbend_pictures: draws the pictures or the animation of a results folder. Called by overbend,
// not by people: what it leaves is the list pictures/pictures.json, what it cannot do it says on
// the standard error, last line last, and ends with 1.
#include "solver/ending/signals.h"
#include "viz/drawing/animation.h"
#include "viz/drawing/picture_set.h"
#include "viz/run/picture_list.h"

#include <vtkObject.h>

#include <cstring>
#include <iostream>

int main(int argc, char **argv)
{
  using namespace overbend::viz;
  if (argc != 3 ||
      (std::strcmp(argv[1], "pictures") != 0 && std::strcmp(argv[1], "history") != 0)) {
    std::cerr << "usage: overbend_pictures pictures|history FOLDER\n";
    return 2;
  }
  overbend::solver::end_tidily_on_signals();
  vtkObject::GlobalWarningDisplayOff();
  try {
    const std::string folder = argv[2];
    if (std::strcmp(argv[1], "pictures") == 0)
      write_list(folder, "pictures.json", PictureSet(folder).draw());
    else
      write_list(folder, "history.json", make_animation(folder));
    return 0;
  } catch (const std::exception &error) {
    std::cerr << error.what() << "\n";
    return 1;
  }
}
