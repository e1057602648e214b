// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/card/card.h"
#include "viz/page/html.h"
#include "viz/page/show.h"

#include "solver/results/text_file.h"

#include <algorithm>
#include <cmath>

namespace overbend::viz
{
namespace
{
// Drawn in millimetres of the neck; y of SVG is -z. The picture is as wide as the card's text.
constexpr double body_shown = 190;    // mm of body beyond the join
constexpr double bench_below = 20;    // mm from the lowest point of the neck to the bench
constexpr double room_for_words = 58; // mm from the shaft at the cradle to the bench

std::string mm(double value)
{
  return solver::number_text(std::round(value * 100) / 100, 7);
}

class Sketch
{
public:
  explicit Sketch(const PlanFile &of_plan) : plan(of_plan)
  {
    for (const Json &p : plan.at("/side_view/lower_part_xz_m")) {
      tip = std::min(tip, 1e3 * p.at(0).get<double>());
      lowest = std::min(lowest, 1e3 * p.at(1).get<double>());
    }
    board_top = 1e3 * plan.at("/side_view/board_xz_m/2/1").get<double>();
    join = 1e3 * plan.number("/side_view/body_join_m");
    bench = std::max(-lowest + bench_below,
                     1e3 * plan.number("/side_view/depth_at_cradle_m") + room_for_words);
  }

  std::string draw()
  {
    body();
    polygon("/side_view/lower_part_xz_m", "wood");
    polygon("/side_view/board_xz_m", "board");
    frets();
    cradle();
    cords();
    bar();
    probe();
    const double left = tip - 10, top = -board_top - 66, width = join + body_shown + 10 - left;
    return "<figure class=\"sketch\">\n<svg role=\"img\" aria-labelledby=\"sketch-name\" "
           "viewBox=\"" +
           mm(left) + " " + mm(top) + " " + mm(width) + " " + mm(bench + 4 - top) +
           "\">\n<title id=\"sketch-name\">Side view of the neck on the bench, to scale: cradle "
           "under the back, cords from the headstock down to the bench, bar and iron on the "
           "board, probe, pads under the body.</title>\n" +
           out +
           "</svg>\n<figcaption>To scale, drawn straight: no bend is shown. Numbers in the neck "
           "are "
           "frets. In all figures + is forward, - is past straight.</figcaption>\n</figure>\n";
  }

private:
  double at(const std::string &pointer) const { return 1e3 * plan.number(pointer); }

  void line(double x1, double y1, double x2, double y2, const char *kind)
  {
    out += "<line class=\"" + std::string(kind) + "\" x1=\"" + mm(x1) + "\" y1=\"" + mm(y1) +
           "\" x2=\"" + mm(x2) + "\" y2=\"" + mm(y2) + "\"/>\n";
  }

  void rectangle(double x, double y, double width, double height, const char *kind)
  {
    out += "<rect class=\"" + std::string(kind) + "\" x=\"" + mm(x) + "\" y=\"" + mm(y) +
           "\" width=\"" + mm(width) + "\" height=\"" + mm(height) + "\"/>\n";
  }

  void text(double x, double y, const std::string &inner, const char *anchor = "middle",
            const char *kind = "label")
  {
    out += "<text class=\"" + std::string(kind) + "\" x=\"" + mm(x) + "\" y=\"" + mm(y) +
           "\" text-anchor=\"" + anchor + "\">" + inner + "</text>\n";
  }

  void polygon(const std::string &pointer, const char *kind)
  {
    out += "<polygon class=\"" + std::string(kind) + "\" points=\"";
    for (const Json &p : plan.at(pointer))
      out += mm(1e3 * p.at(0).get<double>()) + "," + mm(-1e3 * p.at(1).get<double>()) + " ";
    out += "\"/>\n";
  }

  void body()
  {
    line(tip - 10, bench, join + body_shown + 10, bench, "bench");
    rectangle(join, 4, body_shown + 20, 40, "body");
    const double x = std::min(at("/set_up/body/pads_x_m"), join + body_shown - 30);
    rectangle(x - 30, 44, 60, bench - 44, "pad");
    text(x, bench - (bench - 44) / 2 + 5,
         plan.at("/set_up/body/may_tip").get<bool>() ? "pads" : "held", "middle", "label on-pad");
  }

