// To which temperature must this batch be cooked, to be what I want?  And how far may I miss it.
#include "question.hpp"

int main(int argc, char** argv) {
    CLI::App app{"The cook temperature for a wanted water, activity, Brix, viscosity, set or stage.", "cook_for"};
    app.footer(kitchen::cautions);
    std::string path;
    bool json = false;
    app.add_option("batch", path, "The batch file, or - for standard input; its cook temperature does not count")
        ->required();
    app.add_flag("--json", json, "Print one JSON object instead of the page");
    const question::wanted_options wanted(app);
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;
    return question::ask(path, {{"ask", "cook_for"}, {"wanted", wanted.wanted()}}, json);
}
