// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/read_case.h"
#include "cases/text/document.h"

#include <gtest/gtest.h>

#include <sys/stat.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <thread>

namespace
{
using namespace overbend::cases;
namespace fs = std::filesystem;

class Files : public testing::Test
{
protected:
  void SetUp() override
  {
    folder = fs::temp_directory_path() / ("overbend-cases-" + std::to_string(getpid()));
    fs::create_directories(folder);
  }
  void TearDown() override { fs::remove_all(folder); }

  std::string write(const std::string &name, const std::string &text) const
  {
    std::ofstream(folder / name, std::ios::binary) << text;
    return (folder / name).string();
  }

  // The sentence without the folder's name.
  std::string sentence(const std::string &path) const
  {
    try {
      read_case(path);
    } catch (const CaseError &error) {
      return std::string(error.what()).substr(path.size());
    }
    return "accepted";
  }

  fs::path folder;
};

TEST_F(Files, MissingFile)
{
  EXPECT_EQ(sentence((folder / "nowhere.toml").string()),
            ": there is no such file; check the name and the folder");
}

TEST_F(Files, AFolder)
{
  EXPECT_EQ(sentence(folder.string()),
            ": this is a folder, not a case file; name a file inside it");
}

TEST_F(Files, AnEmptyFile)
{
  EXPECT_EQ(sentence(write("empty.toml", "")),
            ": the file is empty; start from a template, or write preset = \"electric\" and what "
            "you measured");
}

TEST_F(Files, TenMegabytes)
{
  EXPECT_EQ(sentence(write("large.toml", std::string(10 * 1000 * 1000, '#'))),
            ": the file has 10000 kB, more than the 1000 kB allowed for a case; give the case file "
            "itself, not results or pictures");
}

TEST_F(Files, AnEndlessFileIsNotReadToItsEnd)
{
  if (!fs::exists("/dev/zero"))
    GTEST_SKIP();
  EXPECT_NE(sentence("/dev/zero"), "accepted");
}

TEST_F(Files, WindowsLineEndsAndAByteOrderMarkAreFine)
{
  const std::string text = "\xEF\xBB\xBFpreset = \"electric\"\r\n[found]\r\nbow = \"1 mm\"\r\n";
  EXPECT_EQ(sentence(write("windows.toml", text)), "accepted");
}

TEST_F(Files, InvalidSequencesOfUtf8AreFoundAtTheirLine)
{
  for (const char *bytes : {"\xC0\x80", "\xED\xA0\x80", "\xF5\x80\x80\x80", "\xE2\x82", "\x80",
                            "\xF0\x80\x80\x80", "\xF4\x90\x80\x80", "\xE0\x80\x80"})
    EXPECT_EQ(sentence(write("bad.toml", "preset = \"electric\"\n# " + std::string(bytes) + "\n")),
              ":2: the line holds bytes that are not UTF-8; save it as plain text in UTF-8");
  EXPECT_EQ(sentence(write("good.toml", "# \u00e9 \u20ac \U0001F3B8\npreset = \"electric\"\n"
                                        "[found]\nbow = \"1 mm\"\n")),
            "accepted");
}

TEST_F(Files, TwentyThousandPhasesAreOneSentence)
{
  std::string text = "preset = \"electric\"\n";
  for (int i = 0; i < 20000; ++i)
    text += "[[phase]]\nkind = \"rest\"\nduration = \"1 h\"\n";
  EXPECT_EQ(sentence(write("many.toml", text + "[found]\nbow = \"1 mm\"\n")),
            ":1502: there are more than 500 phases; leave some out");
}

// A hundred thousand levels ended the stack of the parser.
TEST_F(Files, DeepNestingIsOneSentence)
{
  EXPECT_NE(sentence(write("deep.toml", "a = " + std::string(100000, '['))), "accepted");
  std::string dotted = "a", quoted = "\"a\"";
  for (int i = 0; i < 200000; ++i)
    dotted += ".a";
  for (int i = 0; i < 100000; ++i)
    quoted += " . 'a'";
  for (const std::string &text : {dotted + " = 1\n", "[" + dotted + "]\n", "[[" + dotted + "]]\n",
                                  "a = {" + dotted + " = 1}\n", quoted + " = 1\n"})
    EXPECT_EQ(sentence(write("dotted.toml", text)),
              ":1: a name has more than 10 dots; write key = \"value\" under a [section]");
}

// What stands in quotes and comments is nobody's key.
TEST_F(Files, DotsAndLettersInTextAndCommentsAreFine)
{
  const std::string dots = ". . . . . . . . . . . . . . . .";
  EXPECT_EQ(
      sentence(write("text.toml", "# caf\u00e9 " + dots + " [; \"\npreset = \"electric\" # '\n" +
                                      "title = \"\\\" caf\u00e9 [;" + dots + "\"\n" +
                                      "[ 'found' ] # \u00e9\nbow = '''1 mm'''\n")),
      "accepted");
}

TEST_F(Files, APipeThatNobodyWritesIntoIsNotWaitedForForEver)
{
  const std::string pipe = (folder / "pipe").string();
  ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
  EXPECT_EQ(sentence(pipe), ": nothing comes through this pipe, after 10 s of waiting; write into "
                            "it, or name a file");
}

TEST_F(Files, WhatComesThroughAPipeIsRead)
{
  const std::string pipe = (folder / "pipe").string();
  ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
  std::thread writer([&] {
    std::this_thread::sleep_for(std::chrono::milliseconds(300));
    std::ofstream out(pipe, std::ios::binary);
    out << "preset = \"electric\"\n" << std::flush;
    std::this_thread::sleep_for(std::chrono::milliseconds(300));
    out << "[found]\nbow = \"1 mm\"\n# " << std::string(200000, '.') << "\n";
  });
  EXPECT_EQ(sentence(pipe), "accepted");
  writer.join();
}

TEST(Sentences, AreOneLineThatIsShownAndNotObeyed)
{
  const CaseError error("a\x1B[2J\nb\xFF.toml", 3, std::string("x\0y \u202e", 7), "write \x7F");
  EXPECT_STREQ(error.what(), "a\\x1b[2J\\nb\\xff.toml:3: x\\x00y \\u202e; write \\x7f");
}
} // namespace
