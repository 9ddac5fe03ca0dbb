// The stages of sugar cooking as published: temperatures of plain sugar syrup at sea level.  Data only.
//
// A stage is a consistency in cold water, and these tables are what their authors printed.  They disagree by 1 to
// 3 C and leave gaps (such as that between soft ball and firm ball), so the tables stand apart and a gap is
// answered as one.  Older tables print single points.  The per cent of sugar that many charts add is a convention,
// not a measurement, and is left out. McGee prints 240 F as the lower end of hard ball: a misprint for 250 F (121
// C), corrected here. The name in the other language: common practice, no source; empty where there is no usual
// one. basis: "published" was read in the source; "recalled" is from memory of it.  The consensus is computed from
// the published tables, stage by stage.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <utility>

#include "../base/names.hpp"

namespace sirop::core {

struct stage_row {
    std::string_view name;
    std::string_view other_language;
    double low_celsius, high_celsius;  ///< equal where the source prints one point
    std::string_view basis;
};

struct stage_table {
    std::string_view name;
    std::string_view source;
    std::string_view language;  ///< of the stage names: "en" or "fr"
    std::span<const stage_row> rows;
    std::size_t consistencies =
        0;  ///< so many rows, the first, are consistencies in cold water; then come colours
};

/// The rows of a table that are consistencies: nothing in cold water tells what comes after hard crack.
constexpr stage_table consistencies_of(stage_table table) {
    table.rows = table.rows.first(table.consistencies);
    return table;
}
/// Whether a row of a table is a colour, which follows the temperature of the sugar, at any air pressure.
constexpr bool is_colour(const stage_table& table, const stage_row& row) {
    return &row >= table.rows.data() + table.consistencies;
}

namespace detail {
inline constexpr std::string_view published = "published";
inline constexpr std::string_view recalled = "recalled";

// clang-format off
inline constexpr auto us_2004_rows = std::to_array<stage_row>({
    {"thread", "filé", 102, 113, published},
    {"soft ball", "petit boulé", 113, 116, published},
    {"firm ball", "boulé", 118, 121, published},
    {"hard ball", "gros boulé", 121, 130, published},
    {"soft crack", "petit cassé", 132, 143, published},
    {"hard crack", "grand cassé", 149, 154, published},
    {"hard candy toffee", "", 160, 168, published},
    {"light caramel", "caramel clair", 170, 170, published},
    {"medium caramel / spun sugar", "caramel brun", 180, 182, published},
    {"dark caramel", "caramel foncé", 188, 190, published},
    {"black caramel", "", 205, 205, published},
});

inline constexpr auto us_household_rows = std::to_array<stage_row>({
    {"thread", "filé", 110, 112.2, published},
    {"soft ball", "petit boulé", 112.2, 115.6, published},
    {"firm ball", "boulé", 117.8, 120, published},
    {"hard ball", "gros boulé", 121.1, 130, published},
    {"soft crack", "petit cassé", 132.2, 143.3, published},
    {"hard crack", "grand cassé", 148.9, 154.4, published},
    {"clear liquid", "", 160, 160, recalled},
    {"caramel (brown liquid)", "caramel", 170, 170, published},
});

inline constexpr auto us_1937_rows = std::to_array<stage_row>({
    {"thread", "filé", 111, 111, published},
    {"soft ball", "petit boulé", 113, 113, published},
    {"firm ball", "boulé", 118, 118, published},
    {"hard ball", "gros boulé", 122, 122, published},
    {"soft crack", "petit cassé", 132, 132, published},
    {"hard crack", "grand cassé", 145, 145, published},
    {"caramel", "caramel", 170, 170, published},
});

inline constexpr auto us_1918_rows = std::to_array<stage_row>({
    {"small thread", "petit filé", 101.7, 101.7, published},
    {"large thread", "grand filé", 102.8, 102.8, published},
    {"pearl", "petit perlé", 104.4, 104.4, published},
    {"large pearl", "grand perlé", 105.6, 105.6, published},
    {"blow", "petit soufflé", 110, 110, published},
    {"feather", "grand soufflé", 111.1, 111.1, published},
    {"soft ball", "petit boulé", 114.4, 114.4, published},
    {"hard ball", "gros boulé", 120, 120, published},
    {"small crack", "petit cassé", 143.3, 143.3, published},
    {"crack", "grand cassé", 154.4, 154.4, published},
    {"caramel", "caramel", 176.7, 176.7, published},
});

inline constexpr auto us_1917_rows = std::to_array<stage_row>({
    {"crystal syrup", "", 104.4, 104.4, published},
    {"soft ball", "petit boulé", 114.4, 114.4, published},
    {"medium ball", "", 115.6, 115.6, published},
    {"stiff ball", "boulé", 117.8, 117.8, published},
    {"hard ball", "gros boulé", 121.1, 121.1, published},
    {"light crack", "petit cassé", 128.9, 128.9, published},
    {"medium crack", "", 133.3, 133.3, published},
    {"hard crack", "grand cassé", 143.3, 143.3, published},
    {"extra hard crack", "", 165.6, 165.6, published},
    {"caramel", "caramel", 182.2, 182.2, published},
});

inline constexpr auto fr_pastry_rows = std::to_array<stage_row>({
    {"petit filet", "small thread", 101, 101, published},
    {"grand filet", "large thread", 105, 105, published},
    {"petit perlé ou lissé", "pearl", 106, 106, published},
    {"perlé", "large pearl", 107.5, 107.5, published},
    {"grand soufflé", "feather", 111, 111, published},
    {"petit boulé", "soft ball", 115, 115, published},
    {"boulé", "firm ball", 117, 117, published},
    {"gros boulé", "hard ball", 120, 120, published},
    {"petit cassé", "soft crack", 125, 125, published},
    {"caramel clair", "light caramel", 155, 155, published},
    {"caramel brun", "medium caramel", 168, 168, published},
    {"caramel foncé", "dark caramel", 188, 188, published},
});

inline constexpr auto fr_classic_rows = std::to_array<stage_row>({
    {"nappé", "", 100, 100, published},
    {"petit filé", "small thread", 103, 105, published},
    {"grand filé ou lissé", "large thread", 106, 110, published},
    {"petit perlé", "pearl", 110, 112, published},
    {"grand perlé ou soufflé", "large pearl", 113, 115, published},
    {"petit boulé", "soft ball", 116, 125, recalled},
    {"grand boulé", "hard ball", 126, 135, recalled},
    {"petit cassé", "soft crack", 136, 140, recalled},
    {"grand cassé", "hard crack", 146, 155, recalled},
});

inline constexpr auto fr_home_rows = std::to_array<stage_row>({
    {"boulé", "firm ball", 120, 120, published},
    {"gros boulé", "hard ball", 125, 130, published},
    {"petit cassé", "soft crack", 135, 140, published},
    {"grand cassé", "hard crack", 145, 150, published},
    {"caramel clair", "light caramel", 155, 155, published},
    {"caramel", "caramel", 170, 180, published},
    {"caramel foncé", "dark caramel", 185, 190, published},
});
// clang-format on
}  // namespace detail

/// The published tables, as printed.
inline constexpr auto published_stage_tables = std::to_array<stage_table>({
    // clang-format off
    {"us 2004", "McGee, On Food and Cooking (2004)", "en", detail::us_2004_rows, 6},
    {"us household", "home-economics chart, reprinted without citation", "en", detail::us_household_rows, 6},
    {"us 1937", "Lowe, Experimental Cookery (1937), laboratory outline", "en", detail::us_1937_rows, 6},
    {"us 1918", "Farmer, Boston Cooking-School Cook Book (1918)", "en", detail::us_1918_rows, 10},
    {"us 1917", "a US candy cook book (1917)", "en", detail::us_1917_rows, 8},
    {"fr pastry", "a French pastry treatise (Bilheux & Escoffier)", "fr", detail::fr_pastry_rows, 9},
    {"fr classic", "Larousse gastronomique", "fr", detail::fr_classic_rows, 9},
    {"fr home", "a French home-cooking page", "fr", detail::fr_home_rows, 4},
    // clang-format on
});

/// A stage of the consensus: what the published tables that have it say together.
struct consensus_stage {
    stage_row row{};                                     ///< the medians of their lower and of their upper ends
    double lowest_celsius = 0.0, highest_celsius = 0.0;  ///< their spread: the least lower, the greatest upper end
    int tables = 0;
};

namespace detail {
inline constexpr std::string_view computed = "computed";

constexpr double median_of(std::span<double> sorted) {
    for (std::size_t i = 1; i < sorted.size(); ++i)
        for (std::size_t j = i; j > 0 && sorted[j] < sorted[j - 1]; --j) std::swap(sorted[j], sorted[j - 1]);
    const std::size_t half = sorted.size() / 2;
    return sorted.size() % 2 == 1 ? sorted[half] : 0.5 * (sorted[half - 1] + sorted[half]);
}

/// Tables are told to speak of the same stage by its French name, which each gives: one of two.
constexpr consensus_stage consensus_on(std::string_view english, std::string_view french,
                                       std::string_view or_french) {
    std::array<double, 2 * published_stage_tables.size()> lows{}, highs{};
    std::size_t rows = 0;
    consensus_stage c{{english, french, 0.0, 0.0, computed}, 1.0e4, 0.0, 0};
    for (const auto& table : published_stage_tables) {
        const std::size_t before = rows;
        for (const auto& row : table.rows) {
            const std::string_view name = table.language == "fr" ? row.name : row.other_language;
            if (name != french && name != or_french) continue;
            lows[rows] = row.low_celsius;
            highs[rows] = row.high_celsius;
            ++rows;
            c.lowest_celsius = row.low_celsius < c.lowest_celsius ? row.low_celsius : c.lowest_celsius;
            c.highest_celsius = row.high_celsius > c.highest_celsius ? row.high_celsius : c.highest_celsius;
        }
        c.tables += rows > before ? 1 : 0;
    }
    c.row.low_celsius = median_of(std::span(lows).first(rows));
    c.row.high_celsius = median_of(std::span(highs).first(rows));
    return c;
}
}  // namespace detail

inline constexpr std::array<consensus_stage, 9> consensus_stages = {
    detail::consensus_on("thread", "filé", "filé"),
    detail::consensus_on("soft ball", "petit boulé", "petit boulé"),
    detail::consensus_on("firm ball", "boulé", "boulé"),
    detail::consensus_on("hard ball", "gros boulé", "grand boulé"),
    detail::consensus_on("soft crack", "petit cassé", "petit cassé"),
    detail::consensus_on("hard crack", "grand cassé", "grand cassé"),
    detail::consensus_on("light caramel", "caramel clair", "caramel clair"),
    detail::consensus_on("caramel", "caramel", "caramel brun"),
    detail::consensus_on("dark caramel", "caramel foncé", "caramel foncé")};

namespace detail {
inline constexpr auto consensus_rows = [] {
    std::array<stage_row, consensus_stages.size()> rows{};
    for (std::size_t i = 0; i < rows.size(); ++i) rows[i] = consensus_stages[i].row;
    return rows;
}();
}  // namespace detail

/// All tables; the first is the default, the last the consensus.
inline constexpr auto stage_tables = [] {
    std::array<stage_table, published_stage_tables.size() + 1> all{};
    for (std::size_t i = 0; i < published_stage_tables.size(); ++i) all[i] = published_stage_tables[i];
    all.back() = {"consensus", "medians of the published tables", "en", detail::consensus_rows, 6};
    return all;
}();

/// The table of that name, exact but for ASCII case and outer blanks; null if there is none.
constexpr const stage_table* find_stage_table(std::string_view name) {
    for (const auto& table : stage_tables)
        if (same_name(table.name, name)) return &table;
    return nullptr;
}

/// A single point stands for this much either way: one degree Fahrenheit, the resolution that it is printed to.
inline constexpr double stage_point_reach_celsius = 0.6;

/// How far a temperature lies outside what is printed for a stage; 0 within it.
constexpr double degrees_outside(const stage_row& row, double celsius) {
    if (celsius < row.low_celsius) return row.low_celsius - celsius;
    if (celsius > row.high_celsius) return celsius - row.high_celsius;
    return 0;
}

/// The row that holds the temperature, null where the table has none.  Where several do, the nearest wins, and of
/// equals the last: where two ranges touch, the upper stage has begun.
constexpr const stage_row* find_stage(const stage_table& table, double sea_level_celsius) {
    const stage_row* best = nullptr;
    for (const auto& row : table.rows) {
        const double reach = row.low_celsius == row.high_celsius ? stage_point_reach_celsius : 0;
        const double outside = degrees_outside(row, sea_level_celsius);
        if (outside > reach) continue;
        if (best == nullptr || outside <= degrees_outside(*best, sea_level_celsius)) best = &row;
    }
    return best;
}

/// Where something lies in a table: in a stage (lower and upper are its row), between two that follow each other,
/// below the first (lower is -1) or above one (upper is the count of rows).
struct stage_place {
    int lower = -1, upper = -1;  ///< both -1: nowhere, because there is no answer
    bool known() const { return upper >= 0; }
};

/// The place of a temperature of plain syrup at sea level; nowhere for NaN and in a table without rows.
constexpr stage_place find_stage_place(const stage_table& table, double sea_level_celsius) {
    if (sea_level_celsius != sea_level_celsius || table.rows.empty()) return {};
    if (const stage_row* row = find_stage(table, sea_level_celsius)) {
        const int at = static_cast<int>(row - table.rows.data());
        return {at, at};
    }
    int upper = 0;
    for (const auto& row : table.rows) upper += sea_level_celsius < row.low_celsius ? 0 : 1;
    return {upper - 1, upper};
}

/// The place of a kitchen's temperature and of what a table at sea level means by it: colours are read at the one,
/// consistencies at the other.
constexpr stage_place find_stage_place(const stage_table& table, double kitchen_celsius,
                                       double sea_level_celsius) {
    const auto colour = find_stage_place(table, kitchen_celsius);
    return colour.lower >= static_cast<int>(table.consistencies)
               ? colour
               : find_stage_place(consistencies_of(table), sea_level_celsius);
}

/// A place in words: the name of the stage, "between A and B", "below A" or "above Z"; "" for nowhere, and for
/// what is no place of this table.
inline std::string stage_text(const stage_table& table, stage_place place) {
    const int count = static_cast<int>(table.rows.size());
    const auto [lower, upper] = place;
    const auto name = [&](int row) { return std::string(table.rows[static_cast<std::size_t>(row)].name); };
    const bool in_table = lower >= -1 && lower < count && upper >= 0 && upper <= count;
    if (!in_table || count == 0) return {};
    if (lower == upper) return name(lower);
    if (upper == count) return lower < 0 ? std::string() : "above " + name(lower);
    if (upper != lower + 1) return {};
    return lower < 0 ? "below " + name(upper) : "between " + name(lower) + " and " + name(upper);
}

/// The stage at a temperature of plain syrup at sea level, in words.
inline std::string stage_name(const stage_table& table, double sea_level_celsius) {
    return stage_text(table, find_stage_place(table, sea_level_celsius));
}

namespace detail {
constexpr bool stage_tables_ascend() {
    for (const auto& table : stage_tables)
        for (std::size_t i = 0; i < table.rows.size(); ++i) {
            if (table.rows[i].low_celsius > table.rows[i].high_celsius) return false;
            if (i > 0 && table.rows[i - 1].high_celsius > table.rows[i].low_celsius) return false;
        }
    return true;
}
}  // namespace detail

static_assert(detail::stage_tables_ascend(), "the rows of each stage table ascend and do not overlap");

}  // namespace sirop::core
