// For the WebAssembly build only: what makes the module stand alone and small.
#include <cerrno>
#include <cmath>
#include <cstdarg>
#include <cstddef>
#include <cstring>

#include "decimal_text.hpp"

// The run time would print before it gives up; here it just stops the module, which the loader turns into an
// error.
[[noreturn]] void std::__libcpp_verbose_abort(const char*, ...) {
    __builtin_trap();
}

extern "C" [[noreturn]] void abort_message(const char*, ...);
extern "C" [[noreturn]] void abort_message(const char*, ...) {
    __builtin_trap();
}

// The one format of the JSON parser, for a control character in a message.  The run time's own would bring 8 kB.
extern "C" int snprintf(char* out, std::size_t room, const char* format, ...) {
    if (std::strcmp(format, "<U+%.4X>") != 0 || room < 9) __builtin_trap();
    va_list arguments;
    va_start(arguments, format);
    const unsigned code = va_arg(arguments, unsigned);
    va_end(arguments);
    char* at = out;
    for (const char c : {'<', 'U', '+'}) *at++ = c;
    for (int i = 0; i < 4; ++i) *at++ = "0123456789ABCDEF"[(code >> (12 - 4 * i)) & 15U];
    *at++ = '>';
    *at = '\0';
    return static_cast<int>(at - out);
}

// The three conversions that sirop uses.  With them the run time's own, and its tables, stay out of the module; a
// fourth overload in use would show as a symbol defined twice.
std::to_chars_result std::to_chars(char* first, char* last, double x) {
    return sirop_wasm::write_shortest(first, last, x);
}

std::to_chars_result std::to_chars(char* first, char* last, double x, chars_format format) {
    if (format != chars_format::scientific) __builtin_trap();  // sirop writes no other
    return sirop_wasm::write_shortest(first, last, x, true);
}

std::to_chars_result std::to_chars(char* first, char* last, double x, chars_format format, int decimals) {
    if (format != chars_format::fixed) __builtin_trap();  // sirop writes no other
    return sirop_wasm::write_fixed(first, last, x, decimals);
}

// How the JSON reader reads numbers.  The run time keeps the other readers of whole numbers beside those two, so
// they are here too; nothing calls them.
extern "C" {
double strtod(const char* text, char** end) {
    const char* stopped = nullptr;
    const double x = sirop_wasm::read_number(text, &stopped);
    *end = const_cast<char*>(stopped);
    return x;
}
unsigned long long strtoull(const char* text, char** end, int) {
    unsigned long long x = 0;
    for (; *text >= '0' && *text <= '9'; ++text) {
        const auto digit = static_cast<unsigned>(*text - '0');
        if (__builtin_mul_overflow(x, 10U, &x) || __builtin_add_overflow(x, digit, &x)) errno = ERANGE;
    }
    *end = const_cast<char*>(text);
    return x;
}
long long strtoll(const char* text, char** end, int) {  // with its minus sign
    const unsigned long long x = strtoull(text + 1, end, 10);
    if (x > 0x7FFFFFFFFFFFFFFFU) errno = ERANGE;
    return static_cast<long long>(0 - x);
}
long strtol(const char*, char**, int) {
    __builtin_trap();
}
unsigned long strtoul(const char*, char**, int) {
    __builtin_trap();
}
float strtof(const char*, char**) {
    __builtin_trap();
}
long double strtold(const char*, char**) {
    __builtin_trap();
}
}

// The module imports nothing, so it has no files.  The C run time holds code that would write to one before it
// gives up; it is told that there is no such file.  These are the names and the error number of WASI's interface.
namespace {
constexpr int no_such_file = 8;
}

extern "C" {
int __imported_wasi_snapshot_preview1_fd_write(int, int, int, int);
int __imported_wasi_snapshot_preview1_fd_write(int, int, int, int) {
    return no_such_file;
}
int __imported_wasi_snapshot_preview1_fd_seek(int, long long, int, int);
int __imported_wasi_snapshot_preview1_fd_seek(int, long long, int, int) {
    return no_such_file;
}
int __imported_wasi_snapshot_preview1_fd_close(int);
int __imported_wasi_snapshot_preview1_fd_close(int) {
    return no_such_file;
}
}

// sirop raises positive numbers only, to powers that leave exp and log within 1e-14 of the run time's own pow,
// whose tables would bring 5 kB.
extern "C" double pow(double x, double y) {
    if (!(x > 0.0)) return x == 0.0 && y > 0.0 ? 0.0 : __builtin_nan("");
    return std::exp(y * std::log(x));
}

// Memory: blocks of the powers of two, each kind kept in a list of its own when it is freed.  A module that
// answers one question after another needs no more, and the run time's own allocator would bring 9 kB.
namespace {

struct block {
    std::size_t kind;  ///< of 2^kind bytes, this header included
    block* next;       ///< of the free ones
};
constexpr std::size_t header = 16, least_kind = 5, kinds = 31, page = 65536;
block* free_blocks[kinds];
std::size_t next_byte, end_byte;

}  // namespace

extern "C" {
void* malloc(std::size_t bytes) {
    std::size_t kind = least_kind;
    while (kind < kinds && (std::size_t{1} << kind) < bytes + header) ++kind;
    if (kind >= kinds || bytes + header < bytes) return nullptr;
    block* b = free_blocks[kind];
    if (b != nullptr) {
        free_blocks[kind] = b->next;
    } else {
        const std::size_t size = std::size_t{1} << kind;
        if (end_byte - next_byte < size) {
            const std::size_t pages = (size + page - 1) / page;
            const std::size_t from = __builtin_wasm_memory_grow(0, pages);
            if (from == static_cast<std::size_t>(-1)) return nullptr;
            if (from * page != end_byte) next_byte = from * page;  // else it goes on where it ended
            end_byte = (from + pages) * page;
        }
        b = reinterpret_cast<block*>(next_byte);
        next_byte += size;
        b->kind = kind;
    }
    return reinterpret_cast<char*>(b) + header;
}

void free(void* user) {
    if (user == nullptr) return;
    auto* b = reinterpret_cast<block*>(static_cast<char*>(user) - header);
    b->next = free_blocks[b->kind];
    free_blocks[b->kind] = b;
}

void* realloc(void* user, std::size_t bytes) {
    void* moved = malloc(bytes);
    if (moved == nullptr || user == nullptr) return moved;
    const auto* b = reinterpret_cast<const block*>(static_cast<const char*>(user) - header);
    const std::size_t held = (std::size_t{1} << b->kind) - header;
    std::memcpy(moved, user, held < bytes ? held : bytes);
    free(user);
    return moved;
}

void* calloc(std::size_t count, std::size_t size) {
    if (size != 0 && count > static_cast<std::size_t>(-1) / size) return nullptr;
    void* made = malloc(count * size);
    return made == nullptr ? nullptr : std::memset(made, 0, count * size);
}

// Every block is at a multiple of 16; nothing here asks for more.
void* aligned_alloc(std::size_t alignment, std::size_t bytes) {
    return alignment <= 16 ? malloc(bytes) : nullptr;
}

int posix_memalign(void** made, std::size_t alignment, std::size_t bytes) {
    constexpr int no_memory = 12;
    *made = aligned_alloc(alignment, bytes);
    return *made == nullptr ? no_memory : 0;
}
}
