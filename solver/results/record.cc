// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results/record.h"

#include "solver/results/text_file.h"
#include "solver/version.h"

#include <dlfcn.h>
#include <hdf5.h>
#include <openssl/evp.h>
#include <sys/utsname.h>

#include <array>
#include <filesystem>
#include <stdexcept>
#include <thread>

namespace overbend::solver
{
namespace
{
std::string hdf5_version()
{
  unsigned major = 0, minor = 0, release = 0;
  H5get_libversion(&major, &minor, &release);
  return std::to_string(major) + "." + std::to_string(minor) + "." + std::to_string(release);
}

std::string host_kind()
{
  utsname names = {};
  if (uname(&names) != 0)
    return "unknown";
  return std::string(names.sysname) + " " + names.machine + ", " +
         std::to_string(std::thread::hardware_concurrency()) + " processors";
}
} // namespace

std::string sha256(const std::string &text)
{
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest;
  unsigned size = 0;
  if (EVP_Digest(text.data(), text.size(), digest.data(), &size, EVP_sha256(), nullptr) != 1)
    throw std::runtime_error("SHA-256 is not available in the OpenSSL library");
  std::string hex;
  for (unsigned i = 0; i < size; ++i) {
    hex += "0123456789abcdef"[digest[i] >> 4];
    hex += "0123456789abcdef"[digest[i] & 15];
  }
  return hex;
}

std::string loaded_blas()
{
  void *const dgemm = dlsym(RTLD_DEFAULT, "dgemm_");
  Dl_info info = {};
  if (dgemm == nullptr || dladdr(dgemm, &info) == 0 || info.dli_fname == nullptr)
    return "none";
  // Debian's alternatives are all called libblas.so.3: the folder tells them apart.
  std::error_code error;
  const std::filesystem::path real = std::filesystem::canonical(info.dli_fname, error);
  const std::filesystem::path path = error ? std::filesystem::path(info.dli_fname) : real;
  std::string text = (path.parent_path().filename() / path.filename()).string();
  if (void *const config = dlsym(RTLD_DEFAULT, "openblas_get_config"))
    text += std::string(" (") + reinterpret_cast<char *(*)()>(config)() + ")";
  return text;
}

Record make_record(const std::string &case_file, const std::string &case_text,
                   const std::vector<std::pair<std::string, std::string>> &table_hashes,
                   int threads)
{
  Record record;
  record.version = OVERBEND_VERSION;
  record.git_hash = OVERBEND_GIT_HASH;
  record.git_dirty = OVERBEND_GIT_DIRTY;
  record.compiler = OVERBEND_COMPILER;
  record.build_type = OVERBEND_BUILD_TYPE;
  record.dealii_version = OVERBEND_DEALII_VERSION;
  record.hdf5_version = hdf5_version();
  record.blas = loaded_blas();
  record.threads = threads;
  record.host_kind = host_kind();
  record.case_name = std::filesystem::path(case_file).filename().string();
  record.case_text = case_text;
  record.case_hash = sha256(case_text);
  record.table_hashes = table_hashes;
  return record;
}

std::vector<std::pair<std::string, std::string>> record_lines(const Record &record)
{
  std::vector<std::pair<std::string, std::string>> all = {
      {"version", record.version},
      {"git hash", record.git_hash + (record.git_dirty ? " with changes" : "")},
      {"compiler", record.compiler},
      {"build type", record.build_type},
      {"deal.II", record.dealii_version},
      {"HDF5", record.hdf5_version},
      {"BLAS", record.blas},
      {"threads", std::to_string(record.threads)},
      {"host kind", record.host_kind},
      {"case", record.case_name},
      {"case SHA-256", record.case_hash},
  };
  for (const auto &[table, hash] : record.table_hashes)
    all.emplace_back("table " + table + " SHA-256", hash);
  all.emplace_back("wall time [s]", number_text(record.wall_time, 4));
  all.emplace_back("exit reason", record.exit_reason);
  return all;
}
} // namespace overbend::solver
