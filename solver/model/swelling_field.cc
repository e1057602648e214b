// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/swelling_field.h"

#include "mesh/names.h"
#include "solver/model/model.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace overbend::solver
{
namespace
{
constexpr unsigned n_waves = 256;
constexpr double pi = 3.14159265358979323846;

// Standard normal numbers, two at a time.
class Normal
{
public:
  Normal(unsigned seed, unsigned blank)
  {
    std::seed_seq sequence{seed, blank};
    bits.seed(sequence);
  }

  double operator()()
  {
    if (has_next) {
      has_next = false;
      return next;
    }
    const double r = std::sqrt(-2 * std::log(uniform())), angle = 2 * pi * uniform();
    next = r * std::sin(angle);
    has_next = true;
    return r * std::cos(angle);
  }

private:
  // In (0, 1]: 53 bits.
  double uniform() { return (static_cast<double>(bits() >> 11) + 1) * 0x1p-53; }

  std::mt19937_64 bits;
  bool has_next = false;
  double next = 0;
};

enum Blank : unsigned { of_shaft, of_board, of_headstock, n_blanks };
} // namespace

SwellingField::SwellingField(double variation, const std::array<double, 3> &lengths, unsigned seed,
                             unsigned blank)
    : spread(std::sqrt(std::log1p(variation * variation)))
{
  Normal normal(seed, blank);
  waves.resize(n_waves);
  for (Wave &wave : waves) {
    for (unsigned i = 0; i < 3; ++i)
      wave.number[i] = std::sqrt(2.) / lengths[i] * normal();
    wave.a = normal();
    wave.b = normal();
  }
}

double SwellingField::gaussian(const Vec3 &place) const
{
  double sum = 0;
  for (const Wave &wave : waves) {
    const double phase =
        wave.number[0] * place[0] + wave.number[1] * place[1] + wave.number[2] * place[2];
    sum += wave.a * std::cos(phase) + wave.b * std::sin(phase);
  }
  return sum / std::sqrt(double(n_waves));
}

double SwellingField::at(const Vec3 &place) const
{
  return std::exp(spread * (gaussian(place) - spread / 2));
}

std::vector<double> swelling_by_cell(const Space &space, const cases::GrainScatter &scatter,
                                     bool scarf, const std::vector<std::uint8_t> &wood_at_middle)
{
  if (scatter.variation == 0)
    return {};
  unsigned blanks = n_blanks;
  for (const unsigned wood : wood_at_middle)
    if (wood >= first_strip)
      blanks = std::max(blanks, n_blanks + 1 + wood - first_strip);
  std::vector<SwellingField> fields;
  for (unsigned blank = 0; blank < blanks; ++blank)
    fields.emplace_back(scatter.variation,
                        std::array<double, 3>{scatter.along, scatter.across, scatter.across},
                        static_cast<unsigned>(scatter.seed), blank);
  constexpr unsigned middle = 13;
  std::vector<double> factor(space.n_cells, 1.);
  for (unsigned c = 0; c < space.n_cells; ++c) {
    const auto piece = mesh::Piece(space.piece[c]);
    if (piece == mesh::Piece::bar)
      continue;
    unsigned blank = piece == mesh::Piece::board                ? of_board
                     : piece == mesh::Piece::headstock && scarf ? of_headstock
                                                                : of_shaft;
    if (!wood_at_middle.empty() && wood_at_middle[c] >= first_strip)
      blank = n_blanks + wood_at_middle[c] - first_strip;
    factor[c] = fields[blank].at(space.position[space.cell_node[c][middle]]);
  }
  return factor;
}
} // namespace overbend::solver
