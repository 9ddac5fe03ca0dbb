// What the programs that ask an inverse question share: a batch file, what is wanted of it, and the answer as a
// page.
#pragma once

#include <sirop/sirop.h>

#include <nlohmann/json.hpp>
#include <string>

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

/// A program that asks one question about a batch file.
class program : public CLI::App {
  public:
    program(const char* what, const char* name, const char* batch = "The batch file, or - for standard input")
        : App(what, name) {
        footer(kitchen::cautions());
        add_option("batch", path_, batch)->required();
        add_flag("--json", json_, "Print one JSON object instead of the page");
    }
    /// Asks the question and prints the answer.  The exit status: 0, 2 for a refusal, or 3.
    int ask(json asked) const {
        const auto batch = kitchen::read_all(path_);
        if (!batch) return kitchen::cannot_read(path_);
        // The file's own text goes in as it is, so that duplicate keys and places are the library's to name.  It
        // must be one JSON value: what ends it early would write the question on.
        if (!json::accept(*batch)) return kitchen::refused(syntax_error(*batch));
        asked["sirop_question"] = 1;
        std::string text = asked.dump(-1, ' ', false, json::error_handler_t::replace);
        text.back() = ',';
        text += "\"batch\":" + *batch + "}";
        const auto call = json_ ? sirop_ask_json : sirop_ask_report;
        return kitchen::print_reply([&](char* out, std::size_t bytes, std::size_t* needed) {
            return call(text.data(), text.size(), out, bytes, needed);
        });
    }

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
            numbers_.push_back(group->add_option(std::string("--") + name)->check(kitchen::within(0.0, 1e15)));
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
        for (const auto* option : numbers_)
            if (option->count() > 0) object[key_of(option)] = option->as<double>();
        for (const auto* option : words_)
            if (option->count() > 0) object[key_of(option)] = option->as<std::string>();
        if (celsius_->count() > 0) object["celsius"] = celsius_->as<double>();
        if (within_->count() > 0) object["within"] = within_->as<double>();
        if (table_->count() > 0) object["table"] = table_->as<std::string>();
        return object;
    }

  private:
    std::vector<CLI::Option*> numbers_, words_;
    CLI::Option *celsius_ = nullptr, *within_ = nullptr, *table_ = nullptr;

    static std::string key_of(const CLI::Option* option) {
        std::string key = option->get_lnames().front();
        for (char& c : key) c = c == '-' ? '_' : c;
        return key;
    }
};

}  // namespace question
