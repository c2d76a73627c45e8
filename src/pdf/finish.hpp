#pragma once
// What cairo 1.16 does not write: the language, the alternative text of figures, and that viewers show the title.
#include <string>
#include <string_view>
#include <vector>

namespace pullproof::pdf {

/// `file` as cairo wrote it, with /Lang and /ViewerPreferences in its catalog and an /Alt for each figure in order, and
/// the cross-reference table put right. Throws std::runtime_error when it does not look as cairo 1.16 writes it.
std::string finished(std::string_view file, std::string_view language, const std::vector<std::string>& alternatives);

}  // namespace pullproof::pdf
