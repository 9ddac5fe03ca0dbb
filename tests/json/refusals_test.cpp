// Batch files that must be refused in one line, and those beside them that must be answered.
//
// The place of a syntax error lies inside the token that cannot stand there, columns counted in bytes from 1.
// In `place` and `must_contain` a bar separates wordings of which one is enough, and a star at the
// end of a place leaves its rest open.
#include <gtest/gtest.h>
#include <sirop/sirop.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <random>
#include <regex>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace {

using words = std::vector<std::string>;

struct bad_batch {
    std::string name, text, place;
    words must_contain;
};

// ---- calling the library ----

struct reply {
    std::int32_t status;
    std::string text;
};

bool answered(const reply& r) {
    return r.status == SIROP_OK || r.status == SIROP_EXTRAPOLATED;
}

reply call(decltype(&sirop_predict_json) predict, const char* batch, std::size_t bytes) {
    std::vector<char> out(65536, '#');
    std::size_t needed = 0;
    std::int32_t status = predict(batch, bytes, nullptr, out.data(), out.size(), &needed);
    if (status == SIROP_E_BUFFER) {
        out.assign(needed, '#');
        status = predict(batch, bytes, nullptr, out.data(), out.size(), &needed);
    }
    const auto end = std::find(out.begin(), out.end(), '\0');
    EXPECT_NE(end, out.end()) << "no NUL at the end of the answer";
    EXPECT_EQ(static_cast<std::size_t>(end - out.begin()) + 1, needed);
    return {status, std::string(out.begin(), end)};
}

// The text is handed over in a block of exactly its size, so that a sanitizer sees any read past its end.
reply predict(std::string_view text, decltype(&sirop_predict_json) function = &sirop_predict_json) {
    const std::vector<char> copy(text.begin(), text.end());
    return call(function, copy.empty() ? "" : copy.data(), copy.size());
}

// ---- looking at a text ----

// The pieces of a text that match a pattern.
words pieces(const std::string& text, const char* pattern) {
    const std::regex expression(pattern);
    return {std::sregex_token_iterator(text.begin(), text.end(), expression), std::sregex_token_iterator()};
}

bool contains_any(const std::string& text, const std::string& any) {
    const words all = pieces(any, "[^|]+");
    return all.empty() || std::any_of(all.begin(), all.end(), [&](const std::string& word) {
               return text.find(word) != std::string::npos;
           });
}

bool starts_with_place(const std::string& text, const std::string& any) {
    for (std::string place : pieces(any, "[^|]+")) {
        if (place.back() != '*') place += ':';
        if (place.back() == '*') place.pop_back();
        if (text.compare(0, place.size(), place) == 0) return true;
    }
    return false;
}

bool is_utf8(std::string_view text) {
    for (std::size_t i = 0; i < text.size();) {
        const auto lead = static_cast<unsigned char>(text[i++]);
        const int more = lead < 0x80 ? 0 : lead >= 0xc2 && lead < 0xe0 ? 1 : (lead & 0xf0) == 0xe0 ? 2 : 3;
        if (more == 3 && (lead < 0xf0 || lead > 0xf4)) return false;
        for (int k = 0; k < more; ++k, ++i)
            if (i >= text.size() || (static_cast<unsigned char>(text[i]) & 0xc0) != 0x80) return false;
    }
    return true;
}

void expect_one_line(const std::string& text) {
    EXPECT_GT(text.size(), 10U) << text;
    EXPECT_LT(text.size(), 500U) << text;
    for (const char c : text)
        EXPECT_TRUE(static_cast<unsigned char>(c) >= 0x20 && c != 0x7f) << "control byte: " << text;
    EXPECT_TRUE(is_utf8(text)) << text;
    EXPECT_NE(text.find(": "), std::string::npos) << "no place before a colon: " << text;
    EXPECT_TRUE(contains_any(text, "; |accepted")) << "nothing said on what is accepted: " << text;
}

// An answer is one JSON object without a bare nan or inf.
void expect_finite_answer(const std::string& text) {
    ASSERT_FALSE(text.empty());
    EXPECT_EQ(text.front(), '{');
    for (const char* bad : {":nan", ":-nan", ":inf", ":-inf", ": nan", ": -nan", ": inf", ": -inf"})
        EXPECT_EQ(text.find(bad), std::string::npos) << bad << " in " << text;
}

void expect_finite_or_one_line(const reply& r, const std::string& trace) {
    SCOPED_TRACE(trace + " -> " + r.text);
    EXPECT_TRUE(answered(r) || r.status == SIROP_E_BATCH) << r.status;
    answered(r) ? expect_finite_answer(r.text) : expect_one_line(r.text);
}

words numbers_in(const std::string& text) {
    return pieces(text, "[0-9]+([.][0-9]+)?");
}

