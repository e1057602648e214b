// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results/file_error.h"
#include "solver/results/readings_table.h"
#include "solver/results/record.h"
#include "solver/results/results_reader.h"
#include "solver/results/text_file.h"
#include "tests/unit/output_helpers.h"

#include <gmock/gmock.h>

#include <stdexcept>

extern "C" void dgemm_(const char *, const char *, const int *, const int *, const int *,
                       const double *, const double *, const int *, const double *, const int *,
                       const double *, double *, const int *);

using namespace overbend::solver;
using namespace overbend::tests;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

namespace
{
ReadingsTable small_table()
{
  ReadingsTable table;
  table.columns = {{"bow centre, fret 7 over 1/14", Quantity::length},
                   {"probe", Quantity::temperature},
                   {"cord bass", Quantity::force}};
  table.rows = {{0, "clamp", "end", {-0.000254, 293.15, 9.80665}},
                {5400, "heat \"slow\"", "end", {0.001, 323.15, std::nullopt}}};
  return table;
}
} // namespace

// Source: exact definitions, 1 in = 25.4 mm, 1 kgf = 9.80665 N, 1 lb = 0.45359237 kg [M].
TEST(ReadingsCsv, ShowsEachQuantityInAllUnitsOfTheTrade)
{
  const std::string csv = to_csv(small_table(), test_record());
  EXPECT_THAT(csv, StartsWith("time [h],phase,moment,"
                              "\"bow centre, fret 7 over 1/14 [mm]\","
                              "\"bow centre, fret 7 over 1/14 [thou]\","
                              "probe [degC],probe [degF],"
                              "cord bass [N],cord bass [kgf],cord bass [lbf]\n"
                              "0,clamp,end,-0.254,-10,20,68,9.80665,1,2.204623\n"
                              "1.5,\"heat \"\"slow\"\"\",end,1,39.37008,50,122,,,\n"));
}

TEST(ReadingsCsv, CarriesTheRecordAndTheCaseBelowTheRows)
{
  const std::string csv = to_csv(small_table(), test_record());
  EXPECT_THAT(csv, HasSubstr("\n# case SHA-256: " + test_record().case_hash + "\n"));
  EXPECT_THAT(csv, HasSubstr("\n# title = \"a neck\"\n# # café\n"));
  EXPECT_THAT(csv, Not(HasSubstr("somewhere")));
}

TEST(ReadingsCsv, IsTheSameTextForTheSameReadings)
{
  EXPECT_EQ(to_csv(small_table(), test_record()), to_csv(small_table(), test_record()));
}

// A spreadsheet would work out a phase that is called =1+1.
TEST(ReadingsCsv, ATextThatLooksLikeAFormulaStandsAfterAnApostrophe)
{
  ReadingsTable table = small_table();
  for (const char *name : {"=1+1", "+cool", "-rest", "@home"}) {
    table.rows[0].phase = name;
    EXPECT_THAT(to_csv(table, test_record()),
                HasSubstr("\n0,'" + std::string(name) + ",end,-0.254"));
  }
  table.rows[0].phase = "=A1,B1";
  EXPECT_THAT(to_csv(table, test_record()), HasSubstr("\n0,\"'=A1,B1\",end,"));
}

TEST(ReadingsCsv, RefusesNumbersThatAreNotFiniteAndRowsOfAnotherLength)
{
  ReadingsTable table = small_table();
  table.rows[1].values[0] = HUGE_VAL;
  EXPECT_THROW(to_csv(table, test_record()), std::invalid_argument);
  table = small_table();
  table.rows[0].values.pop_back();
  EXPECT_THROW(to_csv(table, test_record()), std::invalid_argument);
}

TEST(ReadingsInResults, ComeBackExactlyAndMayBeRenewed)
{
  const TemporaryFolder folder;
  {
    ResultsWriter writer(folder.file("run"), two_cells(), test_record());
    ReadingsTable table = small_table();
    table.rows.pop_back();
    writer.write_readings(table);
    writer.write_readings(small_table());
    writer.finish(test_record());
  }
  const auto readings = read_readings(folder.file("run/results.h5"));
  const std::vector<double> bow = readings.at("bow centre, fret 7 over 1|14");
  EXPECT_EQ(bow, (std::vector<double>{-0.000254, 0.001}));
  EXPECT_EQ(readings.at("time"), (std::vector<double>{0, 5400}));
  EXPECT_TRUE(std::isnan(readings.at("cord bass")[1]));
  EXPECT_EQ(contents(folder.file("run/readings.csv")), to_csv(small_table(), test_record()));
}

