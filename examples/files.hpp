// What the programs read and write, and their exit status: 0, 2 for a refusal, 3 if the answer could not be
// written.
#pragma once

#include <fmt/format.h>
#include <sirop/sirop.h>

#include <sirop/base/plain_text.hpp>

#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <optional>
#include <string>

namespace kitchen {

/// An answer while it is put together.
struct answer {
    std::string text;
    template <class... Values>
    void print(fmt::format_string<Values...> format, Values&&... values) {
        fmt::format_to(std::back_inserter(text), format, std::forward<Values>(values)...);
    }
};

/// A refusal: one line on standard error, whatever the words that it repeats hold.
inline int refused(const std::string& why) {
    std::fprintf(stderr, "%s\n", sirop::core::escaped(why).c_str());
    return 2;
}

inline int not_written(const std::string& what, const std::string& why) {
    std::fprintf(stderr, "%s: cannot be written (%s)\n", sirop::core::escaped(what).c_str(), why.c_str());
    return 3;
}

/// Writes all of an answer to an open file.
inline bool write_all(std::FILE* to, const std::string& text) {
    return std::fwrite(text.data(), 1, text.size(), to) == text.size() && std::fflush(to) == 0;
}

/// An answer on standard output.
inline int print(const std::string& text) {
    return write_all(stdout, text) ? 0 : not_written("standard output", std::strerror(errno));
}

/// Whether an output is the file that was read: by its path, a link, or standard input.
inline bool same_file(const std::string& input, const std::string& output) {
    std::error_code none;
    return std::filesystem::equivalent(input == "-" ? "/dev/stdin" : input, output, none);
}

/// An answer in a file: written beside it and moved over it, so that nobody finds half of one.  What is no file,
/// such as a device, is written to; a link is followed.
inline int write_file(const std::string& path, const std::string& text) {
    namespace fs = std::filesystem;
    std::error_code problem;
    const bool exists = fs::exists(path, problem);
    const bool in_place = exists && !fs::is_regular_file(path, problem);
    const fs::path target = exists && !in_place ? fs::canonical(path, problem) : fs::path(path);
    fs::path beside = target;
    std::FILE* file = nullptr;
    errno = 0;
    if (in_place) {
        file = std::fopen(path.c_str(), "wb");
    } else {
        for (int i = 0; file == nullptr && i < 100 && (i == 0 || errno == EEXIST); ++i) {
            beside = target.string() + ".part" + std::to_string(i);
            file = std::fopen(beside.string().c_str(), "wbx");  // never over another file
        }
    }
    if (file == nullptr) return not_written("\"" + path + "\"", std::strerror(errno));
    const bool whole = write_all(file, text);
    std::string why = std::strerror(errno);
    if (std::fclose(file) == 0 && whole) {
        if (in_place) return 0;
        if (exists) fs::permissions(beside, fs::status(target, problem).permissions(), problem);
        fs::rename(beside, target, problem);
        if (!problem) return 0;
        why = problem.message();
    }
    if (!in_place) fs::remove(beside, problem);
    return not_written("\"" + path + "\"", why);
}

/// Bytes of a file or, for "-", of standard input.  A little more than the limit is enough to be refused for size.
inline std::optional<std::string> read_all(const std::string& path) {
    constexpr std::size_t most = 1048576 + 1;
    std::ifstream file;
    if (path != "-") {
        file.open(path, std::ios::binary);
        if (!file) return std::nullopt;
    }
    std::istream& in = path == "-" ? std::cin : file;
    std::string text(most, '\0');
    in.read(text.data(), static_cast<std::streamsize>(most));
    text.resize(static_cast<std::size_t>(in.gcount()));
    if (in.bad()) return std::nullopt;
    return text;
}

inline int cannot_read(const std::string& path) {
    return refused("batch: cannot read \"" + path + "\"; a path of a file, or - for standard input, is accepted");
}

inline int unknown_table(const std::string& name) {
    return refused("table: \"" + name + "\" is unknown; see stage_chart --list");
}

/// Shows the text that a function of the C API writes, on standard output if nothing else is said, or prints why
/// it refuses.  The exit status.
template <class Call, class Show = int (*)(const std::string&)>
int print_reply(const Call& call, const Show& show = print) {
    std::string text(65536, '\0');
    std::size_t needed = 0;
    auto status = call(text.data(), text.size(), &needed);
    if (needed > text.size()) {
        text.resize(needed);
        status = call(text.data(), text.size(), &needed);
    }
    text.resize(needed == 0 ? 0 : needed - 1);
    if (status == SIROP_E_BATCH) return refused(text);
    return status < 0 ? refused(sirop_status_text(status)) : show(text);
}

}  // namespace kitchen
