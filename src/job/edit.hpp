#pragma once
// Changing values in the text of a case, and nothing else of it: comments, order, spaces and line ends stay.
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace pullproof {

/// A value to be written: `key` names its place from the top, items of lists by their number from 0
/// ("circuit.0.wire.size"); `value` is TOML ("\"12 AWG\"", "true").
struct Edit {
  std::string key, value;
};

/// The text with each edit made, in order: what is there is replaced; what is not is added where the author would look
/// for it, in the way in which the table around it is written. An item of a list that is a mere name becomes a table
/// with the name under `in`. Nothing when a place cannot be found or added. The text has to be TOML.
std::optional<std::string> edited(std::string_view text, std::span<const Edit> edits);

/// A text that is edited many times, each time from its first state: it is gone through once.
class Editable {
 public:
  explicit Editable(std::string text);
  const std::string& text() const;
  /// As edited.
  std::optional<std::string> with(std::span<const Edit> edits) const;
  /// As value_at.
  std::string_view at(const std::string& key) const;

 private:
  struct Inner;
  std::shared_ptr<const Inner> inner_;
};

/// The value at a place as it is written there, quotes and all; empty when there is none.
std::string_view value_at(std::string_view text, std::string_view key);

/// Every value of a text that holds no other, with its place as in Edit, in the order of the text.
std::vector<Edit> values_of(std::string_view text);

/// A text as a TOML string.
std::string toml_string(std::string_view text);

}  // namespace pullproof
