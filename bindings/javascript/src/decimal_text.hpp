// A double as decimal text, from exact integer arithmetic and without tables: the same characters as
// std::to_chars, which takes 114 kB of tables in the C++ run time for WebAssembly.  Some microseconds a number.
#pragma once

#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <cstring>

namespace sirop_wasm {

/// A finite double that is not negative, in full: up to 309 digits before the point and 1074 after it.
class decimal {
  public:
    explicit decimal(double x) {
        std::uint64_t bits = 0;
        std::memcpy(&bits, &x, sizeof bits);
        const int exponent = static_cast<int>(bits >> 52U & 0x7FFU);
        std::uint64_t mantissa = bits & 0xFFFFFFFFFFFFFU;
        if (exponent != 0) mantissa |= std::uint64_t{1} << 52U;
        const int power = (exponent == 0 ? 1 : exponent) - 1075;  // x = mantissa * 2^power

        // The digits are those of mantissa * 2^power, or of mantissa * 5^-power with -power decimals.
        while (mantissa != 0) {
            limbs_[used_++] = static_cast<std::uint32_t>(mantissa % base);
            mantissa /= base;
        }
        if (used_ == 0) return;
        for (int i = 0; i < power; ++i) multiply(2);
        for (int i = 0; i < -power; ++i) multiply(5);
        decimals_ = power < 0 ? -power : 0;
    }

    /// The digit that counts 10^place.
    int at(int place) const { return digit(place + decimals_); }

    /// The place of the first digit that is not 0, or 0 if there is none.
    int first() const {
        for (int i = static_cast<int>(used_) * digits_in_limb - 1; i >= 0; --i)
            if (digit(i) != 0) return i - decimals_;
        return 0;
    }

    /// Drops what stands behind a place.
    void cut_behind(int place) {
        for (int i = 0; i < place + decimals_; ++i) set(i, 0);
    }

    /// Adds 10^place.
    void add_at(int place) {
        int i = place + decimals_;
        for (; digit(i) == 9; ++i) set(i, 0);
        set(i, digit(i) + 1);
    }

    /// Rounds to a place, ties to the even digit.
    void round_to(int place) {
        const int behind = place + decimals_ - 1;
        const int next = digit(behind);
        bool more = false;
        for (int i = 0; i < behind && !more; ++i) more = digit(i) != 0;
        const bool up = next > 5 || (next == 5 && (more || at(place) % 2 != 0));
        cut_behind(place);
        if (up) add_at(place);
    }

  private:
    static constexpr std::uint32_t base = 1000000000;
    static constexpr int digits_in_limb = 9;
    std::array<std::uint32_t, 128> limbs_{};  // the lowest first; 767 digits at most, or 1126 with leading zeros
    std::size_t used_ = 0;
    int decimals_ = 0;

    static std::uint32_t unit(int i) {
        std::uint32_t power = 1;
        for (int n = i % digits_in_limb; n > 0; --n) power *= 10;
        return power;
    }
    int digit(int i) const {
        const auto limb = static_cast<std::size_t>(i / digits_in_limb);
        return i < 0 || limb >= used_ ? 0 : static_cast<int>(limbs_[limb] / unit(i) % 10);
    }
    void set(int i, int value) {
        const auto limb = static_cast<std::size_t>(i / digits_in_limb);
        if (i < 0 || limb >= limbs_.size()) return;
        if (limb >= used_) {
            if (value == 0) return;
            used_ = limb + 1;
        }
        limbs_[limb] -= static_cast<std::uint32_t>(digit(i)) * unit(i);
        limbs_[limb] += static_cast<std::uint32_t>(value) * unit(i);
    }
    void multiply(std::uint32_t factor) {
        std::uint64_t carry = 0;
        for (std::size_t i = 0; i < used_; ++i) {
            carry += std::uint64_t{limbs_[i]} * factor;
            limbs_[i] = static_cast<std::uint32_t>(carry % base);
            carry /= base;
        }
        if (carry != 0) limbs_[used_++] = static_cast<std::uint32_t>(carry);
    }
};

/// Writes into a buffer and remembers whether it was large enough.
class pen {
  public:
    pen(char* first, char* last) : at_(first), last_(last) {}
    void put(char c) {
        full_ = full_ || at_ == last_;
        if (!full_) *at_++ = c;
    }
    void put(const char* text) {
        while (*text != '\0') put(*text++);
    }
    void put_digit(int digit) { put(static_cast<char>('0' + digit)); }
    std::to_chars_result done() const {
        return full_ ? std::to_chars_result{last_, std::errc::value_too_large}
                     : std::to_chars_result{at_, std::errc{}};
    }