// The number at section.key of an answer.
double number_at(const std::string& answer, const std::string& section, const std::string& key) {
    std::size_t at = answer.find('"' + section + "\":");
    if (at != std::string::npos) at = answer.find('"' + key + "\":", at);
    if (at == std::string::npos) {
        ADD_FAILURE() << section << "." << key << " is missing in " << answer;
        return -1e9;
    }
    return std::strtod(answer.c_str() + at + key.size() + 3, nullptr);
}

// The places inside a token, any of which may be named: line and column, both from 1.
std::string line_and_column(const std::string& text, const std::string& token) {
    const std::string before = text.substr(0, text.find(token));
    const std::size_t column = before.size() - (before.rfind('\n') + 1) + 1;  // npos + 1 is 0
    const auto line = std::to_string(1 + std::count(before.begin(), before.end(), '\n'));
    std::string all;
    for (std::size_t i = 0; i < token.size(); ++i)
        all += "|line " + line + ", column " + std::to_string(column + i);
    return all;
}

// The published limit of an argument, in the ways it may be printed.
std::string limit(const char* argument, double sirop_range::*end) {
    sirop_range range{};
    if (sirop_accepted_range(argument, &range) != SIROP_OK) return std::string("no range for ") + argument;
    char shortest[40], plain[40];
    std::snprintf(shortest, sizeof shortest, "%g", range.*end);
    std::snprintf(plain, sizeof plain, "%.15g", range.*end);
    return std::string(shortest) + "|" + plain;
}

// ---- building batch files ----

const std::string water_row = R"({"ingredient":"water","grams":150})";
const std::string syrup_rows = R"({"ingredient":"white sugar","grams":250},)" + water_row;
const std::string to_108 = R"({"to_celsius":108.5})";

std::string batch(const std::string& pan, const std::string& cook = to_108, const std::string& rest = "") {
    return R"({"sirop_batch":1,"pan":[)" + pan + R"(],"cook":)" + cook + rest + "}";
}
std::string cooked_to(const std::string& number, const std::string& key = "to_celsius") {
    return batch(syrup_rows, "{\"" + key + "\":" + number + "}");
}
std::string repeated(const std::string& letter, std::size_t times) {
    std::string all;
    for (std::size_t i = 0; i < times; ++i) all += letter;
    return all;
}
std::string filled(std::string text, const std::string& value) {
    return text.replace(text.find('@'), 1, value);
}
// clang-format off
using piece = const std::string&;
const auto with_row = [](piece keys) { return batch(R"({"ingredient":"white sugar",)" + keys + "}," + water_row); };
const auto with_named = [](piece name) { return batch(R"({"ingredient":")" + name + R"(","grams":250},)" + water_row); };
const auto with_parts = [](piece parts) { return batch(R"({"ingredient":"bench syrup","grams":250,"per_100_g":{)" + parts + "}}," + water_row); };
const auto with_syrup = [](piece keys) { return batch(R"({"ingredient":"glucose syrup","grams":60,)" + keys + "}," + syrup_rows); };
const auto with_cook = [](piece keys) { return batch(syrup_rows, R"({"to_celsius":108.5,)" + keys + "}"); };
const auto with_rest = [](piece keys) { return batch(syrup_rows, to_108, "," + keys); };
const auto with_added = [](piece keys) { return with_rest(R"("off_heat":[{"ingredient":"butter, unsalted","grams":40,)" + keys + "}]"); };
// clang-format on

const std::string contract_example = R"json({
  "sirop_batch": 1,
  "title": "Miso caramel for pear slices (invented)",
  "pan": [
    {"ingredient": "white sugar", "grams": 250},
    {"ingredient": "glucose syrup 42 DE", "grams": 60},
    {"ingredient": "heavy cream 36 %", "grams": 240},
    {"ingredient": "bench syrup", "grams": 20, "per_100_g": {"water": 25, "sucrose": 30, "glucose": 22.5, "fructose": 22.5}}
  ],
  "cook": {"to_celsius": 108.5, "altitude_metres": 350},
  "off_heat": [ {"ingredient": "butter, unsalted", "grams": 40} ],
  "serve": {"celsius": 18}
})json";

// ---- the bad batch files, by kind ----
// clang-format off

