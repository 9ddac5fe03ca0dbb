// The JSON value of the library: nlohmann's, in the order of insertion, with a destructor that needs no memory.
//
// nlohmann's destructor first lists what a value holds in a std::vector of values, so as not to recurse in a deep
// one.  Where memory has run out that would end the program, while the exception that says so is on its way out.
// Nothing here nests deeper than most_depth, so recursion is harmless: the list is replaced by one that destroys
// each value that it is given.  Objects are made by at of page.hpp: nlohmann's constructor from a list
// leaks where memory runs out.
#pragma once

#include <cstddef>
#include <exception>
#include <memory>
#include <nlohmann/json.hpp>
#include <utility>
#include <vector>

namespace sirop::lib {

/// Of nested objects and lists, in what is read.
inline constexpr std::size_t most_depth = 32;

/// The standard allocator under a name of ours, so that the vectors inside of a value are not the one replaced
/// below.
template <class T>
struct json_memory : std::allocator<T> {
    json_memory() = default;
    template <class U>
    json_memory(const json_memory<U>&) noexcept {}
    template <class U>
    struct rebind {
        using other = json_memory<U>;
    };
};

using json = nlohmann::basic_json<nlohmann::ordered_map, std::vector, std::string, bool, std::int64_t,
                                  std::uint64_t, double, json_memory>;

}  // namespace sirop::lib

/// What nlohmann's destructor lists values in, and nothing else may use.
template <>
class std::vector<sirop::lib::json> {
  public:
    using value_type = sirop::lib::json;
    void reserve(std::size_t) {}
    void push_back(value_type&& value) { const value_type destroyed = std::move(value); }
    bool empty() const { return true; }
    value_type& back() { std::terminate(); }  // of what is always empty: never called
    void pop_back() {}
};
