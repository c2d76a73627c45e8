#include "draw/packing.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

namespace pullproof::draw {
namespace {

struct Disc {
  Point at;
  double radius = 0;
};

Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
Point operator*(double k, Point a) { return {k * a.x, k * a.y}; }
double length(Point a) { return std::sqrt(a.x * a.x + a.y * a.y); }

/// The pile in a tube of radius 1.
class Pile {
 public:
  /// Puts a disc in the lowest place that is free, the one nearer to the middle of two alike; nothing when none is.
  bool add(double r) {
    if (r > 1) return false;
    std::optional<Point> best;
    const auto consider = [&](Point p) {
      if (!free(p, r)) return;
      constexpr double alike = 1e-9;
      if (!best || p.y > best->y + alike || (p.y > best->y - alike && std::abs(p.x) < std::abs(best->x) - alike)) best = p;
    };
    consider({0, 1 - r});
    for (std::size_t i = 0; i < discs_.size(); ++i) {
      const double reach = discs_[i].radius + r;
      touching({0, 0}, 1 - r, discs_[i].at, reach, consider);  // the wall and a disc
      consider(discs_[i].at + Point{0, -reach});                // balanced on top of it
      for (std::size_t j = 0; j < i; ++j) touching(discs_[i].at, reach, discs_[j].at, discs_[j].radius + r, consider);
    }
    if (!best) return false;
    discs_.push_back({*best, r});
    return true;
  }

  /// Lets everything slide and roll down without friction. Positions move a little and what overlaps is pushed apart,
  /// again and again, in the end by less and less; if that does not come to rest, the pile stays as it was laid.
  void settle() {
    const std::vector<Disc> before = discs_;
    const std::size_t pairs = discs_.size() * discs_.size() / 2 + 1;
    constexpr std::size_t most_work = 250'000;  // pairs looked at: a few milliseconds at most
    const int rounds = static_cast<int>(std::clamp<std::size_t>(most_work / (pairs * sweeps_each), 40, 240));
    constexpr double first = 0.05, last = 1e-7;
    const double fade = std::pow(last / first, 2.0 / rounds);
    double step = first;
    for (int i = 0; i < rounds; ++i) {
      if (i >= rounds / 2) step *= fade;
      for (Disc& d : discs_) d.at.y += step;
      for (int sweep = 0; sweep < sweeps_each; ++sweep) push_apart();
    }
    constexpr int last_sweeps = 300;
    double overlap = 1;
    for (int i = 0; i < last_sweeps && overlap > packing_slack / 4; ++i) overlap = push_apart();
    if (!(overlap <= packing_slack / 2)) discs_ = before;
  }

  const std::vector<Disc>& discs() const { return discs_; }

 private:
  static constexpr int sweeps_each = 8;

  /// Calls `found` with the points that lie `ra` from `a` and `rb` from `b`.
  template <class F>
  static void touching(Point a, double ra, Point b, double rb, F&& found) {
    const Point ab = b - a;
    const double d = length(ab);
    if (d <= 0 || d > ra + rb || d < std::abs(ra - rb)) return;
    const double along = (d * d + ra * ra - rb * rb) / (2 * d);
    const double aside = std::sqrt(std::max(0.0, ra * ra - along * along));
    const Point foot = a + (along / d) * ab, side = (aside / d) * Point{-ab.y, ab.x};
    found(foot + side);
    found(foot - side);
  }

  bool free(Point p, double r) const {
    constexpr double noise = 1e-10;
    if (length(p) + r > 1 + noise) return false;
    return std::all_of(discs_.begin(), discs_.end(), [&](const Disc& d) { return length(p - d.at) >= r + d.radius - noise; });
  }

  /// One sweep over all pairs and the wall; returns the largest overlap that it met. The heavier of two moves less.
  double push_apart() {
    double worst = 0;
    for (std::size_t i = 0; i < discs_.size(); ++i) {
      Disc& a = discs_[i];
      for (std::size_t j = 0; j < i; ++j) {
        Disc& b = discs_[j];
        const Point ab = b.at - a.at;
        const double d = length(ab), overlap = a.radius + b.radius - d;
        if (overlap <= 0) continue;
        worst = std::max(worst, overlap);
        const Point way = d > 0 ? (1 / d) * ab : Point{1, 0};
        const double wa = a.radius * a.radius, wb = b.radius * b.radius;
        a.at = a.at - (overlap * wb / (wa + wb)) * way;
        b.at = b.at + (overlap * wa / (wa + wb)) * way;
      }
      const double d = length(a.at), out = d + a.radius - 1;
      if (out <= 0) continue;
      worst = std::max(worst, out);
      if (d > 0) a.at = ((1 - a.radius) / d) * a.at;
    }
    return worst;
  }

  std::vector<Disc> discs_;
};

}  // namespace

Packed pack(const std::vector<double>& radii, double tube) {
  std::vector<std::size_t> order(radii.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return radii[a] > radii[b]; });
  Packed out{std::vector<Point>(radii.size()), std::vector<bool>(radii.size(), false)};
  Pile pile;
  std::vector<std::size_t> laid;
  for (const std::size_t i : order)
    if (pile.add(radii[i] / tube)) laid.push_back(i);
  pile.settle();
  for (std::size_t n = 0; n < laid.size(); ++n) {
    out.centres[laid[n]] = tube * pile.discs()[n].at;
    out.inside[laid[n]] = true;
  }
  return out;
}

}  // namespace pullproof::draw
