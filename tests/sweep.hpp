// Long sweeps over random or edge states: a fixed seed, and a count that a slow build may divide.
#pragma once

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <random>
#include <stdexcept>
#include <string_view>
#include <system_error>

namespace sirop_test {

/// How many states to try: the full count divided by the environment variable SIROP_SWEEP_DIVISOR (default 1), at
/// least 1.  Throws where the variable is not a whole number above 0.
inline std::size_t sweep(std::size_t full) {
    const char* text = std::getenv("SIROP_SWEEP_DIVISOR");
    if (text == nullptr) return full;
    const std::string_view digits = text;
    std::size_t divisor = 0;
    const auto result = std::from_chars(digits.data(), digits.data() + digits.size(), divisor);
    if (result.ec != std::errc() || result.ptr != digits.data() + digits.size() || divisor == 0)
        throw std::runtime_error("SIROP_SWEEP_DIVISOR is not a whole number above 0");
    return std::max<std::size_t>(1, full / divisor);
}

/// Random numbers that are the same with every standard library.
class random_numbers {
  public:
    explicit random_numbers(std::uint64_t seed) : bits_(seed) {}

    /// Uniform in [low, high).
    double between(double low, double high) {
        return low + (high - low) * (static_cast<double>(bits_() >> 11) * 0x1p-53);
    }
    /// Uniform in 0 .. count - 1.
    std::size_t below(std::size_t count) {
        return static_cast<std::size_t>(between(0.0, static_cast<double>(count)));
    }

  private:
    std::mt19937_64 bits_;
};

}  // namespace sirop_test
