// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/check/check_names.h"
#include "cases/read/read_case.h"

#include <gtest/gtest.h>

namespace
{
using namespace overbend::cases;

const KnownNames known = {{"sugar maple", "Indian rosewood"},
                          {"white PVA", "hot hide"},
                          {"electric 10-46", "electric 9-42"},
                          {"guitar 15:1"}};

std::string sentence(const std::string &more)
{
  try {
    check_names(parse_case("preset = \"electric\"\n[found]\nbow = \"1 mm\"\n" + more, "test.toml"),
                known);
  } catch (const CaseError &error) {
    return error.what();
  }
  return "";
}

TEST(Names, KnownOnesPass)
{
  EXPECT_EQ(sentence(""), "");
  EXPECT_EQ(sentence("[shaft]\nwood = \"Sugar_Maple\"\n[glue]\nboard = \"white pva\"\n"), "");
  EXPECT_EQ(sentence("[glue]\nboard = \"unknown\"\n"), "");
}

TEST(Names, UnknownOnesAreFoundAtTheirLine)
{
  EXPECT_EQ(sentence("[shaft]\nwood = \"sugar mapel\"\n"),
            "test.toml:5: shaft.wood: there is no wood \"sugar mapel\" in the tables; did you mean "
            "\"sugar maple\"?");
  EXPECT_EQ(sentence("[glue]\nboard = \"chewing gum\"\n"),
            "test.toml:5: glue.board: there is no glue \"chewing gum\" in the tables; known glues "
            "are \"white PVA\" and \"hot hide\"");
  EXPECT_EQ(sentence("[strings]\nfound_set = \"electric 9-43\"\n"),
            "test.toml:5: strings.found_set: there is no set of strings \"electric 9-43\" in the "
            "tables; did you mean \"electric 9-42\"?");
  EXPECT_EQ(sentence("[tuners]\nkind = \"gitar 15:1\"\n"),
            "test.toml:5: tuners.kind: there is no tuner \"gitar 15:1\" in the tables; did you "
            "mean \"guitar 15:1\"?");
}
} // namespace
