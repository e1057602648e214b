// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/equations/second_thread.h"

#include <atomic>
#include <condition_variable>
#include <cstdlib>
#include <exception>
#include <mutex>
#include <string>
#include <thread>

namespace overbend::solver
{
namespace
{
// A wait is as long as the halves differ, mostly some microseconds: looking that many times before
// going to sleep is cheaper than being woken.
constexpr unsigned looks_before_sleep = 2000;

class SecondThread
{
public:
  SecondThread() : thread([this] { serve(); }) {}
  ~SecondThread()
  {
    hand_over(State::over);
    thread.join();
  }
  SecondThread(const SecondThread &) = delete;
  SecondThread &operator=(const SecondThread &) = delete;

  void start(const std::function<void()> &work)
  {
    task = &work;
    failure = nullptr;
    hand_over(State::asked);
  }
  // Waits; returns what the work threw.
  std::exception_ptr finish()
  {
    wait_while(State::asked);
    return failure;
  }

  std::atomic<bool> in_use{false};

private:
  enum class State { idle, asked, over };

  void hand_over(State next)
  {
    {
      const std::lock_guard<std::mutex> lock(mutex);
      state = next;
    }
    changed.notify_all();
  }

  void wait_while(State now)
  {
    for (unsigned look = 0; look < looks_before_sleep; ++look)
      if (state != now)
        return;
    std::unique_lock<std::mutex> lock(mutex);
    changed.wait(lock, [&] { return state != now; });
  }

  void serve()
  {
    while (true) {
      wait_while(State::idle);
      if (state == State::over)
        return;
      try {
        (*task)();
      } catch (...) {
        failure = std::current_exception();
      }
      hand_over(State::idle);
    }
  }

  std::mutex mutex;
  std::condition_variable changed;
  std::atomic<State> state{State::idle};
  const std::function<void()> *task = nullptr;
  std::exception_ptr failure;
  std::thread thread; // last: it uses all of the above
};
} // namespace

bool on_one_thread()
{
  static const bool one = [] {
    const char *const asked = std::getenv("OMP_NUM_THREADS");
    return asked != nullptr && std::string(asked) == "1";
  }();
  return one;
}

void at_once(const std::function<void()> &here, const std::function<void()> &there)
{
  const auto one_by_one = [&] {
    here();
    there();
  };
  if (on_one_thread())
    return one_by_one();
  static SecondThread second;
  if (second.in_use.exchange(true))
    return one_by_one();
  second.start(there);
  std::exception_ptr failure;
  try {
    here();
  } catch (...) {
    failure = std::current_exception();
  }
  const std::exception_ptr failure_there = second.finish();
  second.in_use = false;
  if (failure)
    std::rethrow_exception(failure);
  if (failure_there)
    std::rethrow_exception(failure_there);
}
} // namespace overbend::solver
