// Reading a batch file, and writing its answer: text in, text out (docs/batch-file.md).
#pragma once

#include <string>
#include <string_view>

#include "json/json_reader.hpp"
#include "sirop/cooking/advice.hpp"

namespace sirop::lib {

/// Up to four names of the pantry, in quotes, that an unknown one may mean; the likeliest first.
std::string similar_names(std::string_view name);

/// The batch that a text describes, or the first thing wrong with it.  Never throws but for lack of memory.
core::outcome<core::batch> read_batch(std::string_view text);

/// The batch of an object; `in` keeps the first fault.  A question that asks for the temperature needs no target.
core::batch read_batch(field_reader& in, const json& document, bool target_needed);

/// The keys that say where a kitchen is, and its thermometer; `at` is where they stand.
void read_kitchen(field_reader& in, const json& object, const std::string& at, core::batch& b);

/// The composition of a row whose name is read: the pantry's, its own, or a glucose syrup's.
void read_ingredient(field_reader& in, const json& row, const std::string& place, core::ingredient_line& line,
                     std::vector<std::string>& notes);

/// A row of a pan (or off the heat).
core::ingredient_line read_line(field_reader& in, const json& value, const std::string& place, bool off_heat,
                                std::vector<std::string>& notes);

/// The batch file of a batch: read_batch gives the same batch, without its notes.
json batch_json(const core::batch& b);

/// The answer as an object.
json prediction_json(const core::prediction& p);

/// Writes beside the cautions and notes of an answer, under "remarks", for each of them: which sentence it is
/// about, its code, its severity, and the key of the answer where its numbers stand.
void write_remarks(json& answer);

/// The answer as one JSON object, ending in a newline.
std::string json_answer(const core::prediction& p);

/// The answer as a report for a cook.
std::string report(const core::prediction& p);

/// A refusal as one line, without the newline.
std::string one_line(const core::refusal& why);

}  // namespace sirop::lib
