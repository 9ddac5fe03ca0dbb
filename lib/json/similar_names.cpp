#include <algorithm>
#include <vector>

#include "json/batch_file.hpp"

namespace sirop::lib {

namespace {

constexpr std::size_t most_suggested = 4, longest_name = 100;
constexpr double least_likeness = 0.5;  ///< our choice, as are the weights below

/// Words that say nothing of which ingredient it is.
constexpr std::string_view fillers[] = {"de",   "of",   "the",   "la", "le",   "du",      "des",  "au",
                                        "aux",  "in",   "fresh", "en", "pure", "organic", "fine", "and",
                                        "good", "some", "a",     "et", "with", "quality", "g",    "d"};

/// The letters of Latin-1 and the ligature oe, as cooks type them without accents.
std::string without_accents(std::string_view text) {
    constexpr std::string_view plain =
        "aaaaaaaceeeeiiiidnooooo.ouuuuyts";  // U+00C0 to U+00DF, and again from U+00E0
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const auto next = i + 1 < text.size() ? static_cast<unsigned char>(text[i + 1]) : 0U;
        if (byte == 0xC3 && next >= 0x80 && next < 0xC0) {
            out += plain[next & 0x1FU];
            ++i;
        } else if (byte == 0xC5 && (next == 0x92 || next == 0x93)) {
            out += "oe";
            ++i;
        } else {
            out += core::ascii_lower(text[i]);
        }
    }
    return out;
}

/// The words of a name that say which ingredient it is, without the s of the plural.
std::vector<std::string> telling_words(std::string_view name) {
    std::vector<std::string> all, telling;
    bool inside = false;
    for (const char c : without_accents(name)) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (letter && !inside) all.emplace_back();
        if (letter) all.back() += c;
        inside = letter;
    }
    for (auto& word : all) {
        if (std::find(std::begin(fillers), std::end(fillers), word) != std::end(fillers)) continue;
        if (word.size() > 3 && word.back() == 's') word.pop_back();
        telling.push_back(word);
    }
    return telling.empty() ? all : telling;
}

/// Likeness of two words, 0 to 1: by the letters left out, put in, changed or swapped with the next.
double likeness(const std::string& a, const std::string& b) {
    std::vector<std::size_t> before, last(b.size() + 1), row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0U : 1U)});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], before[j - 2] + 1);
        }
        before = last;
        last = row;
    }
    return 1.0 - static_cast<double>(last[b.size()]) /
                     static_cast<double>(std::max<std::size_t>({a.size(), b.size(), 1}));
}

/// By how much of one name's letters stands in the other, word by word.
double found_in(const std::vector<std::string>& one, const std::vector<std::string>& other) {
    double letters = 0.0, found = 0.0;
    for (const auto& word : one) {
        double best = 0.0;
        for (const auto& candidate : other) best = std::max(best, likeness(word, candidate));
        letters += static_cast<double>(word.size());
        found += best < 0.6 ? 0.0 : best * static_cast<double>(word.size());
    }
    return letters > 0.0 ? found / letters : 0.0;
}

std::string joined(const std::vector<std::string>& words) {
    std::string all;
    for (const auto& word : words) all += word;
    return all;
}

}  // namespace

std::string similar_names(std::string_view name) {
    std::string list;
    if (name.size() > longest_name) return list;
    const auto asked = telling_words(name);
    struct candidate {
        std::string_view ingredient;
        double score;
        std::size_t place;
    };
    std::vector<candidate> best;
    const auto weigh = [&](std::string_view known_as, std::string_view ingredient) {
        const auto words = telling_words(known_as);
        const double score = std::max(0.65 * found_in(asked, words) + 0.35 * found_in(words, asked),
                                      likeness(joined(asked), joined(words)));
        if (score < least_likeness) return;
        const auto seen =
            std::find_if(best.begin(), best.end(), [&](const auto& c) { return c.ingredient == ingredient; });
        if (seen == best.end())
            best.push_back({ingredient, score, best.size()});
        else
            seen->score = std::max(seen->score, score);
    };
    // what is only suggested comes first: of equals the usual one wins
    for (const auto& other : core::trade_names)
        if (other.only_suggested) weigh(other.name, other.ingredient);
    for (const auto& row : core::pantry) weigh(row.name, row.name);
    for (const auto& other : core::trade_names) weigh(other.name, other.ingredient);
    std::sort(best.begin(), best.end(), [](const auto& a, const auto& b) {
        return a.score != b.score ? a.score > b.score : a.place < b.place;
    });
    for (std::size_t i = 0; i < std::min(best.size(), most_suggested); ++i)
        add_name(list, in_quotes(best[i].ingredient));
    return list;
}

}  // namespace sirop::lib
