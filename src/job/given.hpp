#pragma once
#include <string_view>

#include "core/working.hpp"

namespace pullproof {

/// A value that the case may give: present or not, where it stands and how it was written.
template <class T>
struct Given {
  T value{};
  bool present = false;
  Where where;
  std::string_view text;  ///< as written, without quotes
  explicit operator bool() const { return present; }
  const T& operator*() const { return value; }
  const T* operator->() const { return &value; }
  T value_or(T fallback) const { return present ? value : fallback; }
};

}  // namespace pullproof
