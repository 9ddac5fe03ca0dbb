// How long the library takes (docs/speed.md).  Not a test: nothing here fails for being slow.
#include <benchmark/benchmark.h>

#include <array>
#include <string>
#include <vector>

#include "sirop/sirop.h"
#include "sirop/sirop_embedded.h"

namespace {

using masses = std::array<double, SIROP_COMPONENT_COUNT>;

/// Stops the benchmark where a call fails: the time of an error is of no interest.
void expect(benchmark::State& state, int32_t status) {
    if (status < 0) state.SkipWithError(sirop_status_text(status));
}

const masses& plain_syrup() {
    static const masses grams = [] {
        masses g{};
        g[SIROP_SUCROSE] = 80.0;
        g[SIROP_WATER] = 20.0;
        return g;
    }();
    return grams;
}

/// Sugar, a glucose syrup and cream: 16 components.
const masses& caramel() {
    static const masses grams = [] {
        masses sum{}, one{};
        for (const auto& [name, share] :
             {std::pair{"white sugar", 2.5}, {"glucose syrup 42 DE", 1.0}, {"heavy cream 36 %", 2.4}}) {
            sirop_ingredient_grams(name, one.data(), one.size());
            for (std::size_t i = 0; i < one.size(); ++i) sum[i] += share * one[i];
        }
        sum[SIROP_WATER] = 80.0;
        return sum;
    }();
    return grams;
}

// Invented.
const std::string batch = R"json({"sirop_batch": 1, "title": "Tonka caramel (invented)", "pan": [
    {"ingredient": "white sugar", "grams": 210}, {"ingredient": "glucose syrup 42 DE", "grams": 140},
    {"ingredient": "heavy cream 36 %", "grams": 230}], "cook": {"to_celsius": 109},
    "off_heat": [{"ingredient": "butter, unsalted", "grams": 35}]})json";

std::string question(const char* rest) {
    return R"({"sirop_question": 1, "batch": )" + batch + ", " + rest + "}";
}

void water_boils(benchmark::State& state) {
    double celsius = 0.0;
    for (auto unused : state) {
        expect(state, sirop_water_boils_celsius(955.0, &celsius));
        benchmark::DoNotOptimize(celsius);
    }
}
BENCHMARK(water_boils);

/// A function of a mixture that gives an estimate, for a plain syrup and a caramel.
template <class Call>
void of_mixture(benchmark::State& state, const Call& call) {
    const auto& grams = state.range(0) == 0 ? plain_syrup() : caramel();
    sirop_estimate e{};
    for (auto unused : state) {
        expect(state, call(grams, &e));
        benchmark::DoNotOptimize(e.value);
    }
    state.SetLabel(state.range(0) == 0 ? "plain syrup" : "caramel");
}
void water_at_boil(benchmark::State& state) {
    of_mixture(state, [](const masses& g, sirop_estimate* e) {
        return sirop_water_at_boil_grams(g.data(), g.size(), 118.0, 955.0, e);
    });
}
BENCHMARK(water_at_boil)->Arg(0)->Arg(1);
void boiling_point(benchmark::State& state) {
    of_mixture(state, [](const masses& g, sirop_estimate* e) {
        return sirop_boiling_point_celsius(g.data(), g.size(), 955.0, e);
    });
}
BENCHMARK(boiling_point)->Arg(0)->Arg(1);
void water_activity(benchmark::State& state) {
    of_mixture(state, [](const masses& g, sirop_estimate* e) {
        return sirop_water_activity(g.data(), g.size(), 20.0, e);
    });
}
BENCHMARK(water_activity)->Arg(0)->Arg(1);
void viscosity(benchmark::State& state) {
    of_mixture(state, [](const masses& g, sirop_estimate* e) {
        return sirop_property_estimate("viscosity_pa_s", g.data(), g.size(), 20.0, 955.0, e);
    });
}
BENCHMARK(viscosity)->Arg(0)->Arg(1);
void stage_by_consistency(benchmark::State& state) {
    of_mixture(state, [](const masses& g, sirop_estimate* e) {
        sirop_stage_place place{};
        e->value = 0.0;
        return sirop_stage_of_mixture(nullptr, g.data(), g.size(), &place);
    });
}
BENCHMARK(stage_by_consistency)->Arg(0)->Arg(1);

void small_boiling_point(benchmark::State& state) {
    of_mixture(state, [](const masses& g, sirop_estimate* e) {
        return sirop_embedded_boiling_point_celsius(g.data(), g.size(), 955.0, &e->value);
    });
}
BENCHMARK(small_boiling_point)->Arg(0)->Arg(1);
void small_boiling_point_float(benchmark::State& state) {
    std::array<float, SIROP_COMPONENT_COUNT> grams{};
    for (std::size_t i = 0; i < grams.size(); ++i)
        grams[i] = static_cast<float>(state.range(0) == 0 ? plain_syrup()[i] : caramel()[i]);
    float celsius = 0.0F;
    for (auto unused : state) {
        expect(state, sirop_embedded_boiling_point_celsius_f(grams.data(), grams.size(), 955.0F, &celsius));
        benchmark::DoNotOptimize(celsius);
    }
    state.SetLabel(state.range(0) == 0 ? "plain syrup" : "caramel");
}
BENCHMARK(small_boiling_point_float)->Arg(0)->Arg(1);

/// A text in, a text out.
template <class Call>
void of_text(benchmark::State& state, const Call& call) {
    std::vector<char> out(1U << 20U);
    std::size_t needed = 0;
    for (auto unused : state) expect(state, call(out.data(), out.size(), &needed));
}
void predict(benchmark::State& state) {
    sirop_batch* b = nullptr;
    expect(state, sirop_batch_read(batch.data(), batch.size(), &b));
    for (auto unused : state) {
        sirop_answer* answer = nullptr;
        expect(state, sirop_batch_predict(b, nullptr, &answer));
        sirop_answer_free(answer);
    }
    sirop_batch_free(b);
}
BENCHMARK(predict)->Unit(benchmark::kMillisecond);
void predict_text(benchmark::State& state) {
    of_text(state, [](char* out, std::size_t bytes, std::size_t* needed) {
        return sirop_predict_json(batch.data(), batch.size(), nullptr, out, bytes, needed);
    });
}
BENCHMARK(predict_text)->Unit(benchmark::kMillisecond);

void ask(benchmark::State& state, const char* rest) {
    const auto text = question(rest);
    of_text(state, [&](char* out, std::size_t bytes, std::size_t* needed) {
        return sirop_ask_json(text.data(), text.size(), out, bytes, needed);
    });
}
BENCHMARK_CAPTURE(ask, cook_for, R"("ask": "cook_for", "wanted": {"set_word": "ribbon"})")
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(ask, rescue,
                  R"("ask": "rescue", "wanted": {"set_word": "ribbon"}, "now": {"thermometer_celsius": 119})")
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(ask, substitute,
                  R"("ask": "substitute", "replace": "heavy cream 36 %", "by": ["coconut cream"])")
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(ask, formulate, R"("ask": "formulate", "free": ["white sugar", "heavy cream 36 %"],
    "wanted": [{"set_word": "mounding"}], "yield": {"grams": 600})")
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(ask, sensitivity, R"("ask": "sensitivity")")->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
