// How long the library takes.  Not a test: nothing here fails for being slow.  docs/speed.md is made from it by
// speed_page.py.
//     speed [options of Google Benchmark]   times the workloads, and an exp beside them
//     speed --list                          one line a workload: name, tab, what, tab, aim in exps, tab, counted
//     speed --once NAME                     one workload, twice; instruction_counts.py counts the second
#include <benchmark/benchmark.h>

#include <cmath>
#include <cstdio>
#include <string>

#include "sirop/sirop_embedded.h"
#include "workloads.hpp"

namespace {

/// Times a call; stops where it fails: the time of an error is of no interest.
void time_of(benchmark::State& state, int32_t (*call)()) {
    for (auto unused : state)
        if (const int32_t status = call(); status < 0) state.SkipWithError(sirop_status_text(status));
}

/// The measure of all: one exp of the C library, each waiting for the last.
void one_exp(benchmark::State& state) {
    double x = 0.5;
    for (auto unused : state) {
        x = std::exp(-x);
        benchmark::DoNotOptimize(x);
    }
}
BENCHMARK(one_exp);

void water_boils(benchmark::State& state) {
    double celsius = 0.0;
    for (auto unused : state) {
        sirop_water_boils_celsius(955.0, &celsius);
        benchmark::DoNotOptimize(celsius);
    }
}
BENCHMARK(water_boils);

template <class Number, auto Call>
void embedded(benchmark::State& state) {
    std::array<Number, SIROP_COMPONENT_COUNT> grams{};
    for (std::size_t i = 0; i < grams.size(); ++i) grams[i] = static_cast<Number>(speed::caramel()[i]);
    Number celsius{};
    for (auto unused : state) {
        Call(grams.data(), grams.size(), static_cast<Number>(955.0), &celsius);
        benchmark::DoNotOptimize(celsius);
    }
}
BENCHMARK(embedded<double, sirop_embedded_boiling_point_celsius>)->Name("embedded_boiling_point");
BENCHMARK(embedded<float, sirop_embedded_boiling_point_celsius_f>)->Name("embedded_boiling_point_float");

}  // namespace

/// Not inlined and of one name, so that a counter knows where it begins and ends.
extern "C" [[gnu::noinline]] int32_t counted_workload(int32_t (*call)()) {
    return call();
}

int main(int count, char** words) {
    const std::string first = count > 1 ? words[1] : "";
    if (first == "--list") {
        for (const auto& w : speed::workloads)
            std::printf("%s\t%s\t%g\t%d\n", std::string(w.name).c_str(), std::string(w.what).c_str(), w.aim_exps,
                        w.counted ? 1 : 0);
        return 0;
    }
    if (first == "--once" && count == 3) {
        for (const auto& w : speed::workloads)
            if (w.name == words[2]) return w.call() < 0 || counted_workload(w.call) < 0 ? 1 : 0;
        std::fprintf(stderr, "there is no workload \"%s\"; --list names them\n", words[2]);
        return 2;
    }
    for (const auto& w : speed::workloads)
        benchmark::RegisterBenchmark(std::string(w.name).c_str(), time_of, w.call);
    benchmark::Initialize(&count, words);
    benchmark::RunSpecifiedBenchmarks();
    return 0;
}