std::vector<bad_batch> syntax_errors() {
    const std::string any = "line *";
    const std::string no_comma = "{\n \"sirop_batch\": 1,\n \"pan\": [{\"ingredient\": \"white sugar\" \"grams\": 250}]}";
    const std::string slashes = batch(syrup_rows, "// note\n" + to_108), stars = batch(syrup_rows, "/* x */" + to_108);
    const std::string quotes = "{'sirop_batch':1}", nan = with_row(R"("grams":NaN)");
    const std::string closed_twice = batch(syrup_rows) + "\n  }";
    const std::string nul("\0", 1);
    std::vector<bad_batch> all = {
        {"missing comma", no_comma, line_and_column(no_comma, "\"grams\""), {}},
        {"line comment", slashes, line_and_column(slashes, "//"), {}},
        {"block comment", stars, line_and_column(stars, "/*"), {}},
        {"single quotes", quotes, line_and_column(quotes, "'"), {}},
        {"grams NaN", nan, line_and_column(nan, "NaN"), {"NaN"}},
        {"brace too many", closed_twice, "line 2, column 3", {}},
        {"word after the object", batch(syrup_rows) + " enjoy", any, {}},
        {"two objects", batch(syrup_rows) + batch(syrup_rows), any, {}},
        {"NUL after the object", batch(syrup_rows) + nul, "line *|batch", {}},
        {"NUL between tokens", "{" + nul + batch(syrup_rows).substr(1), "line *|batch", {}},
        {"key without quotes", with_row("grams:250"), any, {}},
        {"missing colon", with_row("\"grams\" 250"), any, {}},
        {"empty file", "", "line 1, column 1|batch", {}},
        {"blank file", " \n\n ", "line *|batch", {}},
    };
    for (piece literal : words{"-Infinity", "Infinity", "nan", "True", "+250", "0250", "0x10", ".5", "250.", "2,5", "250,", "1e", "--1"})
        all.push_back({"grams " + literal, with_row("\"grams\":" + literal), any, {contains_any(literal, "Infinity|nan") ? literal : ""}});
    for (piece inside : words{nul, "\n", "\t", "\x1b", R"(\q)", R"(\u12)", R"(\x41)"})
        all.push_back({"title with " + inside, with_rest("\"title\":\"a" + inside + "b\""), "line *|batch", {}});
    for (piece lone : words{R"(\ud83c)", R"(\udf6c)", R"(\udf6c\ud83c)"})
        all.push_back({"surrogate " + lone, with_rest("\"title\":\"" + lone + "\""), "line *|title|batch", {}});
    for (piece value : words{"[" + batch(syrup_rows) + "]", "[]", "1", "\"sirop_batch\"", "null"})
        all.push_back({"top level " + value, value, "batch", {"object"}});
    return all;
}

std::vector<bad_batch> whole_file_errors() {
    const words utf8 = {"UTF-8", "byte|line"}, size = {"1 MiB|1048576"};
    const auto brackets = [](std::size_t depth) { return std::string(depth, '[') + std::string(depth, ']'); };
    std::vector<bad_batch> all = {
        {"bad byte in an ingredient", with_named("white \x80sugar"), "line *|batch", utf8},
        {"UTF-16", std::string("\xff\xfe{\0}\0", 6), "line *|batch", utf8},
        {"33 deep", with_rest("\"title\":" + brackets(32)), "batch", {"32"}},
        {"32 deep is no depth error", with_rest("\"title\":" + brackets(31)), "title", {"array|list"}},
        {"open brackets", std::string(500000, '['), "batch", {"32"}},
        {"one byte over 1 MiB", batch(syrup_rows) + std::string(1048577 - batch(syrup_rows).size(), ' '), "batch", size},
        {"size comes before UTF-8", std::string(2000000, '\xff'), "batch", size},
    };
    // Latin-1, never a lead byte, overlong twice, a surrogate, past the last code point, cut short
    for (piece bytes : words{"\xe9", "\xff", "\xc0\xaf", "\xe0\x80\xaf", "\xed\xa0\x80", "\xf4\x90\x80\x80", "\xe2\x82"})
        all.push_back({"title with " + bytes, with_rest("\"title\":\"caf" + bytes + "\""), "line *|batch", utf8});
    return all;
}

