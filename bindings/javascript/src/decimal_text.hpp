// A double as decimal text and back, by exact integer arithmetic and without tables: the same characters as
// std::to_chars, which takes 114 kB of tables in the C++ run time for WebAssembly, and the same number as
// std::strtod, which brings the arithmetic of long double, 16 kB.  Some microseconds a number.
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
    explicit decimal(double x) : decimal(bits_of(x), 0) {}

    /// Half way between the double of these bits and the next larger one.
    static decimal above(std::uint64_t bits) { return decimal(bits, 1); }

    static std::uint64_t bits_of(double x) {
        std::uint64_t bits = 0;
        std::memcpy(&bits, &x, sizeof bits);
        return bits;
    }

    /// The digit that counts 10^place.
    int at(int place) const { return digit(place + decimals_); }

    /// The place of the first digit that is not 0, or 0 if there is none.
    int first() const {
        for (int i = static_cast<int>(used_) * digits_in_limb - 1; i >= 0; --i)
            if (digit(i) != 0) return i - decimals_;
        return 0;
    }

    /// The place behind which there are only zeros.
    int last() const { return -decimals_; }

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

    /// Of the double of these bits, and as many halves of its last bit more.
    decimal(std::uint64_t bits, unsigned halves) {
        const int exponent = static_cast<int>(bits >> 52U & 0x7FFU);
        std::uint64_t mantissa = bits & 0xFFFFFFFFFFFFFU;
        if (exponent != 0) mantissa |= std::uint64_t{1} << 52U;
        mantissa = 2 * mantissa + halves;
        const int power = (exponent == 0 ? 1 : exponent) - 1076;  // it is mantissa * 2^power

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

/// Below 0 if a is less than b, above 0 if it is more.
template <class A, class B>
int compare(const A& a, const B& b) {
    int place = a.first();
    if (place != b.first()) return place - b.first();
    const int last = a.last() < b.last() ? a.last() : b.last();
    for (; place > last && a.at(place) == b.at(place);) --place;
    return a.at(place) - b.at(place);
}

/// Whether a number rounds to a double beyond the one of these bits.
template <class Number>
bool rounds_above(const Number& number, std::uint64_t bits, const decimal& half_way) {
    const int order = compare(number, half_way);
    return order > 0 || (order == 0 && bits % 2 != 0);  // ties to the even one
}

/// The digits of a text such as "12.50e-3".
class numeral {
  public:
    explicit numeral(const char* text) {
        const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
        digits_ = text;
        for (; is_digit(*text); ++text) ++count_;
        whole_ = count_;
        if (*text == '.')
            for (++text; is_digit(*text); ++text) ++count_;
        lead_ = whole_ - 1;
        if (*text == 'e' || *text == 'E') {
            const char* at = text + 1;
            const bool minus = *at == '-';
            if (minus || *at == '+') ++at;
            int exponent = 0;
            for (; is_digit(*at); text = ++at)
                if (exponent < 10000000) exponent = 10 * exponent + (*at - '0');
            lead_ += minus ? -exponent : exponent;
        }
        end_ = text;
        first_ = lead_;
        while (first_ > last() && at(first_) == 0) --first_;
    }
    const char* end() const { return end_; }
    int at(int place) const {
        const int i = lead_ - place;
        return i < 0 || i >= count_ ? 0 : digits_[i < whole_ ? i : i + 1] - '0';
    }
    int first() const { return first_; }
    int last() const { return lead_ - count_ + 1; }

  private:
    const char *digits_, *end_;
    int count_ = 0, whole_ = 0, lead_ = 0, first_ = 0;
};

/// std::strtod(text, end) for a number of JSON.
inline double read_number(const char* text, const char** end) {
    const bool minus = *text == '-';
    const numeral number(minus ? text + 1 : text);
    *end = number.end();
    constexpr int most_digits = 17, exact_digits = 15, exact_power = 22, largest = 310, smallest = -326;
    const int top = number.first();
    double x = 0.0;
    if (number.at(top) != 0 && top >= smallest) {
        int place = top;
        for (; place >= number.last() && place > top - most_digits; --place) x = 10.0 * x + number.at(place);
        const int power = place + 1;
        const bool exact = top - power < exact_digits && power >= -exact_power && power <= exact_power;
        double ten = 1.0;
        for (int i = power < 0 ? -power : power; i > 0 && x < HUGE_VAL; --i) {
            ten *= 10.0;
            if (i % exact_power != 1) continue;  // the powers up to 10^22 have no rounding
            x = power < 0 ? x / ten : x * ten;
            ten = 1.0;
        }
        if (top > largest) x = HUGE_VAL;
        if (!exact && top <= largest) {  // some last bits off: find the nearest
            std::uint64_t bits = decimal::bits_of(x < HUGE_VAL ? x : 1.7976931348623157e308);
            constexpr std::uint64_t infinite = std::uint64_t{0x7FF} << 52U;
            while (bits < infinite && rounds_above(number, bits, decimal::above(bits))) ++bits;
            while (bits > 0 && !rounds_above(number, bits - 1, decimal::above(bits - 1))) --bits;
            std::memcpy(&x, &bits, sizeof x);
        }
    }
    return minus ? -x : x;
}

/// std::to_chars(first, last, x): the fewest characters that read back as the same number; with its exponent
/// always, as with std::chars_format::scientific, if asked.
inline std::to_chars_result write_shortest(char* first, char* last, double x, bool scientific = false) {
    pen out(first, last);
    if (begin(out, x)) return out.done();
    const decimal exact(x);
    decimal number = exact;
    int decimals = 0;  // of the scientific form
    if (x > 0.0) {
        const std::uint64_t bits = decimal::bits_of(x);
        const decimal low = decimal::above(bits - 1), high = decimal::above(bits);
        const auto reads_back = [&] {
            return rounds_above(number, bits - 1, low) && !rounds_above(number, bits, high);
        };
        const auto suffice = [&](int count) {
            const int place = exact.first() - count;
            number = exact;
            number.round_to(place);
            if (reads_back()) return true;
            // At a power of two the next one on the other side may do, though it lies further off.
            number = exact;
            number.cut_behind(place);
            number.add_at(place);
            return reads_back();
        };
        for (int enough = 16; decimals < enough;) {  // where fewer suffice, more do
            const int middle = (decimals + enough) / 2;
            if (suffice(middle))
                enough = middle;
            else
                decimals = middle + 1;
        }
        suffice(decimals);
    }
    while (decimals > 0 && number.at(number.first() - decimals) == 0) --decimals;
    const int top = number.first();
    const int behind_point = decimals - top > 0 ? decimals - top : 0;
    const int fixed_length = (top > 0 ? top : 0) + 1 + (behind_point > 0 ? 1 + behind_point : 0);
    const int exponent_length = top >= 100 || top <= -100 ? 5 : 4;
    const int scientific_length = 1 + (decimals > 0 ? 1 + decimals : 0) + exponent_length;
    if (scientific || fixed_length > scientific_length)
        put_scientific(out, number, decimals);
    else
        put_fixed(out, behind_point == 0 ? exact : number, behind_point);  // whole numbers in full
    return out.done();
}

}  // namespace sirop_wasm
