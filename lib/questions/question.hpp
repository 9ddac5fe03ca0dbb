// The inverse questions as text: JSON in, JSON or a report out (docs/questions.md).
#pragma once

#include <array>
#include <optional>
#include <span>

#include "json/batch_file.hpp"

namespace sirop::lib {

struct reply {
    json answer;
    std::string report;
    core::grade status = core::grade::fine;
};

/// Answers a question, or says why not.  Never throws but for lack of memory.
core::outcome<reply> answer_question(std::string_view text);
/// `notes`: what was assumed of its batch before.
core::outcome<reply> answer_question(const json& document, const std::vector<std::string>& notes = {});

struct conversation;

/// A kind of question.
struct question_kind {
    std::string_view name;
    bool target_needed;  ///< the batch needs a cook temperature
    bool batch_needed;
    std::optional<refusal> (*answer)(conversation&);
    std::array<std::string_view, 7> keys;  ///< those that it has beside "batch"
};
std::span<const question_kind> question_kinds();

}  // namespace sirop::lib
