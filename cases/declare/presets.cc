// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/presets.h"

#include "cases/text/suggest.h"

namespace overbend::cases
{
namespace
{
// Sizes from common practice of the trade, no source: within the usual range of each kind.
// Heights of strings, posts, forces of rods and bar ends are estimates [E]. An edge along the frets
// just clears the bridge's top on a steel-string, by 0 to 3 mm, and lands lower by design on a
// classical (trade [T]), for which no range is known.
const char *electric = R"(
[neck]
scale_length = "648 mm"
frets = 22
join_fret = 16
nut_width = "42 mm"
width_at_12 = "52 mm"
depth_at_1 = "20.5 mm"
depth_at_12 = "22.5 mm"

[shaft]
wood = "sugar maple"

[board]
wood = "Indian rosewood"
thickness = "6 mm"
radius = "254 mm"
beyond_last_fret = "8 mm"
tongue_glued = true

[headstock]
kind = "flat"
angle = "0 deg"
thickness = "13 mm"
length = "185 mm"
width = "75 mm"
face_step = "2 mm"

[heel]
kind = "bolt-on"
depth = "19 mm"
length = "30 mm"
pocket = "75 mm"

[rod]
kind = "single-action"
state = "slack"
channel_width = "6 mm"
channel_depth = "10.5 mm"
fillet_depth = "5 mm"
diameter = "4.8 mm"
force = "600 N"

[strings]
set = "electric 10-46"
height_at_nut = "2 mm"
height_at_join = "3.5 mm"

[tuners]
kind = "guitar 15:1"
layout = "bass line"
first_post = "35 mm"
last_post = "160 mm"
across = "15 mm"

[target]
relief = "0.2 mm"
rod = "set"
)";

const char *steel_string = R"(
[neck]
scale_length = "645 mm"
frets = 20
join_fret = 14
nut_width = "43 mm"
width_at_12 = "55.5 mm"
depth_at_1 = "21.5 mm"
depth_at_12 = "24 mm"

[shaft]
wood = "Honduras mahogany"

[board]
wood = "Indian rosewood"
thickness = "6 mm"
radius = "400 mm"
beyond_last_fret = "12 mm"
tongue_glued = true

[headstock]
kind = "tilted"
angle = "14 deg"
thickness = "14 mm"
length = "185 mm"
width = "75 mm"

[heel]
kind = "heel"
depth = "90 mm"
length = "45 mm"

[rod]
kind = "two-way"
state = "slack"
channel_width = "6.4 mm"
channel_depth = "11 mm"
diameter = "4.8 mm"
force = "600 N"

[strings]
set = "acoustic light 12-54"
height_at_nut = "2 mm"
height_at_join = "3.8 mm"

[tuners]
kind = "guitar 15:1"
layout = "both sides"
first_post = "38 mm"
last_post = "120 mm"
across = "65 mm"

[readings]
over_bridge_from = "0 mm"
over_bridge_to = "3 mm"

[target]
relief = "0.2 mm"
)";

const char *classical = R"(
[neck]
scale_length = "650 mm"
frets = 19
join_fret = 12
nut_width = "52 mm"
width_at_12 = "62 mm"
depth_at_1 = "22 mm"
depth_at_12 = "24 mm"

[shaft]
wood = "Spanish-cedar"

[board]
wood = "Gaboon ebony"
thickness = "6.5 mm"
radius = "flat"
beyond_last_fret = "10 mm"
tongue_glued = true

[headstock]
kind = "tilted"
angle = "15 deg"
thickness = "18 mm"
length = "200 mm"
width = "74 mm"

[heel]
kind = "heel"
depth = "85 mm"
length = "45 mm"

[rod]
kind = "none"

[strings]
set = "classical normal"
height_at_nut = "2.4 mm"
height_at_join = "4 mm"

[tuners]
kind = "nylon roller 16:1"
layout = "both sides"
first_post = "45 mm"
last_post = "115 mm"
across = "60 mm"

[target]
relief = "0.3 mm"
)";

const char *long_scale_bass = R"(
[neck]
scale_length = "864 mm"
frets = 20
join_fret = 16
nut_width = "42 mm"
width_at_12 = "58 mm"
depth_at_1 = "21 mm"
depth_at_12 = "24 mm"

[shaft]
wood = "sugar maple"

[board]
wood = "Indian rosewood"
thickness = "6 mm"
radius = "254 mm"
beyond_last_fret = "10 mm"
tongue_glued = true

[headstock]
kind = "flat"
angle = "0 deg"
thickness = "14 mm"
length = "225 mm"
width = "90 mm"
face_step = "2 mm"

[heel]
kind = "bolt-on"
depth = "20 mm"
length = "40 mm"
pocket = "75 mm"

[rod]
kind = "two-way"
state = "slack"
channel_width = "6.4 mm"
channel_depth = "11 mm"
diameter = "4.8 mm"
force = "900 N"

[strings]
set = "bass 45-105"
height_at_nut = "2.5 mm"
height_at_join = "4 mm"

[tuners]
kind = "bass 20:1"
layout = "bass line"
first_post = "45 mm"
last_post = "190 mm"
across = "15 mm"

[target]
relief = "0.3 mm"
)";
} // namespace

const std::vector<Preset> &presets()
{
  static const std::vector<Preset> table = {
      {"electric", "Bolt-on neck of maple and rosewood, 22 frets, flat headstock, posts in line.",
       electric},
      {"steel-string acoustic",
       "Mahogany and rosewood, 14 frets to the body, glued heel, tilted headstock.", steel_string},
      {"classical", "Cedar and ebony, flat board, 12 frets to the body, no rod.", classical},
      {"long-scale bass", "Bolt-on neck of maple and rosewood, 864 mm scale, posts in line.",
       long_scale_bass},
  };
  return table;
}

const Preset *find_preset(const std::string &name)
{
  for (const Preset &preset : presets())
    if (plain_word(preset.name) == plain_word(name))
      return &preset;
  return nullptr;
}
} // namespace overbend::cases
