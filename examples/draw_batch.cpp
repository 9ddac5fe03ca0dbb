// A batch as a figure: its boiling curve over the stages with the cook's path, and its set against the cook.
#include <fmt/format.h>
#include <sirop/sirop.h>

#include <fstream>
#include <iostream>
#include <optional>

#include "batch_figure.hpp"
#include "json/batch_file.hpp"
#include "kitchen_options.hpp"

using namespace sirop;

namespace {

int refused(const std::string& why) {
    fmt::print(stderr, "{}\n", why);
    return 2;
}

/// What the lines mean, under each panel.
void legend(svg::page& page, const figure::numbers& n, double left, double right, double top) {
    const auto sample = [&](double x, double y, const char* style) {
        page.polyline({{x, y}, {x + 44.0, y}}, style);
    };
    const auto hatched = [&](double x, double y) {
        page.box({x, y - 8.0}, {x + 44.0, y + 8.0}, "fill=\"url(#hatch)\" stroke=\"#000\" stroke-width=\"0.4\"");
        sample(x, y, figure::solid);
    };
    const auto words = [&](double x, double y, const std::string& text) { page.text({x + 54.0, y + 4.5}, text); };
    sample(left, top, figure::path);
    words(left, top, "the cook's path");
    page.dot({left + 44.0, top}, 6.0, "fill=\"#000\"");
    const double second = left + 172.0;
    hatched(second, top);
    words(second, top, "this batch, and its range");
    sample(left, top + 26.0, figure::dashed);
    words(left, top + 26.0, "plain sugar");
    for (const double bars : {top + 26.0, top + 46.0}) {
        page.box({second, bars - 6.0}, {second + 22.0, bars + 6.0}, figure::frame);
        page.box({second + 22.0, bars - 6.0}, {second + 44.0, bars + 6.0}, "fill=\"#000\"");
    }
    words(second, top + 26.0, "top bars: table \"" + n.table + "\", plain sugar here");
    words(second, top + 46.0, "lower bars: this batch, as stiff in cold water");
    hatched(right, top);
    words(right, top,
          fmt::format("when it is served at {}, and its range", figure::degrees(n.batch.serve_celsius)));
    if (std::isnan(n.batch.pour_celsius)) return;
    sample(right, top + 26.0, figure::dash_dot);
    words(right, top + 26.0,
          fmt::format("warmed to {}, where it shall pour", figure::degrees(n.batch.pour_celsius)));
    sample(right, top + 46.0, figure::guide);
    words(right, top + 46.0, "10 Pa s: up to there it pours from a jug");
}

std::string drawn(const figure::numbers& n) {
    constexpr double left = 92.0, left_end = 582.0, right = 672.0, right_end = 1092.0, top = 142.0, bottom = 634.0;
    svg::page page(1188.0, 840.0);
    const std::string title = n.batch.title.empty() ? "A batch without a title" : n.batch.title;
    page.text({40.0, 48.0}, title, "font-size=\"22\" font-weight=\"bold\"", 84.0);
    page.text({40.0, 72.0}, figure::kitchen_line(n));
    page.text({left, 106.0}, "Water left, and the stages", "font-size=\"16\" font-weight=\"bold\"");
    page.text({right, 106.0}, "Set at " + figure::degrees(n.batch.serve_celsius),
              "font-size=\"16\" font-weight=\"bold\"");
    figure::draw_water(page, n, left, left_end, top, bottom);
    figure::draw_set(page, n, right, right_end, top, bottom);
    legend(page, n, left, right, 706.0);
    page.line({40.0, 770.0}, {1148.0, 770.0}, figure::thin);
    page.text({40.0, 790.0},
              "Hot sugar sticks and burns deep, and water added to it bursts into steam: deep pan, long sleeves, "
              "liquids off the heat and in parts.");
    page.text(
        {40.0, 810.0},
        std::string("Ranges are the models' own; ingredients and weighing add to them.") +
            (n.at_target.status == core::grade::fine ? "" : "  Here a model is used outside its fitted range.") +
            "  sirop " + sirop_version());
    return page.file(
        title,
        fmt::format("Cooked to {} on the thermometer: {} % water left, {}; {} when it is served at {}.",
                    figure::degrees(n.batch.thermometer_celsius),
                    core::fixed(n.at_target.cooked.water_percent.value, 1), n.at_target.stage.by_consistency,
                    n.at_target.set.word, figure::degrees(n.batch.serve_celsius)));
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App app{"Draws a batch as SVG: water left and stages along the cook, and the set against it.",
                 "draw_batch"};
    std::string path, output = "-", name = "us 2004";
    app.add_option("batch", path, "The batch file, or - for standard input")->required();
    app.add_option("--output", output, "The SVG file to write, or - for standard output")->capture_default_str();
    app.add_option("--table", name, "The stage table to read; stage_chart --list names them")
        ->capture_default_str();
    app.set_version_flag("--version", std::string("sirop ") + sirop_version());
    app.footer(kitchen::cautions);
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    const auto* table = core::find_stage_table(name);
    if (table == nullptr) return refused("table: \"" + name + "\" is unknown; see stage_chart --list");
    const auto text = kitchen::read_all(path);
    if (!text)
        return refused("batch: cannot read \"" + path +
                       "\"; a path of a file, or - for standard input, is accepted");
    const auto batch = lib::read_batch(*text);
    if (!batch) return refused(lib::one_line(batch.why));
    const auto numbers = figure::numbers_of(*batch, *table);
    if (!numbers) return refused(lib::one_line(numbers.why));

    const auto file = drawn(*numbers);
    if (output == "-") {
        std::cout << file;
        return std::cout.flush() ? 0 : 1;
    }
    std::ofstream out(output, std::ios::binary);
    if (out && (out << file).flush()) return 0;
    fmt::print(stderr, "--output: cannot write \"{}\"; a path in a folder that exists is accepted\n", output);
    return 1;
}
