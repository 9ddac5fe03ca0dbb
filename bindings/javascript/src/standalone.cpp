// For the WebAssembly build only: what makes the module stand alone and small.
#include "decimal_text.hpp"

// The two conversions that sirop uses.  With them the run time's own, and its tables, stay out of the module; a
// third overload in use would show as a symbol defined twice.
std::to_chars_result std::to_chars(char* first, char* last, double x) {
    return sirop_wasm::write_shortest(first, last, x);
}

std::to_chars_result std::to_chars(char* first, char* last, double x, chars_format format, int decimals) {
    if (format != chars_format::fixed) __builtin_trap();  // sirop writes no other
    return sirop_wasm::write_fixed(first, last, x, decimals);
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
