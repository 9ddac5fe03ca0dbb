// To which temperature must this batch be cooked, to be what I want?  And how far may I miss it.
#include "question.hpp"

int main(int argc, char** argv) {
    question::program app("The cook temperature for a wanted water, activity, Brix, viscosity, set or stage.",
                          "cook_for",
                          "The batch file, or - for standard input; its cook temperature does not count");
    const question::wanted_options wanted(app);
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;
    return app.ask({{"ask", "cook_for"}, {"wanted", wanted.wanted()}});
}
