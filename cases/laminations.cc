// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/laminations.h"

#include "cases/checking.h"
#include "cases/error.h"
#include "cases/read_entries.h"
#include "cases/suggest.h"

#include <algorithm>

namespace overbend::cases
{
namespace
{
constexpr const char *section_name = "lamination";
// Strips of the trade are 3 to 11 [E]; more are a slip of the pen.
constexpr std::size_t most_strips = 30;
// Rounding of a rule, m.
constexpr double slack = 0.5e-3;

std::string name_of(std::size_t index)
{
  return std::string(section_name) + "[" + std::to_string(index + 1) + "]";
}

// A value at the nut that is not given brings that of the other end with it.
void take(const std::optional<double> &nut, const std::optional<double> &end, double &at_nut,
          std::optional<double> &at_end)
{
  if (nut) {
    at_nut = *nut;
    at_end = end;
  } else if (end)
    at_end = end;
}

Lamination resolved(const LaminationDraft &told, const Piece &shaft)
{
  Lamination strip{told.width, shaft};
  if (plain_word(told.wood) != "as shaft")
    strip.piece.wood = told.wood;
  Grain &grain = strip.piece.grain;
  take(told.ring_angle, told.ring_angle_at_end, grain.ring_angle, grain.ring_angle_at_end);
  take(told.run_out_across, told.run_out_across_at_end, grain.run_out_across,
       grain.run_out_across_at_end);
  take(told.run_out_depth, told.run_out_depth_at_end, grain.run_out_depth,
       grain.run_out_depth_at_end);
  strip.piece.swelling_along = told.swelling_along.value_or(shaft.swelling_along);
  return strip;
}

double total_width(const std::vector<Lamination> &strips)
{
  double sum = 0;
  for (const Lamination &strip : strips)
    sum += strip.width;
  return sum;
}
} // namespace

std::vector<Lamination> listed_laminations(const Document &document, Draft &draft)
{
  std::vector<Lamination> strips;
  for (const Section &section : document.sections) {
    if (section.name != section_name)
      continue;
    draft.lamination = LaminationDraft();
    if (find_entry(section, "width") == nullptr)
      throw CaseError(document.file, section.line, "the strip has no `width`",
                      "write what it measures across, such as width = \"12 mm\"");
    for (const Entry &entry : section.entries)
      store_entry(document.file, *find_declaration(section_name, entry.key), entry, draft);
    strips.push_back(resolved(draft.lamination, draft.result.neck.shaft));
  }
  return strips;
}

void run_strips_on(Case &result)
{
  Headstock &head = result.neck.headstock;
  const auto given = [&](const char *key) {
    return result.lines.count(std::string("headstock.") + key) > 0;
  };
  const bool scarf = head.kind == HeadstockKind::scarf;
  const bool own_wood = given("wood") && plain_word(head.piece.wood) != "as shaft";
  const bool own = scarf && (own_wood || given("grain") || given("run_out_across") ||
                             given("run_out_depth") || given("grain_at_tip") ||
                             head.piece.swelling_along != result.neck.shaft.swelling_along ||
                             given("run_out_across_at_tip") || given("run_out_depth_at_tip"));
  head.laminated = !result.neck.laminations.empty() && !own;
  const auto &glue = result.board_glue.kind;
  result.neck.board_laminated =
      !result.neck.laminations.empty() && glue && plain_word(*glue) == "one piece";
  if (head.laminated && scarf) {
    const Piece &shaft = result.neck.shaft;
    head.piece = {shaft.wood,
                  {shaft.grain.ring_angle, shaft.grain.run_out_across, shaft.grain.run_out_depth},
                  shaft.swelling_along};
  }
}

std::vector<double> lines_between(const std::vector<Lamination> &strips)
{
  std::vector<double> lines;
  double y = -total_width(strips) / 2;
  for (std::size_t i = 0; i + 1 < strips.size(); ++i)
    lines.push_back(y += strips[i].width);
  return lines;
}

void check_laminations(const Case &result)
{
  const NeckShape &neck = result.neck;
  const std::vector<Lamination> &strips = neck.laminations;
  if (strips.empty())
    return;
  if (strips.size() == 1)
    refuse(result, name_of(0), "a shaft of a single strip is one piece",
           "tell its wood and grain under [shaft] and leave [[lamination]] out, or add the other "
           "strips from bass to treble");
  if (strips.size() > most_strips)
    refuse(result, name_of(most_strips),
           "there are more than " + std::to_string(most_strips) + " strips",
           "take the thinnest together with their neighbours");
  const double together = total_width(strips);
  if (together < neck.nut_width - slack)
    refuse(result, name_of(0),
           "the strips are " + both_lengths(together) +
               " wide together, less than the board at the nut (" + both_lengths(neck.nut_width) +
               ")",
           "measure the outer strips where they are widest, or as wide as the blank was; the taper "
           "may cut through them");
  const double widest = std::max(width_at(neck, board_end(neck)),
                                 neck.headstock.laminated ? neck.headstock.width : 0);
  const std::vector<double> lines = lines_between(strips);
  const bool off_bass = lines.front() < -widest / 2;
  if (off_bass || lines.back() > widest / 2)
    refuse(result, name_of(off_bass ? 0 : strips.size() - 1) + ".width",
           std::string("the outer strip on the ") + (off_bass ? "bass" : "treble") +
               " side lies beside the neck, which is " + both_lengths(widest) +
               " wide at its widest",
           "check the widths; all strips together lie with their middle on the centre line");
}

std::string shaft_in_words(const NeckShape &neck)
{
  if (neck.laminations.empty())
    return neck.shaft.wood;
  std::string text = std::to_string(neck.laminations.size()) + " strips:";
  for (const Lamination &strip : neck.laminations)
    text += (&strip == &neck.laminations.front() ? " " : ", ") + strip.piece.wood;
  return text;
}

LaminationDraft as_draft(const Lamination &strip)
{
  const Grain &grain = strip.piece.grain;
  return {strip.width,
          strip.piece.wood,
          grain.ring_angle,
          grain.run_out_across,
          grain.run_out_depth,
          grain.ring_angle_at_end,
          grain.run_out_across_at_end,
          grain.run_out_depth_at_end,
          strip.piece.swelling_along};
}
} // namespace overbend::cases
