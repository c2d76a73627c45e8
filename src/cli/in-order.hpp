#pragma once
// Work on many things at once, with the results in the order of the things.
#include <tbb/global_control.h>
#include <tbb/parallel_pipeline.h>

#include <atomic>
#include <cstddef>
#include <exception>
#include <memory>

namespace pullproof::cli {

/// Takes pieces from `bool next(Piece&)` until it says false, lets `work(Piece&)` loose on `workers` of them at once,
/// and hands them to `done(Piece&)` in order. `next` and `done` never run beside themselves. At most four pieces a
/// worker are under way, so memory does not grow with their number. What one of them throws is thrown here when the
/// others have ended.
template <class Piece, class Next, class Work, class Done>
void in_order(std::size_t workers, Next&& next, Work&& work, Done&& done) {
  if (workers <= 1) {
    for (;;) {
      Piece p;
      if (!next(p)) return;
      work(p);
      done(p);
    }
  }
  using Held = std::shared_ptr<Piece>;
  const tbb::global_control at_most(tbb::global_control::max_allowed_parallelism, workers);
  // No exception may reach the pipeline: it would drop the pieces that are under way without freeing them.
  std::atomic<bool> failed = false;
  std::exception_ptr why;
  const auto guarded = [&](auto&& step) {
    if (failed) return false;
    try {
      return step();
    } catch (...) {
      if (!failed.exchange(true)) why = std::current_exception();
      return false;
    }
  };
  const auto take = [&](tbb::flow_control& flow) {
    auto p = std::make_shared<Piece>();
    if (!guarded([&] { return next(*p); })) flow.stop();
    return p;
  };
  const auto alter = [&](Held p) {
    guarded([&] { return work(*p), true; });
    return p;
  };
  const auto give = [&](const Held& p) {
    guarded([&] { return done(*p), true; });
  };
  constexpr auto ordered = tbb::filter_mode::serial_in_order;
  tbb::parallel_pipeline(4 * workers, tbb::make_filter<void, Held>(ordered, take) &
                                          tbb::make_filter<Held, Held>(tbb::filter_mode::parallel, alter) &
                                          tbb::make_filter<Held, void>(ordered, give));
  if (why) std::rethrow_exception(why);
}

}  // namespace pullproof::cli
