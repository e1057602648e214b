// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/declarations.h"

#include "cases/declare/declare.h"

namespace overbend::cases
{
const std::vector<SectionNote> &section_notes()
{
  static const std::vector<SectionNote> notes = {
      {"", "Before the first section."},
      {"neck", "Sizes of the neck, all measurable with rule and callipers."},
      {"shaft",
       "The wood behind the board. One glued up from strips is given strip by strip under "
       "[[lamination]], which the questionnaire leaves to your own hand; what stands here is then "
       "for what a strip does not say."},
      {"lamination",
       "For a shaft glued up from strips side by side: one [[lamination]] for each strip, from "
       "bass to treble, with what of it differs from the shaft. The strips run parallel to the "
       "centre line along the whole shaft and heel, the outer ones out to the edge. They run on "
       "into a headstock in one piece with the shaft, and past a scarf joint too, since its "
       "headstock is sawn off the same blank; give the headstock a wood or grain of its own and it "
       "is one piece of that. They run on into a board that is one piece with the shaft. A fillet "
       "over the rod is taken as the strip it lies in. The glue "
       "lines between "
       "strips stand upright, along the pull of the strings, and hardly shear when the neck bows: "
       "strips are taken as firmly bonded, without slip. None: the shaft is one piece."},
      {"board", "The fingerboard."},
      {"headstock", "The headstock."},
      {"heel", "The end at the body."},
      {"rod", "The rod or bar in the shaft."},
      {"grain", "How evenly the wood has grown."},
      {"glue", "The glue lines."},
      {"strings", "The strings to come, and those the neck lived under."},
      {"tuners", "The posts that the strings and the cords go to."},
      {"finish", "Finish and trim, which limit the heat."},
      {"found", "What the bench found, strings off and rod slack."},
      {"first_pass",
       "What a first pass did, once it is done: then a plan sizes the second. It runs the first "
       "pass with slower and faster glue lines until one reads what you read; that line is then "
       "planned with. The set-up is that of the first plan, so leave the rest of the case as it "
       "was."},
      {"readings", "How the bench reads, for what the case gives and what the plan tells."},
      {"warp", "How the neck got there."},
      {"room", "The air of the shop."},
      {"moisture", "The water in the wood before the first phase. Nothing known: in equilibrium "
                   "with the room."},
      {"climate", "Indoor air over a year where the instrument is played, the mean of each month: "
                  "a temperature and a relative humidity. For phases of the kind play."},
      {"heater", "Iron and bar."},
      {"probe", "The thermometer."},
      {"bench", "Body padding, cradle, and what bends the neck."},
      {"schedule", "The usual job: clamp cold, heat, read again hot, hold, cool, release, rest, "
                   "string up until the target is read. Not allowed beside [[phase]]."},
      {"phase", "Phases of your own, each under its own [[phase]], in the order they are done. A "
                "phase changes only what its kind must change; everything else stays as the phase "
                "before left it, unless it is given here."},
      {"target", "What the neck is to read."},
      {"numerics", "For the patient and the curious."},
  };
  return notes;
}

bool is_repeated(const std::string &section)
{
  return section == "phase" || section == "lamination";
}

const std::vector<Declaration> &declarations()
{
  static const std::vector<Declaration> table = [] {
    Declarations lines;
    Table top(lines, "");
    top.text("title", OVERBEND_AT(result.title), "A name for the job.", "untitled");
    top.text("preset", OVERBEND_AT(result.preset),
             "Instrument whose values stand where the case gives none.", "none");
    declare_neck(lines);
    declare_lamination(lines);
    declare_wood(lines);
    declare_fittings(lines);
    declare_bench(lines);
    declare_work(lines);
    return lines;
  }();
  return table;
}

const Declaration *find_declaration(const std::string &section, const std::string &key)
{
  for (const Declaration &declaration : declarations())
    if (declaration.section == section && declaration.key == key)
      return &declaration;
  return nullptr;
}

const std::string &finish_word(Finish finish)
{
  return find_declaration("finish", "kind")->words.at(static_cast<std::size_t>(finish));
}

bool Declaration::may_be_unknown() const
{
  if (std::holds_alternative<std::optional<double> &(*)(Draft &)>(access) ||
      std::holds_alternative<std::optional<std::string> &(*)(Draft &)>(access))
    return true;
  for (const std::string &word : words)
    if (kind == Kind::choice && word == "unknown")
      return true;
  return false;
}
} // namespace overbend::cases
