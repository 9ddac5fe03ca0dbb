// The words of the set, by firmness.  Data, and how a word is found.
#pragma once

#include <array>
#include <cmath>
#include <string>
#include <string_view>

#include "../base/names.hpp"

namespace sirop::core {

/// One word of the set, from a firmness up to that of the next.  For a batch without a gel the firmness is its
/// viscosity; for one that is all gel it is 5 s times its modulus.
struct set_word {
    std::string_view word;
    double from_pa_s;
    std::string_view meaning;
    std::string_view mark;  ///< what everybody knows in this band; each is a batch of the tests
};

inline constexpr std::array<set_word, 8> set_words = {{
    {"thin", 0.0, "runs like milk or oil", "whole milk"},
    {"pourable", 0.1, "pours and runs off the spoon", "maple syrup"},
    {"ribbon", 2.0, "falls from the spoon in a ribbon", "honey"},
    {"mounding", 50.0, "mounds on the spoon and slumps within a minute or minutes, unless it is a gel",
     "dulce de leche"},
    {"soft set", 3.0e3, "a layer keeps its edge while it is served; flows over hours, unless it is a gel",
     "soft caramel of 12 % water"},
    {"chewy", 1.0e5, "holds a cut edge for hours; bends and chews", "caramel of 9 % water"},
    {"hard", 1.0e9, "hard to the bite; breaks when struck", "butterscotch of 5 % water"},
    {"glassy", 1.0e12, "a glass that snaps", "boiled sweet of 1.3 % water"},
}};

/// The word for a firmness in Pa s; the first for NaN.
constexpr const set_word& word_for(double firmness_pa_s) {
    const set_word* found = &set_words[0];
    for (const auto& w : set_words)
        if (firmness_pa_s >= w.from_pa_s) found = &w;
    return *found;
}

/// The word for a firmness by its logarithm, log10 of Pa s.
inline std::string word_of_log10(double log10_firmness) {
    return std::string(word_for(std::pow(10.0, log10_firmness)).word);
}

/// The word of that name, exact but for ASCII case and outer blanks; null if there is none.
constexpr const set_word* find_set_word(std::string_view name) {
    for (const auto& w : set_words)
        if (same_name(w.word, name)) return &w;
    return nullptr;
}

}  // namespace sirop::core
