// A batch as a card to print: an A5 sheet for the wall beside the stove.
#include "figure.hpp"
#include "figure/card_page.hpp"

using namespace sirop;

int main(int argc, char** argv) {
    CLI::App app{"Prints a batch as a card: an A5 page, black on white, as SVG.", "print_card"};
    std::string path, output = "-", name(core::stage_tables[0].name);
    app.add_option("batch", path, "The batch file, or - for standard input")->required();
    app.add_option("--output", output, "The SVG file to write, or - for standard output")->capture_default_str();
    app.add_option("--table", name, "The stage table to read; stage_chart --list names them")
        ->capture_default_str();
    app.footer(kitchen::cautions());
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    const auto* table = core::find_stage_table(name);
    if (table == nullptr) return kitchen::unknown_table(name);
    return kitchen::print_figure(path, output, [&](const core::batch& b) -> core::outcome<std::string> {
        const auto answer = core::predict_with_advice(b, *table);
        if (!answer) return answer.why;
        return figure::card_page(lib::card_of(b, *answer));
    });
}
