// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures of a beam whose bending is known, looked at by what they show, not by their bytes.
#include "cases/read/read_case.h"
#include "solver/results/results.h"
#include "solver/results/run_files.h"
#include "tests/both_units.h"
#include "tests/unit/output_helpers.h"
#include "viz/drawing/colour_map.h"
#include "viz/run/pictures.h"

#include <gmock/gmock.h>
#include <png.h>
#include <unistd.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>

using namespace overbend;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

namespace
{
namespace fs = std::filesystem;

class Folder
{
public:
  Folder() : path(fs::temp_directory_path() / ("overbend_pictures_" + std::to_string(getpid())))
  {
    fs::remove_all(path);
  }
  ~Folder() { fs::remove_all(path); }
  std::string operator()(const std::string &name = "") const { return (path / name).string(); }

private:
  fs::path path;
};

constexpr int cells = 12;
constexpr double length = 0.6, half_width = 0.025, thickness = 0.02;

// A straight beam of one row of cells with a glue line as its top.
solver::MeshData beam()
{
  solver::MeshData mesh;
  const int nx = 2 * cells + 1;
  for (int k = 0; k < 3; ++k)
    for (int j = 0; j < 3; ++j)
      for (int i = 0; i < nx; ++i)
        for (const double x :
             {length * i / (nx - 1), half_width * (j - 1), -thickness * (2 - k) / 2})
          mesh.nodes.push_back(x);
  solver::GlueSurface::Line board{"board", {}};
  for (int c = 0; c < cells; ++c) {
    for (const int l : solver::vtk_node)
      mesh.cells.push_back(2 * c + l % 3 + nx * (l / 3 % 3) + 3 * nx * (l / 9));
    for (const int l : solver::vtk_face_node)
      board.faces.push_back(2 * c + l % 3 + nx * (l / 3));
    mesh.piece.push_back(1);
  }
  mesh.glue.nodes.assign(mesh.nodes.begin() + 3 * 3 * 2 * nx, mesh.nodes.end());
  mesh.glue.lines.push_back(board);
  return mesh;
}

// Both ends at rest and the middle lower by `bow`: a forward bow.
solver::StepFields bent(const solver::MeshData &mesh, double bow, const cases::Phase &phase,
                        double time)
{
  const std::size_t n = mesh.n_nodes(), glued = mesh.glue.n_nodes();
  solver::StepFields f = tests::step_fields(n, 0); // every field has some value
  f.time = time;
  f.phase = phase.name;
  f.on_bench = {phase.pass, phase.heater, phase.cords};
  f.displacement.assign(3 * n, 0);
  f.glue_displacement.assign(3 * glued, 0);
  f.glue_slip.clear();
  f.glue_shear.assign(glued, 0);
  for (std::size_t k = 0; k < n; ++k) {
    const double s = mesh.nodes[3 * k] / length;
    f.displacement[3 * k + 2] = -4 * bow * s * (1 - s);
    f.temperature[k] = 300 + 30 * s;
    f.stress_along_grain[k] = 1e7 * (2 * s - 1);
    f.use_of_strength[k] = 0.4 * s;
  }
  for (std::size_t k = 0; k < glued; ++k)
    f.glue_slip.push_back(1e-4 * mesh.glue.nodes[3 * k] / length);
  return f;
}

// A results folder with a beam that is bent by `bow` in all its steps.
void write_run(const std::string &folder, double bow)
{
  const cases::Case c = cases::preset_case("electric");
  const solver::MeshData mesh = beam();
  const solver::Record record =
      solver::make_record("beam.toml", "preset = \"electric\"\n\n[found]\nbow = \"1 mm\"\n", {}, 1);
  solver::ResultsWriter writer(folder, mesh, record);
  double time = 0;
  for (const cases::Phase &phase : c.phases) {
    writer.write_step(bent(mesh, bow, phase, time));
    time += phase.duration;
    writer.write_step(bent(mesh, bow, phase, time - 2));
  }
  writer.finish(record);
}

struct Image
{
  int width = 0, height = 0;
  std::vector<unsigned char> rgb;
  viz::Colour at(int x, int y) const
  {
    const unsigned char *p = &rgb[3 * (std::size_t(y) * std::size_t(width) + std::size_t(x))];
    return {p[0] / 255., p[1] / 255., p[2] / 255.};
  }
};

Image read_png(const std::string &path)
{
  png_image png{};
  png.version = PNG_IMAGE_VERSION;
  Image image;
  if (png_image_begin_read_from_file(&png, path.c_str()) == 0)
    return image;
  png.format = PNG_FORMAT_RGB;
  image.rgb.resize(PNG_IMAGE_SIZE(png));
  if (png_image_finish_read(&png, nullptr, image.rgb.data(), 0, nullptr) == 0)
    return image;
  image.width = int(png.width);
  image.height = int(png.height);
  return image;
}

// How far a colour is from a colour map, allowing for the shade that gives the form.
double off_the_map(const viz::Colour &colour, bool is_signed)
{
  double nearest = 1;
  for (int k = 0; k <= 128; ++k)
    for (double shade = 0.7; shade <= 1.001; shade += 0.02) {
      const viz::Colour c = is_signed ? viz::blue_to_brown(k / 64. - 1) : viz::cividis(k / 128.);
      double off = 0;
      for (std::size_t i = 0; i < 3; ++i)
        off = std::max(off, std::abs(colour[i] - shade * c[i]));
      nearest = std::min(nearest, off);
    }
  return nearest;
}

bool is_coloured(const viz::Colour &c)
{
  return std::max({c[0], c[1], c[2]}) - std::min({c[0], c[1], c[2]}) > 0.12;
}

// Rows (from above) where wood is seen in a column of the first strip of the neck beside the
// straight one: the mean, or -1.
double wood_row(const Image &image, int x)
{
  double sum = 0;
  int seen = 0;
  for (int y = 180; y < 470; ++y) {
    const viz::Colour c = image.at(x, y);
    if (c[0] > c[1] + 0.08 && c[1] > c[2] + 0.08) { // brown
      sum += y;
      ++seen;
    }
  }
  return seen > 0 ? sum / seen : -1;
}
} // namespace

