// An ingredient is not at hand: what takes its place, how much of it, and to which temperature is it cooked then?
#include "question.hpp"

int main(int argc, char** argv) {
    question::program app(
        "Replaces an ingredient and keeps set, sweetness and graining safety as near as possible.",
        "swap_ingredient");
    std::string replace;
    std::vector<std::string> by, may_change;
    app.add_option("--replace", replace, "The ingredient by its name in the batch, or its place such as pan[1]")
        ->required();
    app.add_option("--by", by, "One to four ingredients of the pantry that take its place")
        ->required()
        ->expected(1, 4);
    app.add_option("--may-change", may_change, "Other ingredients of the batch whose grams may change");
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    question::json asked = {{"ask", "substitute"}, {"replace", replace}, {"by", by}};
    if (!may_change.empty()) asked["may_change"] = may_change;
    return app.ask(asked);
}
