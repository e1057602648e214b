// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/check_names.h"

#include "cases/checking.h"
#include "cases/posts.h"
#include "cases/suggest.h"

#include <algorithm>

namespace overbend::cases
{
namespace
{
void check_name(const Case &result, const std::string &key, const std::string &name,
                const std::vector<std::string> &known, const std::string &thing,
                const std::string &things)
{
  const auto same = [&](const std::string &other) { return plain_word(other) == plain_word(name); };
  if (std::any_of(known.begin(), known.end(), same))
    return;
  refuse(result, key, key + ": there is no " + thing + " \"" + name + "\" in the tables",
         suggestion(name, known, things));
}

void check_posts(const Case &result, unsigned strings)
{
  for (const Post &post : result.bench.posts) {
    const unsigned count = posts_on_side(result.tuners.layout, post.side, strings);
    if (static_cast<unsigned>(post.number) > count)
      refuse(result, "bench.posts",
             "there is no post " + posts_text({post}) + ": a set of " + std::to_string(strings) +
                 " strings has " + std::to_string(count) + " on that side",
             "count from the nut");
  }
}
} // namespace

void check_names(const Case &result, const KnownNames &known)
{
  const auto wood = [&](const std::string &key, const std::string &name) {
    check_name(result, key, name, known.woods, "wood", "woods");
  };
  const auto glue = [&](const std::string &key, const std::optional<std::string> &name) {
    if (name)
      check_name(result, key, *name, known.glues, "glue", "glues");
  };
  wood("shaft.wood", result.neck.shaft.wood);
  wood("board.wood", result.neck.board.wood);
  wood("headstock.wood", result.neck.headstock.piece.wood);
  const std::vector<Lamination> &strips = result.neck.laminations;
  for (std::size_t i = 0; i < strips.size(); ++i)
    wood("lamination[" + std::to_string(i + 1) + "].wood", strips[i].piece.wood);
  glue("glue.board", result.board_glue.kind);
  glue("glue.scarf", result.scarf_glue.kind);
  check_name(result, "strings.set", result.strings.set, known.string_sets, "set of strings",
             "sets");
  check_name(result, "strings.found_set", result.strings_found.set, known.string_sets,
             "set of strings", "sets");
  check_name(result, "tuners.kind", result.tuners.kind, known.tuners, "tuner", "tuners");
  if (known.strings_of)
    check_posts(result, known.strings_of(result.strings_found.set));
}
} // namespace overbend::cases
