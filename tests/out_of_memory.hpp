// A program whose memory can be made to run out.  Include it in one file of the program: it replaces operator new.
#pragma once

#include <atomic>
#include <cstdlib>
#include <new>

namespace {

constexpr long plenty = -1;
std::atomic<long> allocations_left{plenty};

/// Memory is out after so many allocations, as long as this lives.
struct no_memory {
    explicit no_memory(long after = 0) { allocations_left = after; }
    ~no_memory() { allocations_left = plenty; }
    no_memory(const no_memory&) = delete;
    no_memory& operator=(const no_memory&) = delete;
};

}  // namespace

// Replaced for the whole program, so that the calls' answer to a lack of memory can be tested.  Not
// inline: g++ would take free for the wrong partner of new.
[[gnu::noinline]] void* operator new(std::size_t bytes) {
    const long left = allocations_left;
    if (left > 0) allocations_left = left - 1;
    void* got = left == 0 ? nullptr : std::malloc(bytes);
    if (got == nullptr) throw std::bad_alloc();
    return got;
}
[[gnu::noinline]] void operator delete(void* p) noexcept {
    std::free(p);
}
[[gnu::noinline]] void operator delete(void* p, std::size_t) noexcept {
    std::free(p);
}
