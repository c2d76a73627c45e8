#include "support/evaluate.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <vector>

namespace pullproof::test {
namespace {

class Parser {
 public:
  Parser(std::string_view text, const std::function<std::optional<double>(std::string_view)>& value_of, std::set<std::string>& names)
      : text_(text), value_of_(value_of), names_(names) {}

  double whole() {
    const double v = sum();
    skip();
    if (at_ != text_.size()) fail("left over");
    return v;
  }

 private:
  [[noreturn]] void fail(const std::string& why) const {
    throw std::runtime_error(why + " at '" + std::string(text_.substr(at_)) + "'");
  }
  void skip() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
  }
  bool take(char c) {
    skip();
    if (at_ == text_.size() || text_[at_] != c) return false;
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
    double v = sign();
    while (true) {
      if (take('*')) v *= sign();
      else if (take('/')) v /= sign();
      else return v;
    }
  }
  double sign() {
    if (take('-')) return -sign();
    return power();
  }
  double power() {
    const double base = atom();
    return take('^') ? std::pow(base, sign()) : base;
  }
  double atom() {
    if (take('(')) {
      const double v = sum();
      if (!take(')')) fail("no closing parenthesis");
      return v;
    }
    skip();
    if (at_ < text_.size() && ((text_[at_] >= '0' && text_[at_] <= '9') || text_[at_] == '.')) return number();
    return named();
  }
  double number() {
    double v = 0;
    const auto [end, error] = std::from_chars(text_.data() + at_, text_.data() + text_.size(), v, std::chars_format::fixed);
    if (error != std::errc{}) fail("no number");
    at_ = static_cast<std::size_t>(end - text_.data());
    return v;
  }
  double named() {
    const std::size_t begin = at_;
    while (at_ < text_.size() && (std::isalnum(static_cast<unsigned char>(text_[at_])) != 0 || text_[at_] == '_')) ++at_;
    const std::string name(text_.substr(begin, at_ - begin));
    if (name.empty()) fail("nothing to compute");
    if (take('(')) return function(name);
    if (name == "pi") return std::numbers::pi;
    names_.insert(name);
    const auto v = value_of_(name);
    if (!v) fail("'" + name + "' is no input, before");
    return *v;
  }
  double function(const std::string& name) {
    std::vector<double> a{sum()};
    while (take(',')) a.push_back(sum());
    if (!take(')')) fail("no closing parenthesis");
    if (name == "min") return *std::min_element(a.begin(), a.end());
    if (name == "max") return *std::max_element(a.begin(), a.end());
    if (a.size() != 1) fail(name + " takes one value, before");
    if (name == "sqrt") return std::sqrt(a[0]);
    if (name == "floor") return std::floor(a[0] + 1e-9);
    if (name == "ceil") return std::ceil(a[0] - 1e-9);
    if (name == "round") return std::floor(a[0] + 0.5 + 1e-9);
    if (name == "abs") return std::abs(a[0]);
    if (name == "cos") return std::cos(a[0]);
    if (name == "sin") return std::sin(a[0]);
    if (name == "acos") return std::acos(a[0]);
    fail("no function '" + name + "', before");
  }

  std::string_view text_;
  const std::function<std::optional<double>(std::string_view)>& value_of_;
  std::set<std::string>& names_;
  std::size_t at_ = 0;
};

}  // namespace

Evaluated evaluate(std::string_view text, const std::function<std::optional<double>(std::string_view name)>& value_of) {
  Evaluated out;
  try {
    out.value = Parser(text, value_of, out.names).whole();
    if (!std::isfinite(out.value)) out.error = "no finite number comes of it";
  } catch (const std::runtime_error& e) {
    out.error = e.what();
  }
  return out;
}

}  // namespace pullproof::test