// One value of each wrong type for every key there is.
std::vector<bad_batch> wrong_types() {
    struct typed_key {
        std::string place, text, accepted;
        char right;
    };
    const std::string number = "number", text = "text|string", object = "object", list = "array|list";
    std::vector<typed_key> keys = {
        {"sirop_batch", "{\"sirop_batch\":@,\"pan\":[" + syrup_rows + "],\"cook\":" + to_108 + "}", "1", 'n'},
        {"title", with_rest("\"title\":@"), text, 's'},
        {"pan", R"({"sirop_batch":1,"pan":@,"cook":{"to_celsius":108.5}})", list, 'a'},
        {"pan[1]", batch(water_row + ",@"), object, 'o'},
        {"pan[0].ingredient", batch(R"({"ingredient":@,"grams":250},)" + water_row), text, 's'},
        {"pan[0].grams", with_row("\"grams\":@"), number, 'n'},
        {"pan[0].per_100_g", with_row("\"grams\":1,\"per_100_g\":@"), object, 'o'},
        {"pan[0].per_100_g.sucrose", with_parts("\"sucrose\":@"), number, 'n'},
        {"pan[0].dextrose_equivalent", with_syrup("\"dextrose_equivalent\":@,\"solids_percent\":80"), number, 'n'},
        {"pan[0].solids_percent", with_syrup("\"dextrose_equivalent\":38,\"solids_percent\":@"), number, 'n'},
        {"cook", batch(syrup_rows, "@"), object, 'o'},
        {"cook.to_celsius", cooked_to("@"), number, 'n'},
        {"cook.to_fahrenheit", cooked_to("@", "to_fahrenheit"), number, 'n'},
        {"off_heat", with_rest("\"off_heat\":@"), list, 'a'},
        {"off_heat[0]", with_rest("\"off_heat\":[@]"), object, 'o'},
        {"off_heat[0].ingredient", with_rest("\"off_heat\":[{\"ingredient\":@,\"grams\":1}]"), text, 's'},
        {"off_heat[0].grams", with_rest("\"off_heat\":[{\"ingredient\":\"salt\",\"grams\":@}]"), number, 'n'},
        {"off_heat[0].celsius", with_added("\"celsius\":@"), number, 'n'},
        {"off_heat[0].per_100_g", with_added("\"per_100_g\":@"), object, 'o'},
        {"serve", with_rest("\"serve\":@"), object, 'o'},
        {"serve.celsius", with_rest("\"serve\":{\"celsius\":@}"), number, 'n'}};
    for (piece key : words{"pressure_hpa", "altitude_metres", "altitude_feet", "water_boils_celsius", "thermometer_reads_in_boiling_water_celsius"})
        keys.push_back({"cook." + key, with_cook("\"" + key + "\":@"), number, 'n'});
    struct wrong_value {
        char type;
        std::string literal, shown;
    };
    const std::vector<wrong_value> values = {{'n', "57", "57|number"}, {'s', "\"plum\"", "plum"}, {'b', "true", "true"}, {'b', "false", "false"},
                                             {'0', "null", "null"}, {'a', "[]", list}, {'o', "{}", object}, {'a', "[[{\"a\":[]}]]", list}};
    std::vector<bad_batch> all;
    for (const auto& key : keys)
        for (const auto& value : values) {
            if (value.type == key.right) continue;
            all.push_back({key.place + " as " + value.literal, filled(key.text, value.literal), key.place, {value.shown, key.accepted}});
        }
    all.push_back({"grams in quotes", with_row(R"("grams":"250")"), "pan[0].grams", {"250", number}});
    return all;
}

std::vector<bad_batch> key_errors() {
    const words twice = {"twice|duplicate|repeat|second|already"};
    const std::string cook = R"("cook":{"to_celsius":108.5})", no_name = R"({"sirop_batch":1,)";
    return {
        {"unknown key of the file", with_rest("\"bake\":1"), "bake", {"off_heat"}},
        {"unknown key of a row", with_row(R"("grams":1,"kilograms":2)"), "pan[0].kilograms", {"per_100_g"}},
        {"key in upper case", with_row(R"("Grams":1)"), "pan[0].Grams|pan[0]*", {"grams"}},
        {"celsius in the pan", with_row(R"("grams":1,"celsius":20)"), "pan[0].celsius", {"grams"}},
        {"unknown component", with_parts(R"("sugar":100)"), "pan[0].per_100_g.sugar", {"sucrose", "acid"}},
        {"unknown key of the cook", with_cook("\"minutes\":5"), "cook.minutes", {"to_fahrenheit"}},
        {"unknown key of an addition", with_added("\"fahrenheit\":70"), "off_heat[0].fahrenheit", {"celsius"}},
        {"unknown key of serve", with_rest(R"("serve":{"kelvin":290})"), "serve.kelvin", {"celsius"}},
        {"serve in both scales", with_rest(R"("serve":{"celsius":18,"fahrenheit":64})"), "serve.fahrenheit", {"celsius"}},
        {"serve too hot in F", with_rest(R"("serve":{"fahrenheit":213})"), "serve.fahrenheit", {"213", "212"}},
        {"ounces beside grams", with_row(R"("grams":1,"ounces":1)"), "pan[0].ounces", {"one of them"}},
        {"pan twice", with_rest("\"pan\":[" + syrup_rows + "]"), "pan", twice},
        {"pan twice, once escaped", with_rest("\"\\u0070an\":[" + syrup_rows + "]"), "pan", twice},
        {"grams twice", with_row(R"("grams":250,"grams":250)"), "pan[0].grams", twice},
        {"component twice", with_parts(R"("water":50,"sucrose":50,"water":50)"), "pan[0].per_100_g.water", twice},
        {"target twice", with_cook("\"to_celsius\":108.5"), "cook.to_celsius", twice},
        {"addition's key twice", with_added("\"grams\":40"), "off_heat[0].grams", twice},
        {"serve's key twice", with_rest(R"("serve":{"celsius":18,"celsius":18})"), "serve.celsius", twice},
        {"empty object", "{}", "sirop_batch|batch|pan|cook", {}},
        {"no version", "{\"pan\":[" + syrup_rows + "]," + cook + "}", "sirop_batch|batch", {"sirop_batch", "1"}},
        {"version 2", "{\"sirop_batch\":2," + cook + ",\"pan\":[" + syrup_rows + "]}", "sirop_batch", {"2", "1"}},
        {"version 1.5", "{\"sirop_batch\":1.5," + cook + ",\"pan\":[" + syrup_rows + "]}", "sirop_batch", {"1.5"}},
        {"no pan", no_name + cook + "}", "pan|batch", {"pan"}},
        {"empty pan", batch(""), "pan", {"ingredient|row|empty"}},
        {"no cook", no_name + "\"pan\":[" + syrup_rows + "]}", "cook|batch", {"cook"}},
        {"no target", batch(syrup_rows, "{\"altitude_metres\":350}"), "cook|cook.to_celsius", {"to_celsius", "to_fahrenheit"}},
        {"two targets", with_cook("\"to_fahrenheit\":227.3"), "cook*", {"to_celsius", "to_fahrenheit"}},
        {"row without a name", batch("{\"grams\":1}," + syrup_rows), "pan[0]|pan[0].ingredient", {"ingredient"}},
        {"row without grams", batch(R"({"ingredient":"salt"},)" + syrup_rows), "pan[0]|pan[0].grams", {"grams"}},
        {"syrup without equivalent", batch(R"({"ingredient":"glucose syrup","grams":60},)" + syrup_rows), "pan[0]*", {"dextrose_equivalent"}},
        {"equivalent on sugar", with_row(R"("grams":1,"dextrose_equivalent":38)"), "pan[0].dextrose_equivalent", {"glucose syrup"}},
        {"solids on sugar", with_row(R"("grams":1,"solids_percent":80)"), "pan[0].solids_percent", {"glucose syrup"}},
        {"equivalent and composition", with_syrup(R"("dextrose_equivalent":38,"per_100_g":{"water":100})"), "pan[0]*",
         {"dextrose_equivalent", "per_100_g"}},
    };
}

