// How much of everything for another yield?  Temperature and set stay; the time does not.
#include "question.hpp"

int main(int argc, char** argv) {
    question::program app("The same batch for another yield: how much of each ingredient.", "scale_batch");
    const question::yield_options yield(app);
    question::numbers loss;
    loss.add(app, "loss-grams", "What stays in the pan and on the tools", 0.0, 1e9);
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    auto wanted = yield.wanted();
    if (wanted.empty())
        return kitchen::refused("yield: is missing; --grams, --millilitres or --portions is accepted");
    loss.into(wanted);
    return app.ask({{"ask", "scale"}, {"yield", wanted}});
}
