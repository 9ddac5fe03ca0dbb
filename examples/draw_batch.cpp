// A batch as a figure: its boiling curve over the stages with the cook's path, and its set against the cook.
#include <sirop/sirop.h>

#include "figure/batch_figure.hpp"
#include "json/batch_file.hpp"
#include "kitchen_options.hpp"

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
    if (output != "-" && kitchen::same_file(path, output))
        return kitchen::refused("--output: \"" + output + "\" is the batch file; another path is accepted");
    const auto text = kitchen::read_all(path);
    if (!text) return kitchen::cannot_read(path);
    const auto batch = lib::read_batch(*text);
    if (!batch) return kitchen::refused(lib::one_line(batch.why));
    const auto drawn = figure::figure_of(*batch, *table);
    if (!drawn) return kitchen::refused(lib::one_line(drawn.why));
    return output == "-" ? kitchen::print(*drawn) : kitchen::write_file(output, *drawn);
}