std::vector<bad_batch> value_errors() {
    const auto low = &sirop_range::low, high = &sirop_range::high;
    const std::string grams = "pan[0].grams", parts = "pan[0].per_100_g", too_large = "1e999|1E999|inf|too large";
    const std::string zero_rows = R"({"ingredient":"white sugar","grams":0},{"ingredient":"water","grams":0.0})";
    std::vector<bad_batch> all = {
        {"negative mass", batch(water_row + R"(,{"ingredient":"salt","grams":-5})"), "pan[1].grams", {"-5", "0"}},
        {"grams 1e999", with_row(R"("grams":1e999)"), grams + "|line *", {too_large}},
        {"target -1e999", cooked_to("-1e999"), "cook.to_celsius|line *", {too_large}},
        {"component 1e999", with_parts(R"("water":1e999)"), parts + ".water|line *", {too_large}},
        {"5000 digits", with_row("\"grams\":" + std::string(5000, '7')), grams + "|line *", {}},
        {"total of 0", batch(zero_rows), "pan", {"0"}},
        {"unknown ingredient", with_named("dragon sugar"), "pan[0].ingredient", {"dragon sugar", "per_100_g|pantry"}},
        {"inner blank", with_named("white  sugar"), "pan[0].ingredient", {"white  sugar"}},
        {"empty name", with_named(""), "pan[0].ingredient", {}},
        {"empty composition", with_parts(""), parts, {"100"}},
        {"negative part", with_parts(R"("water":50,"sucrose":60,"acid":-10)"), parts + ".acid", {"-10"}},
        {"only water", batch(water_row), "cook|cook.to_celsius|pan", {}},
        {"long name", with_named(std::string(200000, 'a')), "pan[0].ingredient", {"aaaaaaaaaaaaaaaaaaaa"}},
        {"long name of two-byte letters", with_named("x" + repeated("\u00e9", 100000)), "pan[0].ingredient", {"x\u00e9\u00e9\u00e9"}},
        {"long key", with_row("\"" + std::string(200000, 'k') + "\":1"), "pan[0].k*", {"kkkkkkkkkkkkkkkkkkkk"}},
        {"long component", with_parts("\"" + repeated("\u00e9", 100000) + "\":1"), "pan[0].per_100_g.\u00e9*", {}},
        {"line feed in a key", with_row("\"gra\\nms\":1"), "pan[0].gra*", {"ms"}},
    };
    struct number_out {
        std::string place, text, value, limit;  // `text` holds the number as @
    };
    const std::string thermometer = "thermometer_reads_in_boiling_water_celsius";
    const auto cook = [](piece key) { return with_cook("\"" + key + "\":@"); };
    for (const number_out& n : std::vector<number_out>{
             {grams, with_row("\"grams\":@"), "1e30", limit("grams", high)},
             {"pan[0].dextrose_equivalent", with_syrup("\"dextrose_equivalent\":@"), "200", ""},
             {"pan[0].dextrose_equivalent", with_syrup("\"dextrose_equivalent\":@"), "-42", ""},
             {"pan[0].solids_percent", with_syrup("\"dextrose_equivalent\":38,\"solids_percent\":@"), "150", ""},
             {"pan[0].solids_percent", with_syrup("\"dextrose_equivalent\":38,\"solids_percent\":@"), "-1", ""},
             {parts, with_parts("\"water\":25,\"sucrose\":@"), "74.9375", "100"}, {parts, with_parts("\"water\":25,\"sucrose\":@"), "75.0625", "0.05"},
             {"cook.altitude_metres", cook("altitude_metres"), "99000", limit("altitude_metres", high)},
             {"cook.altitude_metres", cook("altitude_metres"), "-9000", limit("altitude_metres", low)},
             {"cook.altitude_feet", cook("altitude_feet"), "90000", ""}, {"cook.altitude_feet", cook("altitude_feet"), "-30000", ""},
             {"cook.pressure_hpa", cook("pressure_hpa"), "0", limit("pressure_hpa", low)},
             {"cook.pressure_hpa", cook("pressure_hpa"), "101325", limit("pressure_hpa", high)},
             {"cook.water_boils_celsius", cook("water_boils_celsius"), "20", limit("water_boils_celsius", low)},
             {"cook.water_boils_celsius", cook("water_boils_celsius"), "212", limit("water_boils_celsius", high)},
             {"cook." + thermometer, cook(thermometer), "212", ""}, {"cook." + thermometer, cook(thermometer), "-40", ""},
             {"serve.celsius", with_rest(R"("serve":{"celsius":@})"), "900", limit("serve_celsius", high)},
             {"serve.celsius", with_rest(R"("serve":{"celsius":@})"), "-300", limit("serve_celsius", low)},
             {"off_heat[0].celsius", with_added("\"celsius\":@"), "900", limit("added_celsius", high)},
             {"off_heat[0].celsius", with_added("\"celsius\":@"), "-300", limit("added_celsius", low)},
             {"cook|cook.to_celsius", cooked_to("@"), "20", ""}, {"cook|cook.to_celsius", cooked_to("@"), "-400", ""},
             {"cook|cook.to_celsius", cooked_to("@"), "300", ""}, {"cook|cook.to_fahrenheit", cooked_to("@", "to_fahrenheit"), "600", ""}}) {
        // a sum is shown instead of the part, a huge number in any spelling
        all.push_back({n.place + " " + n.value, filled(n.text, n.value), n.place, {n.place == parts || n.value == "1e30" ? "" : n.value, n.limit}});
    }
    for (piece odd : words{R"(\n)", R"(\u001b[31m)", R"(\u0000)", R"(\u007f)", R"(\r)"})
        all.push_back({"name with " + odd, with_named("plum" + odd + "sugar"), "pan[0].ingredient", {"plum", "sugar"}});
    const words pressures = {"pressure_hpa", "altitude_metres", "altitude_feet", "water_boils_celsius"}, given = {"1000", "350", "900", "99"};
    for (std::size_t a = 0; a < pressures.size(); ++a)
        for (std::size_t b = a + 1; b < pressures.size(); ++b)
            all.push_back({pressures[a] + " and " + pressures[b],
                           with_cook("\"" + pressures[a] + "\":" + given[a] + ",\"" + pressures[b] + "\":" + given[b]), "cook*",
                           {pressures[a], pressures[b]}});
    return all;
}

