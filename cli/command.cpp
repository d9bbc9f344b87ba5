// SPDX-License-Identifier: MIT
#include "command.hpp"

#include <fmt/format.h>

#include <charconv>
#include <memory>
#include <system_error>
#include <trialfit/quantity/nearest.hpp>
#include <trialfit/survey/survey.hpp>
#include <utility>
#include <variant>

#include "exit_codes.hpp"
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

    [[nodiscard]] const std::string& usage() const { return usage_; }

    // The type of an option's value is said in its description, where it matters.
    std::string make_option_opts(const CLI::Option* option) const override {
        if (option->get_type_size() == 0) return "";
        return option->nonpositional() ? " " + option->get_type_name() : "";
    }

private:
    std::string usage_;
};

// A whole text as a number within its limits.
template <typename Number>
std::optional<Number> number_in(std::string_view text, Number least, Number most) {
    Number number{};
    const char* const end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, number);
    if (read.ec != std::errc() || read.ptr != end || !(number >= least && number <= most))
        return std::nullopt;
    return number;
}

// `Into`: the number, or an optional one.
template <typename Number, typename Into>
CLI::Option* add_number_of(CLI::App& line, const std::string& option, Into& into, Number least,
                           Number most, const std::string& about, std::string_view mend = "") {
    const auto take = [&into, option, least, most, mend](const std::string& text) {
        const std::optional<Number> number = number_in(text, least, most);
        if (!number)
            throw WrongValue(
                fmt::format("{} '{}' is no number from {} to {}", option, text, least, most),
                std::string(mend));
        into = *number;
    };
    return line.add_option_function<std::string>(option, take, about);
}

void take_judge(JudgeOptions& options, const std::string& text) {
    constexpr std::string_view kByOdds = "odds=";
    options.odds.reset();
    options.judge = text == "rss" ? stack::Judge::rss : stack::Judge::worst;
    if (text == "rss" || text == "worst") return;
    if (!text.starts_with(kByOdds))
        throw WrongValue("--judge '" + text + "' is neither worst, rss nor odds=CHANCE",
                         did_you_mean(text, {"worst", "rss", "odds=0.99"}));
    options.odds = number_in(std::string_view(text).substr(kByOdds.size()), 0.0, 1.0);
    if (!options.odds || *options.odds == 0.0 || *options.odds == 1.0)
        throw WrongValue("--judge '" + text + "' names no chance between 0 and 1",
                         "odds=0.99 is a usual one");
}

void take_inflate(JudgeOptions& options, const std::string& text) {
    // Beyond it an RSS half-width says nothing any more.
    constexpr double kMostInflated = 100.0;
    const std::optional<double> factor = number_in(text, 0.0, kMostInflated);
    if (!factor || *factor == 0.0)
        throw WrongValue("--inflate '" + text + "' is no number over 0 and up to 100",
                         "1.5 is a usual one");
    options.inflate = *factor;
}

}  // namespace

WrongValue::WrongValue(std::string fault, std::string mend)
    : ParseError("WrongValue", std::move(fault), kWrong), mend_(std::move(mend)) {}

CLI::Option* add_number(CLI::App& line, const std::string& option, std::uint64_t& into,
                        std::uint64_t least, std::uint64_t most, const std::string& about) {
    return add_number_of(line, option, into, least, most, about);
}

CLI::Option* add_number(CLI::App& line, const std::string& option, double& into, double least,
                        double most, const std::string& about) {
    return add_number_of(line, option, into, least, most, about);
}

CLI::Option* add_number(CLI::App& line, const std::string& option,
                        std::optional<std::uint64_t>& into, std::uint64_t least, std::uint64_t most,
                        const std::string& about, std::string_view mend) {
    return add_number_of(line, option, into, least, most, about, mend);
}

void set_help(CLI::App& line, std::string_view usage, std::string_view examples) {
    const std::string name =
        line.get_parent() == nullptr ? "trialfit" : "trialfit " + line.get_name();
    line.formatter(std::make_shared<HelpText>(name + " " + std::string(usage)));
    line.get_formatter()->label("Positionals", "Arguments");
    line.footer(std::string(examples));
}

std::string usage_of(const CLI::App& line) {
    const auto* const help = dynamic_cast<const HelpText*>(line.get_formatter().get());
    return help == nullptr ? std::string() : help->usage();
}

void add_form_options(CLI::App& line, bool& json, bool& brief) {
    line.add_flag("--json", json, "The answer as JSON, for programs");
    line.add_flag("--brief", brief, "The answer, its table and nothing else");
    add_colour(line);
}

void add_colour(CLI::App& line) {
    const auto take = [](const std::string& text) {
        if (text == "auto")
            set_colour(Colour::as_it_is);
        else if (text == "always")
            set_colour(Colour::always);
        else if (text == "never")
            set_colour(Colour::never);
        else
            throw WrongValue("--color '" + text + "' is neither auto, always nor never",
                             did_you_mean(text, {"auto", "always", "never"}));
    };
    line.add_option_function<std::string>("--color", take,
                                          "auto (on a terminal, unless said), always or never")
        ->type_name("WHEN");
}

void add_judge_options(CLI::App& line, JudgeOptions& options) {
    add_form_options(line, options.json, options.brief);
    line.add_option_function<std::string>(
            "--judge", [&options](const std::string& text) { take_judge(options, text); },
            "What a verdict goes by: worst (case), rss, or odds=0.99")
        ->type_name("HOW");
    line.add_option_function<std::string>(
            "--inflate", [&options](const std::string& text) { take_inflate(options, text); },
            "Factor on every RSS half-width")
        ->type_name("F");
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

stack::Options stack_options(const JudgeOptions& given) {
    stack::Options out;
    out.judge = given.judge;
    out.inflate = given.inflate;
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
