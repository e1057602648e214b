// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/exit_status.h"

#include "cases/text/error.h"
#include "mesh/shape_error.h"
#include "solver/commands/commands.h"
#include "solver/history/simulate.h"
#include "solver/results/file_error.h"
#include "solver/results/record.h"

#include <deal.II/base/exceptions.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <iostream>
#include <new>
#include <sstream>
#include <system_error>

namespace overbend::solver
{
namespace
{
constexpr const char *too_little_memory =
    "The memory of this machine, or what a limit leaves of it, does not suffice; close other "
    "programs, raise the limit, or write a coarser mesh (a smaller numerics.resolution).\n";

// The record to paste into a report of a fault.
void print_record(const std::string &case_file)
{
  std::ifstream in(case_file);
  std::ostringstream text;
  text << in.rdbuf();
  for (const auto &[name, value] :
       record_lines(make_record(case_file, text.str(), {}, loop_threads)))
    std::cerr << "  " << name << ": " << value << "\n";
}

Exit our_fault(const std::string &what, const std::string &case_file)
{
  std::cerr << "A fault of the program, not of yours: " << what
            << "\nPlease report it with these lines and the case file:\n";
  print_record(case_file);
  return Exit::our_fault;
}

// Without asking for memory.
Exit short_of_memory()
{
  std::fputs(too_little_memory, stderr);
  return Exit::files;
}

bool is_want_of_memory(const std::error_code &code)
{
  return code == std::errc::not_enough_memory ||
         code == std::errc::resource_unavailable_try_again; // no room for a thread
}

Exit told(const std::string &sentence, Exit status)
{
  std::cerr << sentence << "\n";
  return status;
}
} // namespace

Exit guarded(const std::function<void()> &work, const std::string &case_file)
{
  try {
    work();
    finish_output();
    return Exit::good;
  } catch (const cases::CaseError &error) {
    return told(error.what(), Exit::users_mistake);
  } catch (const mesh::ShapeError &error) {
    return told(cases::printable(case_file) + ": " + error.what(), Exit::users_mistake);
  } catch (const NotConverged &error) {
    return told(std::string("Not converged: ") + error.what(), Exit::not_converged);
  } catch (const FileError &error) {
    return told(error.what(), Exit::files);
  } catch (const std::bad_alloc &) {
    return short_of_memory();
  } catch (const dealii::StandardExceptions::ExcOutOfMemory &) {
    return short_of_memory();
  } catch (const std::system_error &error) {
    return is_want_of_memory(error.code()) ? short_of_memory() : our_fault(error.what(), case_file);
  } catch (const std::exception &error) {
    return our_fault(error.what(), case_file);
  } catch (const std::string &error) {
    return our_fault(error, case_file); // as Gmsh throws them
  } catch (...) {
    return our_fault("an error of an unknown kind", case_file);
  }
}

void finish_output()
{
  std::cout.flush();
  const bool streamed = std::cout.good();
  if (std::fflush(stdout) == 0 && std::ferror(stdout) == 0 && streamed)
    return;
  throw FileError("standard output", "not all of the text could be written",
                  "is the disk full? the text is incomplete");
}

void leave(Exit status)
{
  std::cout.flush();
  std::fflush(nullptr);
  std::_Exit(static_cast<int>(status));
}
} // namespace overbend::solver
