// An ingredient is not at hand: what takes its place, how much of it, and to which temperature is it cooked then?
#include "question.hpp"

int main(int argc, char** argv) {
    CLI::App app{"Replaces an ingredient and keeps set, sweetness and graining safety as near as possible.",
                 "swap_ingredient"};
    app.footer(kitchen::cautions);
    std::string path, replace;
    std::vector<std::string> by, may_change;
    bool json = false;
    app.add_option("batch", path, "The batch file, or - for standard input")->required();
    app.add_option("--replace", replace, "The ingredient by its name in the batch, or its place such as pan[1]")
        ->required();
    app.add_option("--by", by, "One to four ingredients of the pantry that take its place")
        ->required()
        ->expected(1, 4);
    app.add_option("--may-change", may_change, "Other ingredients of the batch whose grams may change");
    app.add_flag("--json", json, "Print one JSON object instead of the page");
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    question::json asked = {{"ask", "substitute"}, {"replace", replace}, {"by", by}};
    if (!may_change.empty()) asked["may_change"] = may_change;
    return question::ask(path, asked, json);
}
