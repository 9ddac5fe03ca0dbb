// Batch files and questions for the parity cases; all invented.
#pragma once

#include <string>
#include <vector>

namespace parity {

inline std::vector<std::string> batches() {
    return {
        R"json({"sirop_batch": 1, "title": "Caramel sauce (invented)", "pan": [
            {"ingredient": "white sugar", "grams": 250}, {"ingredient": "glucose syrup 42 DE", "grams": 100},
            {"ingredient": "heavy cream 36 %", "grams": 300}],
            "cook": {"to_celsius": 107, "altitude_metres": 350},
            "off_heat": [{"ingredient": "butter, unsalted", "grams": 40}], "serve": {"celsius": 18}})json",
        R"json({"sirop_batch": 1, "title": "Sirop de fleurs séchées (invented)", "pan": [
            {"ingredient": "white sugar", "grams": 400}, {"ingredient": "water", "grams": 300}],
            "cook": {"to_fahrenheit": 219}})json",
        R"json({"sirop_batch": 1, "title": "Hard drops (invented)", "pan": [
            {"ingredient": "white sugar", "grams": 300}, {"ingredient": "glucose syrup 42 DE", "grams": 200},
            {"ingredient": "water", "grams": 100}],
            "cook": {"to_celsius": 148, "water_boils_celsius": 96.5,
                     "thermometer_reads_in_boiling_water_celsius": 98, "thermometer_within_celsius": 1}})json",
        R"json({"sirop_batch": 1, "title": "Cocoa fudge (invented)", "pan": [
            {"ingredient": "brown sugar", "grams": 300}, {"ingredient": "whole milk", "grams": 200},
            {"ingredient": "cocoa powder", "grams": 40}, {"ingredient": "salt", "grams": 2}],
            "cook": {"to_celsius": 113, "pressure_hpa": 880},
            "off_heat": [{"ingredient": "dark chocolate 60-69 %", "grams": 80, "celsius": 25},
                         {"ingredient": "butter, salted", "grams": 30, "celsius": 5}], "serve": {"celsius": 4}})json",
        R"json({"sirop_batch": 1, "title": "Own \"label\" (invented)", "pan": [
            {"ingredient": "glucose syrup", "dextrose_equivalent": 38, "solids_percent": 78, "grams": 120},
            {"ingredient": "fig paste", "grams": 90, "per_100_g": {"water": 30, "glucose": 30, "fructose": 28,
             "fibre": 9, "minerals": 2, "acid": 1}}],
            "cook": {"to_celsius": 106, "altitude_feet": 2100}, "serve": {"celsius": 60}})json",
        R"json({"sirop_batch": 1, "title": "Honey and mango (invented)", "pan": [
            {"ingredient": "honey", "grams": 200}, {"ingredient": "mango puree", "grams": 250},
            {"ingredient": "lemon juice", "grams": 10}, {"ingredient": "coconut milk", "grams": 0}],
            "cook": {"to_celsius": 104.5}})json",
        // Refused, each for another reason.
        "",
        "{",
        R"json({"sirop_batch": 1, "pan": []})json",
        R"json({"sirop_batch": 2, "pan": [{"ingredient": "water", "grams": 1}], "cook": {"to_celsius": 100}})json",
        R"json({"sirop_batch": 1, "pan": [{"ingredient": "moon dust", "grams": 5}], "cook": {"to_celsius": 110}})json",
        R"json({"sirop_batch": 1, "pan": [{"ingredient": "white sugar", "grams": -5}],
            "cook": {"to_celsius": 110}})json",
        R"json({"sirop_batch": 1, "pan": [{"ingredient": "honey", "grams": 50}], "cook": {"to_celsius": 101}})json",
        R"json({"sirop_batch": 1, "pan": [{"ingredient": "honey", "grams": 50}],
            "cook": {"to_celsius": 110, "pressure_hpa": 1000, "altitude_metres": 0}})json",
    };
}

inline std::vector<std::string> questions() {
    const std::string batch = R"json("batch": {"sirop_batch": 1, "title": "Bay leaf caramel (invented)", "pan": [
            {"ingredient": "white sugar", "grams": 200}, {"ingredient": "glucose syrup 42 DE", "grams": 80},
            {"ingredient": "heavy cream 36 %", "grams": 180}], "cook": {"to_celsius": 110}})json";
    const auto question = [&](const char* rest) {
        return R"({"sirop_question": 1, )" + batch + ", " + rest + "}";
    };
    return {
        question(R"("ask": "cook_for", "wanted": {"water_percent": 15})"),
        question(R"("ask": "cook_for", "wanted": {"set_word": "ribbon", "celsius": 20})"),
        question(R"("ask": "cook_for", "wanted": {"stage": "soft ball"})"),
        question(R"("ask": "rescue", "wanted": {"water_percent": 16}, "now": {"thermometer_celsius": 119})"),
        question(R"("ask": "rescue", "wanted": {"water_percent": 9}, "now": {"grams_left": 410})"),
        question(R"("ask": "scale", "yield": {"grams": 2500, "loss_grams": 40})"),
        question(R"("ask": "travel", "to": {"altitude_metres": 2240})"),
        question(R"("ask": "substitute", "replace": "glucose syrup 42 DE", "by": [{"ingredient": "honey"}])"),
        question(R"("ask": "formulate", "free": ["white sugar", "heavy cream 36 %"], "fat_percent": {"value": 16},
            "yield": {"grams": 500})"),
        question(R"("ask": "sensitivity", "samples": 200, "seed": 7)"),
        R"json({"sirop_question": 1, "ask": "learn_kitchen", "logs": [
            {"batch": {"sirop_batch": 1, "pan": [{"ingredient": "white sugar", "grams": 300},
             {"ingredient": "water", "grams": 200}], "cook": {"to_celsius": 112}}, "grams": 352},
            {"batch": {"sirop_batch": 1, "pan": [{"ingredient": "white sugar", "grams": 300},
             {"ingredient": "water", "grams": 200}], "cook": {"to_celsius": 106}}, "grams": 395}]})json",
        // Refused, each for another reason.
        "[]",
        R"({"sirop_question": 1, "ask": "cook_for"})",
        question(R"("ask": "why")"),
        question(R"("ask": "cook_for", "wanted": {})"),
        question(R"("ask": "cook_for", "wanted": {"water_percent": 90})"),
        question(R"("ask": "scale", "yield": {"grams": -1})"),
        question(R"("ask": "travel", "to": {"altitude_metres": 20000})"),
    };
}

}  // namespace parity
