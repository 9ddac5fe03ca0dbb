// A batch as a figure: its boiling curve over the stages with the cook's path, and its set against the cook.
#include "figure.hpp"
#include "figure/batch_figure.hpp"

using namespace sirop;

int main(int argc, char** argv) {
    CLI::App app{"Draws a batch as SVG: water left and stages along the cook, and the set against it.",
                 "draw_batch"};
    std::string path, output = "-", name = "us 2004";
    app.add_option("batch", path, "The batch file, or - for standard input")->required();
    app.add_option("--output", output, "The SVG file to write, or - for standard output")->capture_default_str();
    app.add_option("--table", name, "The stage table to read; stage_chart --list names them")
        ->capture_default_str();
    app.set_version_flag("--version", std::string("sirop ") + sirop_version());
    app.footer(kitchen::cautions());
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    const auto* table = core::find_stage_table(name);
    if (table == nullptr) return kitchen::unknown_table(name);
    return kitchen::print_figure(path, output, [&](const core::batch& b) { return figure::figure_of(b, *table); });
}
