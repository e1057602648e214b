// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/laminations.h"

#include "cases/read/read_entries.h"
#include "cases/text/error.h"
#include "cases/text/suggest.h"

namespace overbend::cases
{
namespace
{
constexpr const char *section_name = "lamination";

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
