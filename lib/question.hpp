// The inverse questions as text: JSON in, JSON or a report out (docs/questions.md).
#pragma once

#include "batch_file.hpp"

namespace sirop::lib {

struct reply {
    json answer;
    std::string report;
    core::grade status = core::grade::fine;
};

/// Answers a question, or says why not.  Never throws but for lack of memory.
core::outcome<reply> answer_question(std::string_view text);

}  // namespace sirop::lib
