// Reading a batch file, and writing its answer: text in, text out (docs/batch-file.md).
#pragma once

#include <string>
#include <string_view>

#include "sirop/core/advice.hpp"

namespace sirop::lib {

inline constexpr std::size_t most_bytes = 1048576;  ///< of a batch file
inline constexpr std::size_t most_depth = 32;       ///< of nested objects and lists

/// The batch that a text describes, or the first thing wrong with it.  Never throws but for lack of memory.
core::outcome<core::batch> read_batch(std::string_view text);

/// The answer as one JSON object, ending in a newline.
std::string json_answer(const core::prediction& p);

/// The answer as a report for a cook.
std::string report(const core::prediction& p);

/// A refusal as one line, without the newline.
std::string one_line(const core::refusal& why);

}  // namespace sirop::lib
