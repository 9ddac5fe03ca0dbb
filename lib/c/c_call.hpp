// What the files of the C API share: nothing thrown gets out, arguments are checked, results are written whole.
#pragma once

#include <cstring>
#include <new>
#include <string>

#include "sirop/base/limits.hpp"
#include "sirop/data/stages.hpp"
#include "sirop/sirop.h"
#include "sirop/solution/mixture.hpp"

namespace sirop::lib {

/// Runs the body of a C function; nothing thrown gets out.
template <class Body>
int32_t guarded(const Body& body) noexcept {
#if defined(__cpp_exceptions)
    try {
        return body();
    } catch (const std::bad_alloc&) {
        return SIROP_E_MEMORY;
    } catch (...) {
        return SIROP_E_GENERAL;
    }
#else
    return body();
#endif
}

/// The same; an error, thrown or returned, is also written to the results.
template <class Body, class Failed>
int32_t guarded(const Body& body, const Failed& failed) noexcept {
    const int32_t status = guarded(body);
    if (status < 0) failed(status);
    return status;
}

/// Writes an estimate and gives back its status: computed or, if it has no answer, impossible.
inline int32_t put(const core::estimate& e, sirop_estimate* out) {
    out->value = e.value;
    out->low = e.low;
    out->high = e.high;
    out->reserved = 0;
    out->status = !e.computed()                           ? SIROP_E_IMPOSSIBLE
                  : e.status == core::grade::extrapolated ? SIROP_EXTRAPOLATED
                                                          : SIROP_OK;
    return out->status;
}

/// Writes that there is no result, for whatever reason; gives the reason back.
inline int32_t fail(int32_t status, sirop_estimate* out) {
    put({}, out);
    return out->status = status;
}
inline int32_t fail(int32_t status, double* out) {
    *out = core::not_a_number;
    return status;
}
inline int32_t fail(int32_t status, sirop_range* out) {
    *out = {core::not_a_number, core::not_a_number};
    return status;
}
inline int32_t fail(int32_t status, sirop_stage_place* out) {
    *out = {-1, -1, status, 0};
    return status;
}
inline int32_t fail(int32_t status, int32_t* index) {
    *index = -1;
    return status;
}

/// The mixture of an array of masses; false if one is negative, not finite or too large, or all are 0, or if there
/// are none or more of them than components.
inline bool read_masses(const double* grams, std::size_t components, core::mixture& m) {
    if (components < 1 || components > core::component_count) return false;
    double sum = 0.0;
    for (std::size_t i = 0; i < components; ++i) {
        if (!core::grams_limit.holds(grams[i])) return false;
        m.grams[i] = grams[i];
        sum += grams[i];
    }
    return sum > 0.0;
}

/// The worse of two statuses: errors before warnings, the first error kept.
constexpr int32_t worse(int32_t a, int32_t b) {
    if (a < 0) return a;
    return b < 0 || b > a ? b : a;
}

/// One call for each of n results, unless one of the arrays is null: then each result says so.  `statuses` may be
/// null.
template <class Result, class One>
int32_t for_each(std::size_t n, bool arrays, int32_t* statuses, Result* results, const One& one) noexcept {
    int32_t status = SIROP_OK;
    for (std::size_t i = 0; i < n; ++i) {
        int32_t of_this = SIROP_E_NULL;
        if (results != nullptr) of_this = arrays ? one(i) : fail(SIROP_E_NULL, results + i);
        if (statuses != nullptr) statuses[i] = of_this;
        status = worse(status, of_this);
    }
    return status;
}

inline int32_t put_text(std::string_view text, char* out, std::size_t out_bytes, std::size_t* needed_bytes,
                        int32_t status) {
    *needed_bytes = text.size() + 1;
    if (out_bytes < *needed_bytes) {
        if (out_bytes > 0) out[0] = '\0';
        return SIROP_E_BUFFER;
    }
    std::memcpy(out, text.data(), text.size());
    out[text.size()] = '\0';
    return status;
}

/// Checks the buffer, then lets the body make the text and its status.
template <class Body>
int32_t text_call(bool arguments, char* out, std::size_t out_bytes, std::size_t* needed_bytes,
                  const Body& body) noexcept {
    if (needed_bytes == nullptr) return SIROP_E_NULL;
    *needed_bytes = 0;
    if (!arguments || (out == nullptr && out_bytes > 0)) return SIROP_E_NULL;
    return guarded([&]() -> int32_t {
        std::string text;
        const int32_t status = body(text);
        if (status < 0 && status != SIROP_E_BATCH) return status;
        return put_text(text, out, out_bytes, needed_bytes, status);
    });
}

constexpr int32_t status_of(core::grade g) {
    return g == core::grade::fine ? SIROP_OK : SIROP_EXTRAPOLATED;
}

/// The table of that name, the default for null; null if there is none.
inline const core::stage_table* table_of(const char* table) noexcept {
    return core::find_stage_table(table == nullptr ? core::stage_tables[0].name : table);
}

/// Element `index` of a table, or null where there is none.
template <class Table>
const auto* element_at(const Table& table, int32_t index) noexcept {
    return index >= 0 && static_cast<std::size_t>(index) < table.size() ? &table[static_cast<std::size_t>(index)]
                                                                        : nullptr;
}

/// A text of a row (a literal, so it ends in a NUL), or null where there is no row.
template <class Row>
const char* text_in(const Row* row, std::string_view Row::*text) noexcept {
    return row == nullptr ? nullptr : (row->*text).data();
}

/// The name of row `index` of a table of names, or null after the last.
template <class Table>
const char* name_at(const Table& table, int32_t index) noexcept {
    const auto* row = element_at(table, index);
    return row == nullptr ? nullptr : row->name.data();
}

}  // namespace sirop::lib