// Source: FIPS 180-4 examples of the standard's publisher ("abc" and the empty text) [M].
TEST(Sha256, GivesThePublishedValues)
{
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(Record, KnowsProgramLibrariesAndCaseButNoPlaces)
{
  const Record record = test_record();
  EXPECT_EQ(record.case_name, "neck.toml");
  EXPECT_EQ(record.case_hash, sha256(record.case_text));
  std::string all;
  for (const auto &[name, text] : record_lines(record)) {
    EXPECT_FALSE(text.empty()) << name;
    all += name + ": " + text + "\n";
  }
  EXPECT_THAT(all, Not(HasSubstr(OVERBEND_SOURCE_DIR)));
  EXPECT_THAT(all, HasSubstr("deal.II: 9."));
  EXPECT_THAT(all, HasSubstr("HDF5: 1."));
  EXPECT_THAT(all, HasSubstr("compiler: GNU 1"));
  EXPECT_THAT(all, HasSubstr("table woods SHA-256: " + sha256("woods")));
  EXPECT_THAT(all, HasSubstr("exit reason: did not reach its end"));
  char host[256] = {};
  gethostname(host, sizeof host - 1);
  if (std::string(host).size() > 4) {
    EXPECT_THAT(all, Not(HasSubstr(host)));
  }
  std::printf("%s", all.c_str());
}

// The factorisation is several times slower with the reference BLAS: the record must tell which one
// answers. The call makes sure that this program has one.
TEST(Record, NamesTheBlasThatWasLoaded)
{
  const int one = 1;
  const double two = 2, none = 0;
  double product = 0;
  dgemm_("N", "N", &one, &one, &one, &two, &two, &one, &two, &one, &none, &product, &one);
  EXPECT_EQ(product, 8);
  EXPECT_THAT(loaded_blas(), HasSubstr("blas"));
  EXPECT_THAT(loaded_blas(), Not(StartsWith("/")));
  std::printf("BLAS: %s\n", loaded_blas().c_str());
}

TEST(TextFile, IsWrittenAsAWholeOrNotAtAll)
{
  const TemporaryFolder folder;
  write_text_file(folder.file("a.txt"), "one");
  write_text_file(folder.file("a.txt"), "two");
  EXPECT_EQ(contents(folder.file("a.txt")), "two");
  EXPECT_FALSE(std::filesystem::exists(folder.file("a.txt.tmp")));
  try {
    write_text_file(folder.file("missing/a.txt"), "x");
    FAIL();
  } catch (const FileError &error) {
    EXPECT_THAT(error.what(), HasSubstr("cannot be written (No such file or directory)"));
  }
}

// Linux's device that is always full.
TEST(TextFile, AFullDiskIsASentenceAndLeavesNothingHalf)
{
  if (!std::filesystem::exists("/dev/full"))
    GTEST_SKIP() << "no /dev/full here";
  const TemporaryFolder folder;
  std::filesystem::create_symlink("/dev/full", folder.file("a.txt.tmp"));
  try {
    write_text_file(folder.file("a.txt"), std::string(100000, 'x'));
    FAIL();
  } catch (const FileError &error) {
    EXPECT_THAT(error.what(), HasSubstr("No space left on device"));
  }
  EXPECT_FALSE(std::filesystem::exists(folder.file("a.txt")));
}

TEST(NumberText, IsShortAndDoesNotDependOnTheLocale)
{
  EXPECT_EQ(number_text(0.1), "0.1");
  EXPECT_EQ(number_text(-12345678.9), "-12345678.9");
  EXPECT_EQ(number_text(1. / 3, 4), "0.3333");
  EXPECT_THROW(number_text(HUGE_VAL), std::invalid_argument);
}
