// It went too far, or not far enough: what do I stir in, or how far do I boil on?
#include "question.hpp"

int main(int argc, char** argv) {
    question::program app("What brings a batch that went too far, or not far enough, to what is wanted.",
                          "rescue_batch");
    bool additions_in = false;
    double shows = 0.0, left = 0.0, reads = 0.0;
    std::vector<std::string> with;
    auto* now = app.add_option_group("now", "how far it is; one");
    const auto* celsius = now->add_option("--shows-celsius", shows, "The highest that the thermometer showed")
                              ->check(kitchen::within(-50.0, 400.0));
    const auto* grams =
        now->add_option("--grams-left", left, "What is in the pan weighs")->check(kitchen::within(0.0, 1e9));
    const auto* brix = now->add_option("--reads-brix", reads, "A refractometer reads at 20 °C")
                           ->check(kitchen::within(0.0, 95.0));
    now->require_option(1);
    app.add_flag("--additions-in", additions_in, "What is added off the heat is already in it");
    app.add_option("--with", with, "Ingredients to stir in (default: water, whole milk, heavy cream 36 %)");
    const question::wanted_options wanted(app);
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    question::json asked = {{"ask", "rescue"}, {"wanted", wanted.wanted()}};
    if (celsius->count() > 0) asked["now"]["thermometer_celsius"] = shows;
    if (grams->count() > 0) asked["now"]["grams_left"] = left;
    if (brix->count() > 0) asked["now"]["brix"] = reads;
    asked["now"]["additions_in"] = additions_in;
    if (!with.empty()) asked["with"] = with;
    return app.ask(asked);
}