// clang-format on
void expect_refused(const bad_batch& bad) {
    SCOPED_TRACE(bad.name + ": " + bad.text.substr(0, 300));
    const reply r = predict(bad.text);
    ASSERT_EQ(r.status, SIROP_E_BATCH) << r.text.substr(0, 500);
    expect_one_line(r.text);
    EXPECT_TRUE(starts_with_place(r.text, bad.place)) << "place " << bad.place << " in: " << r.text;
    for (const auto& word : bad.must_contain) EXPECT_TRUE(contains_any(r.text, word)) << word << " in: " << r.text;
    const reply report = predict(bad.text, &sirop_predict_report);
    EXPECT_EQ(report.status, SIROP_E_BATCH);
    EXPECT_EQ(report.text, r.text) << "the report is refused in other words";
}

TEST(refusals, EachBadBatch) {
    std::set<std::string> names;
    for (const auto& cases : {syntax_errors(), whole_file_errors(), wrong_types(), key_errors(), value_errors()})
        for (const auto& bad : cases) {
            expect_refused(bad);
            EXPECT_TRUE(names.insert(bad.name).second) << bad.name << " twice";
        }
    EXPECT_GE(names.size(), 250U);
}

TEST(refusals, HundredMegabytesAreRefusedBySize) {
    const std::string brackets(100000000, '[');
    const reply r = call(&sirop_predict_json, brackets.data(), brackets.size());
    EXPECT_EQ(r.status, SIROP_E_BATCH);
    expect_one_line(r.text);
    EXPECT_TRUE(starts_with_place(r.text, "batch") && contains_any(r.text, "1 MiB|1048576")) << r.text;
    EXPECT_EQ(contains_any(r.text, "deep|nest"), false) << r.text;
}