  private:
    char *at_, *last_;
    bool full_ = false;
};

/// Writes the sign; true if the rest is done too, because x is not finite.
inline bool begin(pen& out, double& x) {
    if (std::signbit(x)) {
        out.put('-');
        x = -x;
    }
    if (x < HUGE_VAL) return false;
    out.put(x == HUGE_VAL ? "inf" : "nan");
    return true;
}

inline void put_fixed(pen& out, const decimal& number, int decimals) {
    const int first = number.first();
    for (int place = first > 0 ? first : 0; place >= -decimals; --place) {
        if (place == -1) out.put('.');
        out.put_digit(number.at(place));
    }
}

inline void put_scientific(pen& out, const decimal& number, int decimals) {
    const int first = number.first();
    for (int i = 0; i <= decimals; ++i) {
        if (i == 1) out.put('.');
        out.put_digit(number.at(first - i));
    }
    out.put(first < 0 ? "e-" : "e+");
    const int exponent = first < 0 ? -first : first;
    if (exponent >= 100) out.put_digit(exponent / 100);
    out.put_digit(exponent / 10 % 10);
    out.put_digit(exponent % 10);
}

/// std::to_chars(first, last, x, std::chars_format::fixed, decimals)
inline std::to_chars_result write_fixed(char* first, char* last, double x, int decimals) {
    pen out(first, last);
    if (begin(out, x)) return out.done();
    decimal number(x);
    number.round_to(-decimals);
    put_fixed(out, number, decimals);
    return out.done();
}

inline bool reads_back(const decimal& number, int decimals, double x) {
    std::array<char, 40> text{};
    pen out(text.data(), text.data() + text.size() - 1);
    put_scientific(out, number, decimals);
    return std::strtod(text.data(), nullptr) == x;
}

/// std::to_chars(first, last, x): the fewest characters that read back as the same number.
inline std::to_chars_result write_shortest(char* first, char* last, double x) {
    pen out(first, last);
    if (begin(out, x)) return out.done();
    const decimal exact(x);
    decimal number = exact;
    int decimals = 0;  // of the scientific form
    for (; decimals < 17; ++decimals) {
        const int place = exact.first() - decimals;
        number = exact;
        number.round_to(place);
        if (reads_back(number, decimals, x)) break;
        // At a power of two the next one on the other side may do, though it lies further off.
        number = exact;
        number.cut_behind(place);
        number.add_at(place);
        if (reads_back(number, decimals, x)) break;
    }
    while (decimals > 0 && number.at(number.first() - decimals) == 0) --decimals;
    const int top = number.first();
    const int behind_point = decimals - top > 0 ? decimals - top : 0;
    const int fixed_length = (top > 0 ? top : 0) + 1 + (behind_point > 0 ? 1 + behind_point : 0);
    const int exponent_length = top >= 100 || top <= -100 ? 5 : 4;
    const int scientific_length = 1 + (decimals > 0 ? 1 + decimals : 0) + exponent_length;
    if (fixed_length > scientific_length)
        put_scientific(out, number, decimals);
    else
        put_fixed(out, behind_point == 0 ? exact : number, behind_point);  // whole numbers in full
    return out.done();
}

}  // namespace sirop_wasm