TEST(Pictures, AreAllDrawnInTheirSizeWithTheMapsColours)
{
  const Folder folder;
  write_run(folder(), 2e-3);
  const viz::Pictures drawn = viz::draw_pictures(folder());
  ASSERT_THAT(drawn.why_not, IsEmpty());
  ASSERT_EQ(drawn.pictures.size(), 5u);
  for (const viz::Picture &picture : drawn.pictures) {
    const Image image = read_png(folder(picture.file));
    ASSERT_EQ(image.width, 1600) << picture.file;
    ASSERT_EQ(image.height, 900) << picture.file;
    EXPECT_EQ(image.at(1590, 450), (viz::Colour{1, 1, 1})) << picture.file << ": white background";
    EXPECT_FALSE(picture.caption.empty() || picture.alternative_text.empty());
    EXPECT_THAT(tests::bare_numbers(tests::text_of_html(picture.caption)), IsEmpty());
    EXPECT_THAT(tests::bare_numbers(tests::text_of_html(picture.alternative_text)), IsEmpty());
    std::size_t coloured = 0, off = 0;
    for (int y = 110; y < 760; y += 3)
      for (int x = 0; x < image.width; x += 3)
        if (is_coloured(image.at(x, y))) {
          ++coloured;
          off += off_the_map(image.at(x, y), picture.file == "pictures/stress.png") > 0.04;
        }
    EXPECT_GT(coloured, 500u) << picture.file << ": the neck is seen";
    if (picture.file != "pictures/beside_straight.png") {
      EXPECT_LT(double(off), 0.03 * double(coloured)) << picture.file; // lines blend with it
    }
  }
  EXPECT_EQ(viz::drawn_pictures(folder()).pictures.size(), 5u);
  for (const auto &entry : fs::recursive_directory_iterator(folder()))
    if (entry.is_regular_file()) {
      EXPECT_TRUE(solver::written_by_a_run(fs::relative(entry.path(), folder()).string()))
          << entry.path() << " would not be replaced";
    }
}

// A forward bow is a middle lower than the ends (the definition in bench_readings.h).
TEST(Pictures, ANeckBentForwardIsLowerInTheMiddleAndOneBentBackIsHigher)
{
  for (const double bow : {5e-3, -5e-3}) {
    const Folder folder;
    write_run(folder(), bow);
    ASSERT_THAT(viz::draw_pictures(folder()).why_not, IsEmpty());
    const Image image = read_png(folder("pictures/beside_straight.png"));
    const double near = wood_row(image, 60), middle = wood_row(image, 400),
                 far = wood_row(image, 740);
    ASSERT_GT(std::min({near, middle, far}), 0);
    EXPECT_GT((middle - 0.5 * (near + far)) * (bow > 0 ? 1 : -1), 5) << "rows count downwards";
  }
}

TEST(Pictures, WithoutADriverTheReasonIsSaidAndNothingBreaks)
{
  const Folder folder;
  write_run(folder(), 1e-3);
  setenv("__EGL_VENDOR_LIBRARY_FILENAMES", "/nowhere", 1);
  const viz::Pictures drawn = viz::draw_pictures(folder());
  unsetenv("__EGL_VENDOR_LIBRARY_FILENAMES");
  EXPECT_THAT(drawn.pictures, IsEmpty());
  EXPECT_THAT(drawn.why_not, HasSubstr("no pictures: EGL finds no driver"));
}

TEST(Pictures, WithoutAnEncoderTheFilmSaysSo)
{
  const Folder folder;
  write_run(folder(), 1e-3);
  const std::string path = std::getenv("PATH");
  setenv("PATH", "/nowhere", 1);
  const viz::Pictures film = viz::draw_animation(folder());
  setenv("PATH", path.c_str(), 1);
  EXPECT_THAT(film.pictures, IsEmpty());
  EXPECT_THAT(film.why_not, HasSubstr("the program ffmpeg is not installed"));
  EXPECT_FALSE(fs::exists(folder("pictures/history.mp4")));
}

TEST(Pictures, AFolderWithoutResultsSaysSo)
{
  const viz::Pictures drawn = viz::draw_pictures("/nowhere/at/all");
  EXPECT_THAT(drawn.pictures, IsEmpty());
  EXPECT_THAT(drawn.why_not, HasSubstr("results.h5"));
}
