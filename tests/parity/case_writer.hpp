// What the cases are made with: JSON, and numbers drawn the same on every machine.
#pragma once

#include <sirop/sirop.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <nlohmann/json.hpp>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

namespace parity {

// --- JSON -------------------------------------------------------------------------------------------------------

inline std::string json(double x) {
    if (std::isnan(x)) return "null";
    if (std::isinf(x)) return x > 0.0 ? "1e999" : "-1e999";  // what every reader takes for infinity
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%.17g", x);
    return text.data();
}
inline std::string json(int x) {
    return std::to_string(x);
}
inline std::string json(std::size_t x) {
    return std::to_string(x);
}
inline std::string json(const char* text) {
    return text == nullptr ? "null" : nlohmann::json(text).dump();
}
inline std::string json(const std::string& text) {
    return json(text.c_str());
}
inline std::string json(const sirop_range& r) {
    return R"({"low": )" + json(r.low) + R"(, "high": )" + json(r.high) + "}";
}
inline std::string json(const sirop_estimate& e, bool with_status = false) {
    return R"({"value": )" + json(e.value) + R"(, "low": )" + json(e.low) + R"(, "high": )" + json(e.high) +
           (with_status ? R"(, "status": )" + json(e.status) : std::string()) + "}";
}
inline std::string json(const sirop_stage_place& p, bool with_status = false) {
    return R"({"lower": )" + json(p.lower) + R"(, "upper": )" + json(p.upper) +
           (with_status ? R"(, "status": )" + json(p.status) : std::string()) + "}";
}
inline std::string json(const sirop_graining& g, bool with_status = false) {
    return R"({"risk": )" + json(g.risk) + R"(, "sucrose_supersaturation": )" + json(g.sucrose_supersaturation) +
           R"(, "lactose_supersaturation": )" + json(g.lactose_supersaturation) +
           R"(, "crystallizable_percent": )" + json(g.crystallizable_percent) + R"(, "hindering_percent": )" +
           json(g.hindering_percent) + (with_status ? R"(, "status": )" + json(g.status) : std::string()) + "}";
}
/// Of structs with a status each element has its own.
template <class T>
std::string json(const std::vector<T>& list) {
    std::string out;
    for (const auto& one : list) {
        out += out.empty() ? "[" : ", ";
        if constexpr (requires { one.status; })
            out += json(one, true);
        else
            out += json(one);
    }
    return out.empty() ? "[]" : out + "]";
}

/// A text that C gets with its length.
struct sized_text {
    std::string text;
};
inline std::string json(const sized_text& t) {
    return json(t.text);
}

/// An argument or a result under its name in sirop.h.
template <class T>
struct named {
    const char* name;
    T value;
};
template <class T>
named(const char*, T) -> named<T>;

/// One mixture, or several one after the other.
struct masses {
    std::vector<double> grams;
    std::size_t components;
};

/// The members of an object, by name.
struct members {
    std::string text;
    template <class... Parts>
    explicit members(const Parts&... parts) {
        (add(parts), ...);
    }
    std::string object() const { return "{" + text + "}"; }

  private:
    template <class T>
    void add(const named<T>& one) {
        text += (text.empty() ? "" : ", ") + json(one.name) + ": " + json(one.value);
    }
    void add(const masses& m) {
        add(named{"grams", m.grams});
        add(named{"components", m.components});
    }
};

/// Two results of one call.
template <class A, class B>
struct both {
    named<A> first;
    named<B> second;
};
template <class A, class B>
std::string json(const both<A, B>& two) {
    return members(two.first, two.second).object();
}
/// n results and their statuses.
template <class T>
auto with_statuses(std::size_t n, const char* name, std::size_t each = 1) {
    return both<std::vector<int32_t>, std::vector<T>>{{"statuses", std::vector<int32_t>(n)},
                                                      {name, std::vector<T>(n * each)}};
}

/// What C gets for an argument.
template <class T>
auto in_c(const named<T>& one) {
    return std::tuple(one.value);
}
inline auto in_c(const named<std::string>& one) {
    return std::tuple(one.value.c_str());
}
inline auto in_c(const named<sized_text>& one) {
    return std::tuple(one.value.text.data(), one.value.text.size());
}
inline auto in_c(const named<std::vector<double>>& one) {
    return std::tuple(one.value.data());
}
inline auto in_c(const masses& m) {
    return std::tuple(m.grams.data(), m.components);
}

/// What C gets to write a result to.
template <class T>
auto out_c(T& result) {
    return std::tuple(&result);
}
template <class T>
auto out_c(std::vector<T>& results) {
    return std::tuple(results.data());
}
template <class A, class B>
auto out_c(both<A, B>& two) {
    return std::tuple_cat(out_c(two.first.value), out_c(two.second.value));
}

/// Prints cases and counts them.
struct printer {
    int printed = 0;
    void operator()(const char* call, const members& in, int status, const std::string& out,
                    const std::string& before = "") {
        std::printf(R"({"call": "%s", %s"in": %s, "status": %d, "out": %s})"
                    "\n",
                    call, before.c_str(), in.object().c_str(), status, out.c_str());
        ++printed;
    }
};

// --- drawing ----------------------------------------------------------------------------------------------------

constexpr std::size_t all_components = SIROP_COMPONENT_COUNT;

/// splitmix64 (Vigna).
class dice {
  public:
    std::uint64_t next() {
        std::uint64_t z = (state += 0x9E3779B97F4A7C15U);
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9U;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBU;
        return z ^ (z >> 31U);
    }
    double uniform(double low, double high) {
        return low + (high - low) * (static_cast<double>(next() >> 11U) * 0x1.0p-53);
    }
    std::size_t below(std::size_t n) { return static_cast<std::size_t>(next() % n); }

    /// A number between two bounds; one in thirty is beyond them, or not a number.
    double mostly(double low, double high) {
        const std::size_t kind = below(60);
        if (kind == 0) return std::nan("");
        if (kind == 1) return high + uniform(1.0, 1000.0);
        return uniform(low, high);
    }
    double pressure_hpa() { return below(3) == 0 ? 1013.25 : mostly(300.0, 1100.0); }

    /// How many components a program passes: mostly all, sometimes fewer, as one compiled earlier would.
    std::size_t components() { return below(4) == 0 ? 1 + below(all_components) : all_components; }

    /// A mixture: water and one to eight other components.  Now and then one that must be refused.
    std::vector<double> mixture(std::size_t components) {
        std::vector<double> grams(components, 0.0);
        const std::size_t kind = below(40);
        if (kind == 0) return grams;  // nothing at all
        grams[SIROP_WATER] = kind == 1 ? 0.0 : uniform(1.0, 100.0);
        for (std::size_t i = 1 + below(8); i > 0; --i) {
            const std::size_t at = below(components);
            grams[at] = uniform(0.0, 60.0);
        }
        if (kind == 2) grams[below(components)] = -1.0;
        if (kind == 3) grams[below(components)] = std::nan("");
        if (kind == 4) grams[below(components)] = 2.0e9;
        return grams;
    }

    /// n mixtures one after the other, in as many components as a program passes.
    masses mixtures(std::size_t n) {
        masses found{{}, components()};
        for (std::size_t i = 0; i < n; ++i) {
            const auto one = mixture(found.components);
            found.grams.insert(found.grams.end(), one.begin(), one.end());
        }
        return found;
    }

  private:
    std::uint64_t state = 20240229;
};

}  // namespace parity