TEST(refusals, EveryPrefixOfAGoodFile) {
    ASSERT_TRUE(answered(predict(contract_example)));
    for (std::size_t bytes = 0; bytes < contract_example.size(); ++bytes) {
        SCOPED_TRACE(bytes);
        const reply r = predict(contract_example.substr(0, bytes));
        ASSERT_EQ(r.status, SIROP_E_BATCH) << r.text;
        expect_one_line(r.text);
        EXPECT_TRUE(starts_with_place(r.text, "line *|batch")) << r.text;
    }
}

std::string cook_at(const std::string& pan, double celsius, const std::string& rest = "") {
    return batch(pan, "{\"to_celsius\":" + std::to_string(celsius) + rest + "}");
}

// The refusal names a temperature; taken at its word it is answered, and half a degree hotter is not.
TEST(refusals, TooHotNamesTheHighestTemperature) {
    for (const double target : {240.0, 300.0})
        for (piece rest : words{"", ",\"altitude_metres\":3000", ",\"water_boils_celsius\":99"}) {
            const reply r = predict(cook_at(syrup_rows, target, rest));
            EXPECT_EQ(r.status, SIROP_E_BATCH);
            int kept = 0;
            for (piece number : numbers_in(r.text)) {
                const double celsius = std::stod(number);
                kept += answered(predict(cook_at(syrup_rows, celsius, rest))) &&
                        !answered(predict(cook_at(syrup_rows, celsius + 0.5, rest)));
            }
            EXPECT_GE(kept, 1) << r.text;
        }
}

// The temperature named is the boiling point of the pan as it stands, to the tenth of a degree, rounded either
// way.
TEST(refusals, TooWetNamesWhereItStartsToBoil) {
    const std::string pan = R"({"ingredient":"a","grams":900,"per_100_g":{"sucrose":100}},)"
                            R"({"ingredient":"b","grams":100,"per_100_g":{"water":100}})";
    std::vector<double> grams(SIROP_COMPONENT_COUNT, 0.0);
    grams[SIROP_SUCROSE] = 900, grams[SIROP_WATER] = 100;
    sirop_estimate boils{};
    ASSERT_GE(sirop_boiling_point_celsius(grams.data(), SIROP_COMPONENT_COUNT, 1013.25, &boils), SIROP_OK);
    const reply r = predict(cook_at(pan, 105));
    EXPECT_EQ(r.status, SIROP_E_BATCH);
    bool named = false;
    for (piece number : numbers_in(r.text)) named |= std::abs(std::stod(number) - boils.value) <= 0.1;
    EXPECT_TRUE(named) << boils.value << " is not in: " << r.text;
    EXPECT_TRUE(answered(predict(cook_at(pan, boils.value + 0.2))));
    EXPECT_FALSE(answered(predict(cook_at(pan, boils.value - 0.2))));
}

TEST(accepted, TheContractExample) {
    const reply r = predict(contract_example);
    ASSERT_TRUE(answered(r)) << r.text;
    expect_finite_answer(r.text);
    EXPECT_NEAR(number_at(r.text, "cooked", "celsius"), 108.5, 1e-6);
    EXPECT_NEAR(number_at(r.text, "set", "celsius"), 18, 1e-6);
    EXPECT_EQ(predict(contract_example).text, r.text) << "the same text twice";
}

TEST(accepted, OtherSpellingsOfTheSameBatch) {
    const double water = number_at(predict(batch(syrup_rows)).text, "cooked", "water_percent");
    EXPECT_GT(water, 15.0);
    const std::string pad(1048576 - batch(syrup_rows).size(), ' ');
    for (const std::string& same :
         {with_named("WHITE Sugar"), with_named("  white sugar  "), with_row(R"("grams":2.5e2)"),
          with_row(R"("grams":250.000)"), with_row(R"("grams":25E+1)"),
          batch(R"({"ingredient":"salt","grams":0},)" + syrup_rows), batch(syrup_rows) + pad,
          batch(syrup_rows) + "\r\n\t", with_rest(R"("title":"caf\u00e9 \ud83c\udf6c")"),
          with_rest("\"title\":\"caf\u00e9\""), with_rest(R"("serve":{"celsius":-18})"),
          with_rest("\"off_heat\":[]"), cooked_to("227.3", "to_fahrenheit"), with_cook("\"pressure_hpa\":1013.25"),
          with_cook("\"altitude_metres\":0"), with_cook("\"altitude_feet\":0"), with_named("white \\u0073ugar")}) {
        SCOPED_TRACE(same.substr(0, 300));
        const reply r = predict(same);
        ASSERT_TRUE(answered(r)) << r.text;
        expect_finite_answer(r.text);
        EXPECT_NEAR(number_at(r.text, "cooked", "water_percent"), water, 1e-9 * water);
    }
}

