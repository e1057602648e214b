// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/show/manual.h"

#include <iostream>

// Prints the manual of the case file; redirect it into cases/README.md when declarations change.
int main()
{
  std::cout << overbend::cases::manual();
}
