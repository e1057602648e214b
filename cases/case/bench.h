// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/neck_shape.h"

#include <vector>

// What holds the body and bends the neck. Units and conventions as in
// cases/case/case.h.
namespace overbend::cases
{
enum class BodyHold { rigid, pads };

// What bends the neck over the cradle.
//   posts: cords from posts of the headstock;
//   strap: a strap over the shaft just behind the nut, one pull in the middle: bow alone;
//   headstock_bar: a bar clamped across the headstock, a cord at each end: bow, and twist up to arm
//     times pull;
//   strap_and_bar: the strap for the bow; the bar's cords pull one down and one up alike: twist;
//   caul: presses the board between two supports under the back: bows the neck forward.
enum class Device { posts, strap, headstock_bar, strap_and_bar, caul };

// A post by its side and its number, counted from the nut.
struct Post
{
  Side side = Side::bass;
  int number = 1;
};

struct Bench
{
  BodyHold hold = BodyHold::pads;
  double pad_stiffness = 0;  // rotation of the body on its pads about y, N m/rad
  double pad_distance = 0;   // from the body join to the middle of the pads, along x
  double cradle_x = 0;       // middle of the cradle pad
  double cradle_width = 0;   // along x
  double cradle_pad = 0;     // stiffness of the pad per area, N/m^3
  double cord_stiffness = 0; // one cord, post to bench, N/m
  double cord_diameter = 0;
  double cord_limit = 300;  // N, one cord
  double nut_stiffness = 0; // bearing of the board end on the nut, N/m; 0: nut is out
  bool stop_block = false;  // rigid block below the headstock: its height decides
  Device device = Device::posts;
  // The instrument lies face down: cradle and supports bear on the board, the headstock is pulled
  // towards the strings, a caul presses the back. Everything bends the other way.
  bool turned_over = false;
  std::vector<Post> posts; // empty: the middle one of each side
  double bar_arm = 0;      // bar across the headstock: centre line to the cord, each side
  double bar_place = 0;    // its middle from the nut, along the headstock
  double bar_moment = 0;   // what it bears in bending, N m
  double strap_x = 0;      // middle of the strap, negative: behind the nut
  double strap_width = 0;  // along the neck
  double strap_stiffness = 0, strap_limit = 0; // of the whole strap, N/m and N
  double caul_x = 0, caul_width = 0;           // middle of the caul, and its length along the neck
  double caul_stiffness = 0, caul_limit = 0;   // of its clamp, N/m and N
  double support_nut = 0, support_body = 0;    // x of the middles of its two supports
};
} // namespace overbend::cases