TEST(accepted, OptionalParts) {
    const reply plain = predict(batch(syrup_rows)), frozen = predict(with_rest(R"("serve":{"celsius":-18})"));
    EXPECT_NEAR(number_at(plain.text, "set", "celsius"), 20, 1e-9);
    EXPECT_NEAR(number_at(frozen.text, "set", "celsius"), -18, 1e-9);
    for (const std::string& good :
         {with_added("\"celsius\":5"), with_syrup(R"("dextrose_equivalent":38,"solids_percent":80)"),
          with_parts(R"("water":25,"sucrose":74.96)"), with_parts(R"("water":25,"sucrose":75.04)"),
          with_row(R"("grams":250,"per_100_g":{"sucrose":100})"),
          with_cook(R"("water_boils_celsius":99,"thermometer_reads_in_boiling_water_celsius":100.2)")}) {
        const reply r = predict(good);
        EXPECT_TRUE(answered(r)) << r.text << " for " << good;
        expect_finite_answer(r.text);
    }
}

// A byte order mark is either refused at its place or changes nothing.
TEST(accepted, ByteOrderMark) {
    const reply plain = predict(batch(syrup_rows)), marked = predict("\xef\xbb\xbf" + batch(syrup_rows));
    EXPECT_TRUE(answered(plain)) << plain.text;
    const bool refused =
        marked.status == SIROP_E_BATCH && starts_with_place(marked.text, "line 1, column 1|batch");
    EXPECT_TRUE(refused || marked.text == plain.text) << marked.text;
}

// Odd but legal pans: a finite answer or one line, never a number that is none.
TEST(accepted, OddPans) {
    int good = 0;
    for (piece part :
         words{"fat", "salt", "protein", "starch", "acid", "glycerol", "minerals", "maltoheptaose", "water"})
        for (piece grams : words{"1e-9", "100", "1000"})
            for (const double celsius : {60.0, 100.0, 108.5, 150.0}) {
                const std::string row =
                    R"({"ingredient":"x","grams":)" + grams + R"(,"per_100_g":{")" + part + R"(":100}},)";
                const reply r = predict(cook_at(row + water_row, celsius));
                expect_finite_or_one_line(r, row);
                good += answered(r);
            }
    EXPECT_GE(good, 2) << "100 g of acid or of glycerol in 150 g of water boils below 108.5 C";
}

TEST(buffers, TooSmallEnoughAndNull) {
    for (const auto function : {&sirop_predict_json, &sirop_predict_report})
        for (piece text : words{contract_example, batch("")}) {
            const reply whole = predict(text, function);
            std::size_t needed = 0;
            EXPECT_EQ(function(text.data(), text.size(), nullptr, nullptr, 0, &needed), SIROP_E_BUFFER);
            ASSERT_EQ(needed, whole.text.size() + 1);
            for (const std::size_t bytes : {std::size_t{1}, needed / 2, needed - 1, needed}) {
                std::string out(needed + 8, '#');
                std::size_t again = 0;
                EXPECT_EQ(function(text.data(), text.size(), nullptr, out.data(), bytes, &again),
                          bytes < needed ? SIROP_E_BUFFER : whole.status);
                EXPECT_EQ(again, needed);
                EXPECT_LT(out.find('\0'), bytes) << "no NUL inside the buffer";
                EXPECT_EQ(out.substr(bytes), std::string(needed + 8 - bytes, '#')) << "written past the buffer";
                EXPECT_TRUE(bytes < needed || out.c_str() == whole.text);
            }
            std::string out(needed, '#');
            EXPECT_EQ(function(nullptr, 5, nullptr, out.data(), needed, &needed), SIROP_E_NULL);
            EXPECT_EQ(function(text.data(), text.size(), nullptr, nullptr, 8, &needed), SIROP_E_NULL);
            EXPECT_EQ(function(text.data(), text.size(), "mars 2004", out.data(), out.size(), &needed),
                      SIROP_E_NAME);
        }
}

// Random damage to the example: replaced, inserted, removed and repeated bytes.
TEST(refusals, RandomDamage) {
    const char* divisor = std::getenv("SIROP_SWEEP_DIVISOR");
    const int runs = std::max(200, 20000 / std::max(1, divisor ? std::atoi(divisor) : 1));
    std::mt19937_64 random(20240217);
    const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
    const std::string likely = "0123456789.-+eE\"{}[],: \\/nulltrufs\n";
    int good = 0, bad = 0;
    for (int run = 0; run < runs; ++run) {
        std::string text = contract_example;
        for (std::size_t edits = 1 + below(3); edits > 0; --edits) {
            const std::size_t at = below(text.size());
            const char byte = below(4) == 0 ? static_cast<char>(below(256)) : likely[below(likely.size())];
            const std::size_t kind = below(4);
            if (kind == 0) text[at] = byte;
            if (kind == 1) text.insert(at, 1, byte);
            if (kind == 2) text.erase(at, 1 + below(4));
            if (kind == 3) text.insert(at, text.substr(below(text.size()), 1 + below(40)));
        }
        const reply r = predict(text);
        expect_finite_or_one_line(r, text);
        ++(answered(r) ? good : bad);
    }
    EXPECT_GT(good, runs / 100);
    EXPECT_GT(bad, runs / 4);
}

}  // namespace
