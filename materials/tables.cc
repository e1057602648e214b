// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/tables.h"

#include "cases/text/error.h"
#include "cases/text/suggest.h"
#include "materials/table_reader.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <stdexcept>

namespace overbend::materials
{
namespace
{
template <class Item>
const Item &find(const std::vector<Item> &items, const std::string &kind, const std::string &kinds,
                 const std::string &name, const std::string &file, int line)
{
  const std::string word = cases::plain_word(name);
  std::vector<std::string> known, accepted;
  for (const Item &item : items) {
    known.push_back(item.name);
    accepted.push_back(item.name);
    accepted.insert(accepted.end(), item.aliases.begin(), item.aliases.end());
    for (const std::string &alias : item.aliases)
      if (cases::plain_word(alias) == word)
        return item;
    if (cases::plain_word(item.name) == word)
      return item;
  }
  const bool is_near = !cases::nearest_word(name, accepted).empty();
  throw cases::CaseError(file.empty() ? "tables" : file, line,
                         "there is no " + kind + " \"" + name + "\" in the tables",
                         cases::suggestion(name, is_near ? accepted : known, kinds));
}
} // namespace

double moisture_factor(double green_ratio, double intersection, double moisture)
{
  const double m = std::clamp(moisture, 0., intersection);
  return std::pow(green_ratio, (m - reference_moisture) / (intersection - reference_moisture));
}

double MoistureLine::at(double moisture) const
{
  const double x = (moisture - dry_moisture) / (wet_moisture - dry_moisture);
  return dry + (wet - dry) * std::clamp(x, 0., 1.);
}

const Quantity &Entry::number(const std::string &key) const
{
  for (const Quantity &quantity : numbers)
    if (quantity.key == key)
      return quantity;
  throw std::out_of_range("no number " + key + " in " + name);
}

const Wood &Tables::wood(const std::string &name, const std::string &file, int line) const
{
  return find(woods, "wood", "woods", name, file, line);
}

const Glue &Tables::glue(const std::string &name, const std::string &file, int line) const
{
  return find(glues, "glue", "glues", name, file, line);
}

const Bar &Tables::bar(const std::string &name, const std::string &file, int line) const
{
  return find(bars, "bar", "bars", name, file, line);
}

const StringSet &Tables::string_set(const std::string &name, const std::string &file,
                                    int line) const
{
  return find(string_sets, "set of strings", "sets", name, file, line);
}

const Tuner &Tables::tuner(const std::string &name, const std::string &file, int line) const
{
  return find(tuners, "tuner", "tuners", name, file, line);
}

const Finish &Tables::finish(const std::string &name, const std::string &file, int line) const
{
  return find(finishes, "finish", "finishes", name, file, line);
}

Tables read_tables(const std::string &folder)
{
  Tables t;
  t.folder = folder;
  read_items(folder, "woods.toml", "wood", t.files, t.woods, read_wood);
  read_items(folder, "glues.toml", "glue", t.files, t.glues, read_glue);
  read_items(folder, "bars.toml", "bar", t.files, t.bars, read_bar);
  read_items(folder, "strings.toml", "set", t.files, t.string_sets, read_string_set);
  read_items(folder, "tuners.toml", "tuner", t.files, t.tuners, read_tuner);
  read_items(folder, "finishes.toml", "finish", t.files, t.finishes, read_finish);
  std::vector<WorkLimits> limits;
  read_items(folder, "limits.toml", "limit", t.files, limits, read_limits);
  if (limits.size() != 1)
    throw cases::CaseError(folder + "/limits.toml", 0, "there must be one set of limits",
                           "restore the table as it was shipped");
  t.limits = limits.front();
  return t;
}

std::string tables_folder()
{
  if (const char *set = std::getenv("OVERBEND_TABLES"); set != nullptr && *set != '\0')
    return set;
  std::error_code error;
  const auto program = std::filesystem::read_symlink("/proc/self/exe", error);
  const auto installed = program.parent_path().parent_path() / "share/overbend/tables";
  if (!error && std::filesystem::is_directory(installed, error))
    return installed.string();
  return OVERBEND_TABLES_SOURCE;
}

const Tables &tables()
{
  static const Tables all = read_tables(tables_folder());
  return all;
}

const char *letter(Mark mark)
{
  static const char *letters[] = {"S", "M", "E", "C"};
  return letters[static_cast<unsigned>(mark)];
}

std::vector<std::array<std::string, 6>> rows(const Entry &entry)
{
  std::vector<std::array<std::string, 6>> all;
  for (const Quantity &q : entry.numbers) {
    std::string values;
    for (const double value : q.value) {
      char text[32];
      std::snprintf(text, sizeof text, "%s%.6g", values.empty() ? "" : ", ", value);
      values += text;
    }
    all.push_back({q.key, values, q.unit, q.spread, letter(q.mark), q.source});
  }
  return all;
}

double place_in_spread(LineSpeed speed)
{
  return speed == LineSpeed::slow ? -1 : speed == LineSpeed::fast ? 1 : 0;
}

Glue at_speed(const Glue &glue, double place)
{
  Glue g = glue;
  g.time_factor *= std::pow(10., -place * glue.time_scale_decades);
  g.softening_shift -= place * glue.softening_spread;
  return g;
}

Glue at_speed(const Glue &glue, LineSpeed speed)
{
  return at_speed(glue, place_in_spread(speed));
}

double line_thickness(const Glue &glue, double thickness, double place)
{
  const double end = place < 0 ? glue.thinnest : glue.thickest;
  return thickness * std::pow(end / glue.thickness, std::abs(place));
}

double line_thickness(const Glue &glue, double thickness, LineSpeed speed)
{
  return line_thickness(glue, thickness, place_in_spread(speed));
}

Wood as_piece(const Bar &bar)
{
  Wood w;
  static_cast<Entry &>(w) = bar;
  w.E_L = bar.modulus;
  w.E_R = w.E_T = bar.modulus_across;
  w.G_LR = w.G_LT = bar.shear_modulus;
  w.nu_LR = w.nu_LT = bar.poisson;
  // Alike in all directions across the length: G = E/(2 (1 + nu)).
  w.nu_RT = bar.poisson;
  w.G_RT = bar.modulus_across / (2 * (1 + bar.poisson));
  w.creep_ratio = {1, 1, 1, 1, 1, 1};
  w.expansion = {bar.expansion, bar.expansion_across, bar.expansion_across};
  return w;
}
} // namespace overbend::materials
