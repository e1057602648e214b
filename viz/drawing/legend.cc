// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/canvas.h"

#include "solver/results/text_file.h"

namespace overbend::viz
{
namespace
{
constexpr double bar_bottom = 0.082, bar_height = 0.026, first_row = 0.062, second_row = 0.028;
constexpr int ticks_wanted = 6;
constexpr Colour black = {0, 0, 0};

class Legend
{
public:
  Legend(Canvas &of, const ColourScale &with, double left, double right)
      : canvas(of), scale(with), from(left), to(right)
  {}

  void draw()
  {
    constexpr int n = 128;
    std::vector<Colour> colours;
    for (int i = 0; i < n; ++i)
      colours.push_back(scale.colour(i / (n - 1.)));
    // What is painted first lies over the rest.
    for (const double mark : scale.marks)
      line(mark, bar_bottom - 0.002, bar_bottom + bar_height + 0.01, 0.0016);
    row(first_row, {scale.unit, 1, 0});
    if (!scale.other.name.empty())
      row(second_row, scale.other);
    if (scale.kind == ScaleKind::use)
      over();
    canvas.boxes({from, bar_bottom, to, bar_bottom + bar_height}, colours);
    canvas.box({from - 0.001, bar_bottom - 0.002, to + 0.001, bar_bottom + bar_height + 0.002},
               black);
    canvas.text(0.5 * (from + to), bar_bottom + bar_height + 0.027, title(), 22, Align::centre);
  }

private:
  double place(double value) const
  {
    return from + (to - from) * (value - scale.from) / (scale.to - scale.from);
  }

  std::string title() const
  {
    switch (scale.kind) {
    case ScaleKind::diverging:
      return scale.title + " (+ pulls, \u2212 presses)";
    case ScaleKind::use:
      return scale.title + " (marks: caution, limit)";
    case ScaleKind::growing:
      break;
    }
    return scale.title;
  }

  void line(double value, double low, double high, double width)
  {
    canvas.box({place(value) - 0.5 * width, low, place(value) + 0.5 * width, high}, black);
  }

  // Numbers in a unit, at round numbers of that unit, with the unit before them.
  void row(double y, const OtherUnit &unit)
  {
    canvas.text(from - 0.022, y, unit.name, 20, Align::end);
    const auto shown = [&](double value) { return value * unit.factor + unit.offset; };
    for (const double tick : round_ticks(shown(scale.from), shown(scale.to), ticks_wanted)) {
      const double value = (tick - unit.offset) / unit.factor;
      const std::string sign = tick < 0 ? "\u2212" : "";
      canvas.text(place(value), y, sign + solver::number_text(std::abs(tick), 3), 20,
                  Align::centre);
      if (unit.factor == 1 && unit.offset == 0)
        line(value, bar_bottom - 0.006, bar_bottom, 0.001);
    }
  }

  void over()
  {
    canvas.box({to + 0.012, bar_bottom, to + 0.03, bar_bottom + bar_height}, over_the_limit);
    canvas.text(to + 0.036, bar_bottom + 0.5 * bar_height, "over 100: breaks", 20);
  }

  Canvas &canvas;
  const ColourScale &scale;
  double from, to;
};
} // namespace

void draw_legend(Canvas &canvas, const ColourScale &scale, double from, double to)
{
  Legend(canvas, scale, from, to).draw();
}
} // namespace overbend::viz
