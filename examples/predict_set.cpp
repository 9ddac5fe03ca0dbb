// What will this batch be when it is cold?  Reads a batch file, prints a card to cook by, the whole report, or
// JSON.
#include <sirop/sirop.h>

#include "kitchen_options.hpp"

int main(int argc, char** argv) {
    CLI::App app{"What a syrup, caramel or sauce will be when it is cold, from a batch file.", "predict_set"};
    app.footer(kitchen::cautions());
    std::string path, table = "us 2004";
    bool json = false, full = false;
    std::int32_t width = 72;
    app.add_option("batch", path, "The batch file, or - for standard input")->required();
    auto* everything = app.add_flag("--full", full, "Print everything, not the card alone");
    app.add_flag("--json", json, "Print one JSON object")->excludes(everything);
    app.add_option("--width", width, "Characters at which the lines of the card wrap")
        ->check(kitchen::within(24.0, 200.0))
        ->excludes(everything)
        ->capture_default_str();
    app.add_option("--table", table, "The stage table to read; stage_chart --list names them")
        ->capture_default_str();
    app.set_version_flag("--version", std::string("sirop ") + sirop_version());
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    const auto batch = kitchen::read_all(path);
    if (!batch) return kitchen::cannot_read(path);
    if (sirop::core::find_stage_table(table) == nullptr) return kitchen::unknown_table(table);
    return kitchen::print_reply([&](char* out, std::size_t bytes, std::size_t* needed) {
        if (!json && !full)
            return sirop_predict_card(batch->data(), batch->size(), table.c_str(), width, out, bytes, needed);
        const auto predict = json ? sirop_predict_json : sirop_predict_report;
        return predict(batch->data(), batch->size(), table.c_str(), out, bytes, needed);
    });
}