  // A mark for each fret, a number at those with dots, and the body join.
  void frets()
  {
    for (std::size_t i = 1; i < plan.size("/instrument/fret_x_m"); ++i)
      line(at("/instrument/fret_x_m/" + std::to_string(i)), -board_top,
           at("/instrument/fret_x_m/" + std::to_string(i)), -board_top - 2.5, "fret");
    for (std::size_t i = 0; i < plan.size("/frets_to_read"); ++i) {
      const std::string fret = "/frets_to_read/" + std::to_string(i);
      const int n = plan.at(fret).get<int>();
      text(at("/instrument/fret_x_m/" + std::to_string(n)), 14, shown_in_svg(plan, fret, As::count),
           "middle", "label small");
    }
  }

  void cradle()
  {
    const double x = at("/set_up/cradle/x_m"), width = at("/set_up/cradle/width_m"),
                 y = at("/side_view/depth_at_cradle_m");
    rectangle(x - width / 2, y, width, 6, "soft");
    rectangle(x - width / 2, y + 6, width, bench - y - 6, "cradle");
    text(x + width / 2 + 6, bench - 24,
         "cradle, " + shown_in_svg(plan, "/set_up/cradle/near", As::text), "start");
    text(x + width / 2 + 6, bench - 6,
         "pad " + shown_in_svg(plan, "/set_up/cradle/width_m", As::length), "start");
  }

  void cords()
  {
    for (std::size_t i = 0; i < plan.size("/set_up/cords/posts"); ++i) {
      const std::string post = "/set_up/cords/posts/" + std::to_string(i);
      line(at(post + "/x_m"), -at(post + "/z_m") - 6, at(post + "/x_m"), bench, "cord");
      out += "<circle class=\"post\" cx=\"" + mm(at(post + "/x_m")) + "\" cy=\"" +
             mm(-at(post + "/z_m") - 6) + "\" r=\"4\"/>\n";
    }
    text(at("/set_up/cords/posts/0/x_m") + 8, bench - 24, "cords", "start");
    if (plan.at("/set_up/stop_block").get<bool>()) {
      rectangle(tip + 6, -lowest, 26, bench + lowest, "block");
      text(tip + 36, bench - 6, "stop block", "start");
    }
  }

  void bar()
  {
    const double from = at("/set_up/bar/from_m"), to = at("/set_up/bar/to_m"),
                 thick = at("/set_up/bar/thickness_m"), bottom = -board_top - 2.5;
    rectangle(from, bottom - thick, to - from, thick, "bar");
    const double a = at("/set_up/bar/iron_from_m"), b = at("/set_up/bar/iron_to_m");
    rectangle(a, bottom - thick - 6, b - a, 6, "iron");
    const double sensor = at("/set_up/bar/sensor_x_m");
    line(sensor, bottom - thick / 2, sensor, bottom - thick - 32, "leader");
    text(from, bottom - thick - 36,
         "bar (outlined), sensor: " + shown_in_svg(plan, "/set_up/bar/sensor_near", As::text) +
             "; iron on it (black)",
         "start");
  }

  void probe()
  {
    const double x = at("/set_up/probe/x_m"), y = -at("/set_up/probe/z_m"), high = -board_top - 62;
    line(x, y, x + 60, high + 38, "leader");
    out += "<circle class=\"probe\" cx=\"" + mm(x) + "\" cy=\"" + mm(y) + "\" r=\"4\"/>\n";
    text(x + 64, high + 36, "probe, " + shown_in_svg(plan, "/set_up/probe/near", As::text),
         "start");
  }

  const PlanFile &plan;
  double tip = 0, lowest = 0, board_top = 0, join = 0, bench = 0;
  std::string out;
};
} // namespace

std::string card_sketch(const PlanFile &plan)
{
  return Sketch(plan).draw();
}
} // namespace overbend::viz
