// What will this batch be when it is cold?  Reads a batch file, prints a report for the cook, or JSON.
#include <fmt/format.h>
#include <sirop/sirop.h>

#include <CLI/CLI.hpp>
#include <iostream>
#include <string>

#include "kitchen_options.hpp"

int main(int argc, char** argv) {
    CLI::App app{"What a syrup, caramel or sauce will be when it is cold, from a batch file.", "predict_set"};
    app.footer(kitchen::cautions);
    std::string path, table = "us 2004";
    bool json = false;
    app.add_option("batch", path, "The batch file, or - for standard input")->required();
    app.add_flag("--json", json, "Print one JSON object instead of the report");
    app.add_option("--table", table, "The stage table to read; stage_chart --list names them")
        ->capture_default_str();
    app.set_version_flag("--version", std::string("sirop ") + sirop_version());
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    const auto batch = kitchen::read_all(path);
    if (!batch) {
        fmt::print(stderr, "batch: cannot read \"{}\"; a path of a file, or - for standard input, is accepted\n",
                   path);
        return 2;
    }
    const auto predict = json ? sirop_predict_json : sirop_predict_report;
    std::string answer(65536, '\0');
    std::size_t needed = 0;
    auto status = predict(batch->data(), batch->size(), table.c_str(), answer.data(), answer.size(), &needed);
    if (status == SIROP_E_BUFFER) {
        answer.resize(needed);
        status = predict(batch->data(), batch->size(), table.c_str(), answer.data(), answer.size(), &needed);
    }
    if (status < 0) {
        const bool explained = status == SIROP_E_BATCH;
        const std::string what = status == SIROP_E_NAME
                                     ? "table: \"" + table + "\" is unknown; see stage_chart --list"
                                     : std::string(sirop_status_text(status));
        fmt::print(stderr, "{}\n", explained ? answer.c_str() : what.c_str());
        return 2;
    }
    std::cout << answer.c_str();
    return std::cout.flush() ? 0 : 1;
}
