#include "support/expression.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <vector>

namespace pullproof::test {
namespace {

struct Failed {
  std::string why;
};

class Evaluator {
 public:
  Evaluator(std::string_view text, const std::map<std::string, double>& names) : s_(text), names_(names) {}

  double run() {
    const double v = sum();
    skip();
    if (at_ != s_.size()) throw Failed{"left over: " + std::string(s_.substr(at_))};
    return v;
  }

 private:
  void skip() {
    while (at_ < s_.size() && s_[at_] == ' ') ++at_;
  }
  bool take(char c) {
    skip();
    if (at_ >= s_.size() || s_[at_] != c) return false;
    ++at_;
    return true;
  }
  double sum() {
    double v = product();
    while (true) {
      if (take('+')) v += product();
      else if (take('-')) v -= product();
      else return v;
    }
  }
  double product() {
    double v = power();
    while (true) {
      if (take('*')) v *= power();
      else if (take('/')) v /= power();
      else return v;
    }
  }
  double power() {
    if (take('-')) return -power();
    const double base = atom();
    return take('^') ? std::pow(base, power()) : base;
  }
  static bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }
  static bool digit(char c) { return c >= '0' && c <= '9'; }

  double atom() {
    skip();
    if (take('(')) {
      const double v = sum();
      if (!take(')')) throw Failed{"a parenthesis is not closed"};
      return v;
    }
    if (at_ < s_.size() && digit(s_[at_])) {
      double v = 0;
      const auto [end, error] = std::from_chars(s_.data() + at_, s_.data() + s_.size(), v);
      if (error != std::errc{}) throw Failed{"no number"};
      at_ = static_cast<std::size_t>(end - s_.data());
      return v;
    }
    const std::size_t begin = at_;
    while (at_ < s_.size() && (letter(s_[at_]) || digit(s_[at_]) || s_[at_] == '.')) ++at_;
    const std::string name(s_.substr(begin, at_ - begin));
    if (name.empty()) throw Failed{"a value is wanted at: " + std::string(s_.substr(begin))};
    if (take('(')) return call(name);
    if (name == "pi" && !names_.contains(name)) return 3.14159265358979323846;
    const auto found = names_.find(name);
    if (found == names_.end()) throw Failed{"'" + name + "' is no input"};
    return found->second;
  }

  double call(const std::string& name) {
    std::vector<double> a;
    do a.push_back(sum());
    while (take(','));
    if (!take(')')) throw Failed{"a call is not closed"};
    if (name == "min") return *std::min_element(a.begin(), a.end());
    if (name == "max") return *std::max_element(a.begin(), a.end());
    if (a.size() != 1) throw Failed{name + " takes one value"};
    if (name == "sqrt") return std::sqrt(a[0]);
    if (name == "floor") return std::floor(a[0] + 1e-9);
    if (name == "ceil") return std::ceil(a[0] - 1e-9);
    if (name == "round") return std::floor(a[0] + 0.5 + 1e-9);
    if (name == "abs") return std::abs(a[0]);
    if (name == "sin") return std::sin(a[0]);
    if (name == "cos") return std::cos(a[0]);
    if (name == "acos") return std::acos(a[0]);
    throw Failed{"no function " + name};
  }

  std::string_view s_;
  const std::map<std::string, double>& names_;
  std::size_t at_ = 0;
};

}  // namespace

std::optional<double> evaluate(std::string_view text, const std::map<std::string, double>& names, std::string& error) {
  try {
    return Evaluator(text, names).run();
  } catch (const Failed& f) {
    error = f.why;
    return std::nullopt;
  }
}

}  // namespace pullproof::test
