// SPDX-License-Identifier: MIT
#include "command.hpp"

#include <charconv>
#include <cmath>
#include <memory>
#include <system_error>
#include <trialfit/quantity/nearest.hpp>
#include <trialfit/survey/survey.hpp>
#include <utility>
#include <variant>

#include "terminal.hpp"

namespace trialfit::cli {

namespace {

// CLI11's help with the usage in our words, the example beside it, and no blank line to begin with.
class HelpText : public CLI::Formatter {
public:
    explicit HelpText(std::string usage) : usage_(std::move(usage)) { column_width(22); }

    std::string make_usage(const CLI::App* /*app*/, std::string /*name*/) const override {
        return "\n  " + usage_ + "\n";
    }

    // The type of an option's value is said in its description, where it matters.
    std::string make_option_opts(const CLI::Option* option) const override {
        if (option->get_type_size() == 0) return "";
        return option->nonpositional() ? " " + option->get_type_name() : "";
    }

private:
    std::string usage_;
};

constexpr std::string_view kByOdds = "odds=";

}  // namespace

void set_help(CLI::App& line, std::string_view usage, std::string_view examples) {
    const std::string name =
        line.get_parent() == nullptr ? "trialfit" : "trialfit " + line.get_name();
    line.formatter(std::make_shared<HelpText>(name + " " + std::string(usage)));
    line.get_formatter()->label("Positionals", "Arguments");
    line.footer(std::string(examples));
}

void add_form_options(CLI::App& line, bool& json, bool& brief) {
    line.add_flag("--json", json, "The answer as JSON, for programs");
    line.add_flag("--brief", brief, "The answer, its table and nothing else");
}

void add_judge_options(CLI::App& line, JudgeOptions& options) {
    add_form_options(line, options.json, options.brief);
    line.add_option("--judge", options.judge,
                    "What a verdict goes by: worst (case), rss, or odds=0.99")
        ->type_name("HOW");
    line.add_option("--inflate", options.inflate, "Factor on every RSS half-width")->type_name("F");
    line.add_flag("--as-written", options.as_written,
                  "Set the readings aside: the sizes as written");
    add_as_of(line, options.as_of);
    add_what_if(line, options.what_if);
}

void add_as_of(CLI::App& line, std::string& when) {
    line.add_option("--as-of", when,
                    "The parts as they were: after N entries of the record (0: before\n"
                    "the first), or on the day YYYY-MM-DD")
        ->type_name("WHEN");
}

std::optional<double> odds_level(const JudgeOptions& given) {
    if (!given.judge.starts_with(kByOdds)) return std::nullopt;
    const std::string text = given.judge.substr(kByOdds.size());
    const char* end = text.data() + text.size();
    double level = 0.0;
    const auto read = std::from_chars(text.data(), end, level);
    if (read.ec != std::errc() || read.ptr != end || !(level > 0.0 && level < 1.0))
        return std::nullopt;
    return level;
}

// Beyond it an RSS half-width says nothing any more.
constexpr double kMostInflated = 100.0;

std::optional<stack::Options> stack_options(const JudgeOptions& given) {
    stack::Options out;
    if (given.judge == "rss") {
        out.judge = stack::Judge::rss;
    } else if (given.judge.starts_with(kByOdds)) {
        if (!odds_level(given)) {
            refuse_line("--judge '" + given.judge + "' names no chance between 0 and 1",
                        "odds=0.99 is a usual one");
            return std::nullopt;
        }
    } else if (given.judge != "worst") {
        refuse_line("--judge '" + given.judge + "' is neither worst, rss nor odds=CHANCE",
                    did_you_mean(given.judge, {"worst", "rss", "odds=0.99"}));
        return std::nullopt;
    }
    const char* end = given.inflate.data() + given.inflate.size();
    const auto read = std::from_chars(given.inflate.data(), end, out.inflate);
    if (read.ec != std::errc() || read.ptr != end || !std::isfinite(out.inflate) ||
        out.inflate <= 0.0 || out.inflate > kMostInflated) {
        refuse_line("--inflate '" + given.inflate + "' is no number over 0 and up to 100",
                    "1.5 is a usual one");
        return std::nullopt;
    }
    return out;
}

bool bind_readings(stack::Options& options, const JudgeOptions& given, const Loaded& loaded) {
    if (given.as_written) return true;
    auto evidence = survey::evidence(loaded.job);
    if (const auto* complaints = std::get_if<job::Complaints>(&evidence)) {
        complain(*complaints, loaded);
        return false;
    }
    options.readings = std::move(std::get<std::vector<stack::TrialFit>>(evidence));
    return true;
}

int refuse_line(std::string_view fault, std::string_view mend) {
    return refuse("trialfit", fault, mend);
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& names,
                         std::string_view otherwise) {
    const std::string near = quantity::nearest(word, names);
    return near.empty() ? std::string(otherwise) : "did you mean '" + near + "'?";
}

}  // namespace trialfit::cli
