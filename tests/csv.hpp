// A small reader for the published data in tests/data: comma-separated, a first line of column names, lines that
// start with # skipped, fields in double quotes where they hold a comma (a quote within is doubled).
#pragma once

#include <charconv>
#include <cstddef>
#include <fstream>
#include <map>
#include <stdexcept>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

namespace sirop_test {

class csv_row {
  public:
    csv_row(std::map<std::string, std::string> fields, std::string place)
        : fields_(std::move(fields)), place_(std::move(place)) {}

    /// The field as written; throws where the file has no such column.
    const std::string& text(const std::string& column) const {
        const auto found = fields_.find(column);
        if (found == fields_.end()) throw std::runtime_error(place_ + ": no column " + column);
        return found->second;
    }

    /// Whether the column exists and its field is not empty.
    bool has(const std::string& column) const {
        const auto found = fields_.find(column);
        return found != fields_.end() && !found->second.empty();
    }

    /// The field as a number, whatever the locale; throws where it is anything else.
    double number(const std::string& column) const {
        const std::string& field = text(column);
        double value = 0;
        const auto result = std::from_chars(field.data(), field.data() + field.size(), value);
        if (result.ec != std::errc() || result.ptr != field.data() + field.size())
            throw std::runtime_error(place_ + ": " + column + " is not a number: '" + field + "'");
        return value;
    }

    /// File and line, for messages.
    const std::string& place() const { return place_; }

  private:
    std::map<std::string, std::string> fields_;
    std::string place_;
};

struct csv_table {
    std::vector<std::string> columns;
    std::vector<csv_row> rows;
};

inline std::vector<std::string> split_csv_line(const std::string& line) {
    std::vector<std::string> fields(1);
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const char c = line[i];
        if (quoted && c == '"' && i + 1 < line.size() && line[i + 1] == '"') {
            fields.back() += '"';
            ++i;
        } else if (c == '"') {
            quoted = !quoted;
        } else if (c == ',' && !quoted) {
            fields.emplace_back();
        } else if (c != '\r') {
            fields.back() += c;
        }
    }
    if (quoted) throw std::runtime_error("unclosed quote: " + line);
    return fields;
}

/// Reads tests/data/<file_name>.  Throws where the file is missing or empty, or a row has not the header's
/// columns.
inline csv_table read_csv(const std::string& file_name) {
    const std::string path = std::string(SIROP_TEST_DATA) + "/" + file_name;
    std::ifstream file(path, std::ios::binary);
    if (!file) throw std::runtime_error("cannot open " + path);
    csv_table table;
    std::string line;
    for (int number = 1; std::getline(file, line); ++number) {
        if (line.empty() || line == "\r" || line.front() == '#') continue;
        std::vector<std::string> fields = split_csv_line(line);
        if (table.columns.empty()) {
            table.columns = std::move(fields);
            continue;
        }
        const std::string place = file_name + ":" + std::to_string(number);
        if (fields.size() != table.columns.size())
            throw std::runtime_error(place + ": " + std::to_string(fields.size()) + " fields, the header has " +
                                     std::to_string(table.columns.size()));
        std::map<std::string, std::string> named;
        for (std::size_t i = 0; i < fields.size(); ++i) named[table.columns[i]] = std::move(fields[i]);
        table.rows.emplace_back(std::move(named), place);
    }
    if (table.rows.empty()) throw std::runtime_error(path + " holds no rows");
    return table;
}

}  // namespace sirop_test
