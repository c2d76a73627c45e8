#pragma once
// Working: where every number in a report came from.
#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

#include "core/quantity.hpp"
#include "core/text.hpp"

namespace pullproof {

/// A span of a text file. Lines and columns count from 1, columns in code points; line 0 is nowhere.
struct Where {
  std::string_view file;
  std::uint32_t line = 0, column = 0, length = 0;
  explicit operator bool() const { return line != 0; }
};

/// What a piece of rule data rests on, strongest first.
enum class Basis : std::uint8_t { published, derived, memory, common_practice };
std::string_view name(Basis basis);

/// Where a rule or a table says something.
struct Citation {
  std::string_view edition;  ///< title of the edition or amendment, "NFPA 70-2023"
  std::string_view clause;   ///< "Table 310.16"
  std::string_view entry;    ///< its name in the rule data, "ampacity"
  std::string_view row, column;
  std::string_view source;  ///< where the figure was read
  Basis basis = Basis::published;
  Where origin;  ///< the rule file that set it
  Basis clause_basis = Basis::published;  ///< of the clause's number: editions renumber, and some were not seen
};

using StepId = std::uint32_t;
inline constexpr StepId no_step = ~StepId{0};

/// One line of the working.
struct Step {
  enum class Kind : std::uint8_t { given, table, constant, formula, choice, assumption };
  static constexpr std::size_t most_inputs = 8;

  Kind kind = Kind::given;
  std::string_view name;    ///< "load current"
  std::string_view symbol;  ///< "I"
  double value = 0;         ///< in `unit`; meaningless when `unit` and the number are absent (see `numeric`)
  bool numeric = true;
  int decimals = 3;
  std::string_view unit;
  std::string_view text;        ///< the label of a value that is no number; else what the person wrote, or the reason
  std::string_view expression;  ///< of a formula, in the names of `parameters`
  std::array<std::string_view, most_inputs> parameters{};
  std::array<StepId, most_inputs> inputs{};
  std::uint8_t input_count = 0;
  Citation cite;
  Where where;
};
std::string_view name(Step::Kind kind);
/// The value of a step with its unit, as every report prints it: "15.625 A", "10 AWG".
std::string shown(const Step& step);

/// A value that knows the step it came from.
template <class Q>
struct Traced {
  Q value{};
  StepId step = no_step;
};

/// A formula: the printed text and the function stand side by side and are applied in one place, so a report
/// cannot show one and use the other. The text is in the units of its inputs as they are shown.
template <std::size_t N, class Fn>
struct Formula {
  std::string_view name, symbol, text;
  std::array<std::string_view, N> parameters;
  Fn apply;
};
template <std::size_t N, class Fn>
constexpr auto formula(std::string_view name, std::string_view symbol, std::string_view text,
                       const std::string_view (&parameters)[N], Fn fn) {
  static_assert(N <= Step::most_inputs);
  Formula<N, Fn> f{name, symbol, text, {}, fn};
  for (std::size_t i = 0; i < N; ++i) f.parameters[i] = parameters[i];
  return f;
}

/// The steps behind the findings of one check on one subject. Not thread-safe; one per run of a check.
class Working {
 public:
  explicit Working(Texts& texts) : texts_(&texts) {}

  template <class Q>
  Traced<Q> given(std::string_view name, std::string_view symbol, Q value, const Unit<Q>& unit,
                  std::string_view as_written, Where where) {
    Step& s = add(Step::Kind::given, name, symbol, value, unit);
    s.text = as_written;
    s.where = where;
    return {value, last()};
  }
  template <class Q>
  Traced<Q> table(std::string_view name, std::string_view symbol, Q value, const Unit<Q>& unit, const Citation& cite) {
    add(Step::Kind::table, name, symbol, value, unit).cite = cite;
    return {value, last()};
  }
  template <class Q>
  Traced<Q> constant(std::string_view name, std::string_view symbol, Q value, const Unit<Q>& unit,
                     const Citation& cite) {
    add(Step::Kind::constant, name, symbol, value, unit).cite = cite;
    return {value, last()};
  }
  template <class Q>
  Traced<Q> assumption(std::string_view name, std::string_view symbol, Q value, const Unit<Q>& unit,
                       std::string_view why, const Citation& cite) {
    Step& s = add(Step::Kind::assumption, name, symbol, value, unit);
    s.text = why;
    s.cite = cite;
    return {value, last()};
  }
  /// A number that was counted or picked, with how in words.
  template <class Q>
  Traced<Q> choice(std::string_view name, std::string_view symbol, Q value, const Unit<Q>& unit, std::string_view how,
                   const Citation& cite) {
    Step& s = add(Step::Kind::choice, name, symbol, value, unit);
    s.text = how;
    s.cite = cite;
    return {value, last()};
  }
  template <std::size_t N, class Fn, class Q, class... A>
  Traced<Q> apply(const Formula<N, Fn>& f, const Unit<Q>& unit, const Citation& cite, const Traced<A>&... a) {
    static_assert(sizeof...(A) == N);
    const Q value = f.apply(a.value...);
    const Q redone = f.apply(as_printed(a)...);
    Step& s = add(Step::Kind::formula, f.name, f.symbol, value, unit);
    s.expression = f.text;
    s.cite = cite;
    s.decimals = decimals_to_redo(s.value, unit.show(redone), s.decimals);
    s.input_count = N;
    std::size_t i = 0;
    ((s.parameters[i] = f.parameters[i], s.inputs[i] = a.step < last() ? a.step : no_step, ++i), ...);
    return {value, last()};
  }
  /// A step without a number: a label from the case or a table, or why a row or branch was taken.
  Step& label(Step::Kind kind, std::string_view name, std::string_view symbol, std::string_view text);
  /// Makes `on` an input of the last step, so that it is shown with it.
  void because_of(StepId on) { because_of(last(), on); }
  /// As above, of an earlier step. `on` must not rest on `step` itself.
  void because_of(StepId step, StepId on);
  /// Gives a value the name under which it is read on ("usable ampacity" for the lower of two).
  void rename(StepId step, std::string_view name, std::string_view symbol);

  StepId last() const { return static_cast<StepId>(steps_.size() - 1); }
  const std::vector<Step>& steps() const { return steps_; }
  std::vector<Step>& steps() { return steps_; }
  Texts& texts() { return *texts_; }
  /// The weakest basis among the steps that `step` rests on.
  Basis weakest(StepId step) const;

 private:
  /// A value as a reader of the report has it: rounded to what its step prints.
  template <class Q>
  Q as_printed(const Traced<Q>& a) const {
    if (a.step >= steps_.size()) return a.value;  // no step, or one of another sheet that is only tried out here
    const Step& s = steps_[a.step];
    if (s.value == 0 || !std::isfinite(s.value)) return a.value;
    return from_raw<Q>(raw(a.value) * (round_half_up(s.value, s.decimals) / s.value));
  }
  template <class Q>
  Step& add(Step::Kind kind, std::string_view name, std::string_view symbol, Q value, const Unit<Q>& unit) {
    Step& s = steps_.emplace_back();
    s.kind = kind;
    s.name = name;
    s.symbol = symbol;
    s.value = unit.show(value);
    s.decimals = decimals_for(s.value, unit.decimals);
    s.unit = unit.name;
    return s;
  }
  Texts* texts_;
  std::vector<Step> steps_;
};

}  // namespace pullproof
