#pragma once
// Work on many things at once, with the results in the order of the things.
#include <tbb/global_control.h>
#include <tbb/parallel_pipeline.h>

#include <cstddef>
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
  const auto take = [&](tbb::flow_control& flow) {
    auto p = std::make_shared<Piece>();
    if (!next(*p)) flow.stop();
    return p;
  };
  const auto alter = [&](Held p) {
    work(*p);
    return p;
  };
  const auto give = [&](const Held& p) { done(*p); };
  constexpr auto ordered = tbb::filter_mode::serial_in_order;
  tbb::parallel_pipeline(4 * workers, tbb::make_filter<void, Held>(ordered, take) &
                                          tbb::make_filter<Held, Held>(tbb::filter_mode::parallel, alter) &
                                          tbb::make_filter<Held, void>(ordered, give));
}

}  // namespace pullproof::cli
