#pragma once
// Precompiled for the library: the slow headers that most files need.
#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/quantity.hpp"
