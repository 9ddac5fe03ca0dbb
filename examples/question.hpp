// What the programs that ask an inverse question share: a batch file, what is wanted of it, and the answer as a
// page.
#pragma once

#include <sirop/sirop.h>

#include <functional>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "kitchen_options.hpp"

namespace question {

using json = nlohmann::ordered_json;

/// What the library says of a batch file that is not JSON.
inline std::string syntax_error(const std::string& batch) {
    sirop_batch* read = nullptr;
    sirop_batch_read(batch.data(), batch.size(), &read);
    std::string why = sirop_batch_refusal(read);
    sirop_batch_free(read);
    return why.empty() ? "batch: is not one JSON object" : why;
}

/// Numbers that go into a question under the names of their options, with _ for -.
class numbers {
  public:
    CLI::Option* add(CLI::App& app, const std::string& name, const std::string& what, double low, double high) {
        return options_.emplace_back(app.add_option("--" + name, what)->check(kitchen::within(low, high)));
    }
    void into(json& object) const {
        for (const auto* option : options_)
            if (option->count() > 0) object[key_of(option)] = option->as<double>();
    }
    static std::string key_of(const CLI::Option* option) {
        std::string key = option->get_lnames().front();
        for (char& c : key) c = c == '-' ? '_' : c;
        return key;
    }

  private:
    std::vector<CLI::Option*> options_;
};

/// What a batch is to yield.
class yield_options {
  public:
    explicit yield_options(CLI::App& app) {
        auto* group = app.add_option_group("yield", "how much of it is wanted; one");
        numbers_.add(*group, "grams", "So many g", 0.0, 1e9);
        numbers_.add(*group, "millilitres", "So many ml, as it is served", 0.0, 1e9);
        auto* portions = numbers_.add(*group, "portions", "So many portions, of --grams-per-portion", 0.0, 1e6);
        group->require_option(0, 1);
        auto* each = numbers_.add(app, "grams-per-portion", "What a portion weighs", 0.0, 1e6);
        portions->needs(each);
        each->needs(portions);
    }
    json wanted() const {
        json object = json::object();
        numbers_.into(object);
        return object;
    }

  private:
    numbers numbers_;
};

/// A program that asks one question about a batch file.
class program : public CLI::App {
  public:
    program(const char* what, const char* name, const char* batch = "The batch file, or - for standard input")
        : App(what, name) {
        footer(kitchen::cautions());
        add_option("batch", path_, batch)->required();
        add_flag("--json", json_, "Print one JSON object instead of the page");
    }
    /// Asks the question and prints the answer; `complete` adds what needs the batch.  The exit status: 0, 2 for a
    /// refusal, or 3.
    /// `draw` makes something else of the JSON answer, and gives the status itself.
    int ask(json asked, const std::function<void(json& asked, const json& batch)>& complete = {},
            const std::function<int(const std::string&)>& draw = {}) const {
        const auto batch = kitchen::read_all(path_);
        if (!batch) return kitchen::cannot_read(path_);
        // The file's own text goes in as it is, so that duplicate keys and places are the library's to name.  It
        // must be one JSON value: what ends it early would write the question on.
        if (!json::accept(*batch)) return kitchen::refused(syntax_error(*batch));
        if (complete) complete(asked, json::parse(*batch));
        asked["sirop_question"] = 1;
        std::string text = asked.dump(-1, ' ', false, json::error_handler_t::replace);
        text.back() = ',';
        text += "\"batch\":" + *batch + "}";
        const auto call = json_ || draw ? sirop_ask_json : sirop_ask_report;
        const std::function<int(const std::string&)> show = draw ? draw : kitchen::print;
        return kitchen::print_reply(
            [&](char* out, std::size_t bytes, std::size_t* needed) {
                return call(text.data(), text.size(), out, bytes, needed);
            },
            show);
    }
    const std::string& path() const { return path_; }

  private:
    std::string path_;
    bool json_ = false;
};

/// The options that say what is wanted: one measure, and where.
class wanted_options {
  public:
    explicit wanted_options(CLI::App& app) {
        auto* group = app.add_option_group("wanted", "what it is to be; one");
        for (const char* name : {"water-percent", "water-activity", "brix", "viscosity-pa-s", "firmness-pa-s"})
            numbers_.add(*group, name, "", 0.0, 1e15);
        words_.push_back(
            group->add_option("--set-word", "thin, pourable, ribbon, mounding, soft set, chewy, hard, glassy"));
        words_.push_back(group->add_option("--stage", "a stage of the table, such as \"soft ball\""));
        group->require_option(1);
        celsius_ =
            app.add_option("--at-celsius", "Where activity, viscosity or set are wanted (default: serve.celsius)")
                ->check(kitchen::within(-30.0, 100.0));
        within_ = app.add_option("--within", "Half the band that still counts; a factor for viscosities")
                      ->check(kitchen::within(0.0, 1e3));
        table_ = app.add_option("--table", "The stage table (default: us 2004)");
    }

    json wanted() const {
        json object = json::object();
        numbers_.into(object);
        for (const auto* option : words_)
            if (option->count() > 0) object[numbers::key_of(option)] = option->as<std::string>();
        if (celsius_->count() > 0) object["celsius"] = celsius_->as<double>();
        if (within_->count() > 0) object["within"] = within_->as<double>();
        if (table_->count() > 0) object["table"] = table_->as<std::string>();
        return object;
    }

  private:
    numbers numbers_;
    std::vector<CLI::Option*> words_;
    CLI::Option *celsius_ = nullptr, *within_ = nullptr, *table_ = nullptr;
};

}  // namespace question
