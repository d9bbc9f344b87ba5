// SPDX-License-Identifier: MIT
#include "commands/start_jam.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/start/jam.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/quantity/characters.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/reading/size/given.hpp>

#include "command.hpp"
#include "exit_codes.hpp"
#include "files/installed.hpp"
#include "files/output_file.hpp"
#include "files/read_back.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

// What a caliper's depth rod is good to, mm (common practice, no source).
constexpr double kDepthRod_mm = 0.05;
// A rotor that stands further off than this, mm, is likelier a slip of units.
constexpr double kFurthest_mm = 12.0;

struct Wrong {
    std::string fault;
    std::string mend;
};

// Reads the command line's sizes; throws what is wrong with one.
class JamLine {
public:
    explicit JamLine(const JamGiven& given) : given_(given) {
        job_.units = given.inches ? quantity::Unit::inch : quantity::Unit::mm;
        gauge();
        touching();
        job_.alone = in_words(given.alone, "--alone");
        job_.together = in_words(given.together, "--together");
        readings_.alone = size_of(job_.alone, "--alone");
        readings_.together = size_of(job_.together, "--together");
        clearance();
        for (const std::string& each : given.off)
            off(each);
        in_order();
    }

    [[nodiscard]] const paper::JamJob& job() const { return job_; }
    [[nodiscard]] const survey::JamReadings& readings() const { return readings_; }
    [[nodiscard]] const survey::JamAnswer& answer() const { return answer_; }

private:
    // "0.03", "depth_gauge=0.02".
    void gauge() {
        const double usual = quantity::convert(kDepthRod_mm, quantity::Unit::mm, job_.units);
        std::string half_width = fmt::format("{:.3g}", usual);
        const std::string& text = given_.gauge;
        const std::size_t equals = text.find('=');
        if (equals != std::string::npos) {
            job_.gauge = text.substr(0, equals);
            half_width = text.substr(equals + 1);
        } else if (!text.empty()) {
            half_width = text;
        }
        const auto read = plain(half_width);
        if (!read || *read < 0.0)
            throw Wrong{"--gauge '" + text + "' is no half-width of a gauge",
                        "write how far it may be out either way, as in 0.03, or depth_gauge=0.02"};
        job_.gauge_half_width = half_width;
        context_.units = job_.units;
        context_.gauges.push_back({.name = job_.gauge, .at = {}, .half_width = *read});
    }

    void touching() {
        if (given_.touching != "plate" && given_.touching != "stator")
            throw Wrong{"--touching '" + given_.touching + "' is neither plate nor stator",
                        did_you_mean(given_.touching, {"plate", "stator"},
                                     "it is what holds the rotor off")};
        job_.on_stator = given_.touching == "stator";
    }

    void clearance() {
        job_.clearance = given_.clearance;
        if (given_.clearance.empty()) return;
        readings_.clearance = plain(given_.clearance);
        if (!readings_.clearance || *readings_.clearance < 0.0)
            throw Wrong{"--clearance '" + given_.clearance + "' is no length of at least 0",
                        "write it like 0.5"};
    }

    // "plate=10.00,keep=5.5"
    void off(const std::string& text) {
        const std::size_t equals = text.find('=');
        const std::size_t comma = text.find(",keep=");
        const std::string form = "write it like plate=10.00,keep=5.5";
        if (equals == std::string::npos || equals == 0 || comma <= equals + 1)
            throw Wrong{"--off '" + text + "' is not PART=THICKNESS", form};
        paper::JamJob::Part part{
            .name = quantity::small(text.substr(0, equals)), .now = {}, .keep = {}};
        known(part.name, text);
        part.now = in_words(text.substr(equals + 1, comma - equals - 1), "--off");
        survey::JamPart found{.name = part.name, .now = size_of(part.now, "--off"), .keep = {}};
        if (comma != std::string::npos) {
            part.keep = text.substr(comma + std::string_view(",keep=").size());
            found.keep = plain(part.keep);
            if (!found.keep || *found.keep <= 0.0)
                throw Wrong{"--off '" + text + "' does not say what must remain", form};
            if (*found.keep >= found.now.nominal)
                throw Wrong{"--off '" + text + "' leaves nothing to come off", form};
        }
        job_.parts.push_back(std::move(part));
        readings_.parts.push_back(std::move(found));
    }

    void known(const std::string& name, const std::string& text) const {
        std::vector<std::string> names{"plate", "rotor"};
        if (job_.on_stator) names.emplace_back("stator");
        if (std::find(names.begin(), names.end(), name) == names.end())
            throw Wrong{"--off '" + text + "' names no part of this jam",
                        did_you_mean(name, names,
                                     "metal may come off the plate" +
                                         std::string(job_.on_stator ? ", the stator" : "") +
                                         " or the rotor")};
        for (const paper::JamJob::Part& each : job_.parts)
            if (each.name == name)
                throw Wrong{"--off names the " + name + " twice", "give each part once"};
    }

    // A length without limits.
    [[nodiscard]] std::optional<double> plain(const std::string& text) const {
        job::Job bare;
        bare.units = job_.units;
        const auto read = reading::read_given(text, bare, reading::Bare::exact);
        if (!read.given || read.given->size.is_unmeasured() ||
            read.given->size.half_width() > 0.0 || !std::isfinite(read.given->size.nominal))
            return std::nullopt;
        return read.given->size.nominal;
    }

    // A figure alone was read by the gauge.
    [[nodiscard]] std::string in_words(const std::string& text, const char* option) const {
        if (text.empty())
            throw Wrong{std::string(option) + " is missing",
                        "trialfit start jam --alone 13.97 --together 10.02"};
        return plain(text) ? text + " by " + job_.gauge : text;
    }

    [[nodiscard]] quantity::Size size_of(const std::string& words, const char* option) const {
        const auto read = reading::read_given(words, context_, reading::Bare::general_tolerance);
        if (!read.given) throw Wrong{std::string(option) + ": " + read.fault, read.mend};
        const quantity::Size& size = read.given->size;
        if (size.is_unmeasured() || size.lower < 0.0)
            throw Wrong{fmt::format("{} '{}' is less than nothing", option, words),
                        "a depth and a thickness are written without a sign"};
        return size;
    }

    // A figure with its unit.
    [[nodiscard]] bool names_unit(const std::string& text) const {
        return plain(text) && text.find_first_not_of("0123456789. ") != std::string::npos;
    }

    void in_order() {
        answer_ = survey::jam(readings_);
        job_.seats = answer_.found == survey::JamAnswer::Found::seats;
        if (answer_.found == survey::JamAnswer::Found::wrong_way)
            throw Wrong{
                fmt::format("more thread stands proud with everything fitted ({}) than with "
                            "the rotor alone ({})",
                            given_.together, given_.alone),
                "a rotor that is held off leaves less; were the two swapped, or is one in "
                "inches?"};
        const double most = quantity::convert(kFurthest_mm, quantity::Unit::mm, job_.units);
        if (answer_.off > most && !(names_unit(given_.alone) && names_unit(given_.together)))
            throw Wrong{fmt::format("a rotor that stands {:.4g} {} off its seat is more than any "
                                    "seen",
                                    answer_.off, quantity::name(job_.units)),
                        fmt::format("is one of the two in another unit? If both are right, write "
                                    "them with it: --alone '{0} {2}' --together '{1} {2}'",
                                    given_.alone, given_.together, quantity::name(job_.units))};
    }

    const JamGiven& given_;
    job::Job context_;
    paper::JamJob job_;
    survey::JamReadings readings_;
    survey::JamAnswer answer_;
};

// Only what reads again as a job: words of the command line stand in it.
int write_job(const std::string& text, const JamGiven& given) {
    const job::Complaints wrong = against(text, *given.file);
    if (!wrong.empty())
        return refuse_line("these words make no job: " + wrong.front().fault, wrong.front().mend);
    return write_whole({.name = *given.file, .overwrite = given.force, .job = {}}, text);
}

bool to_a_file(const JamGiven& given) {
    return given.file.value_or("-") != "-";
}

}  // namespace

void add_jam_options(CLI::App& line, JamGiven& given) {
    const std::string group = "For `start jam`";
    const auto option = [&](const char* name, std::string& into, const char* type,
                            const char* what) {
        line.add_option(name, into, what)->type_name(type)->group(group);
    };
    option("--alone", given.alone, "A", "Thread standing proud of the rotor, fitted alone");
    option("--together", given.together, "B", "The same with everything fitted");
    option("--clearance", given.clearance, "C", "The gap that it needs when it runs");
    option("--gauge", given.gauge, "G",
           "How far the gauge may be out: 0.03, or NAME=0.02\n(a caliper's depth rod, 0.05 mm)");
    option("--touching", given.touching, "PART",
           "What holds it off: plate (unless said) or stator");
    line.add_option("--off", given.off,
                    "A part that metal may come off, how thick it is\n"
                    "and what must remain; may be given again")
        ->type_name("PART=SIZE[,keep=K]")
        ->allow_extra_args(false)
        ->group(group);
    line.add_flag("--json", given.json, "The answer as JSON, for programs")->group(group);
    line.add_flag("--brief", given.brief, "The answer and nothing else")->group(group);
}

int start_jam(const JamGiven& given) {
    try {
        const JamLine line(given);
        if (to_a_file(given)) {
            const int code = write_job(for_editors(jam_job(line.job())), given);
            if (code != kHolds) return code;
        }
        const bool holds =
            line.answer().found == survey::JamAnswer::Found::seats && !line.readings().clearance;
        return deliver(given.json ? jam_json(line.job(), line.readings(), line.answer())
                                  : jam_text(line.job(), line.readings(), line.answer(),
                                             to_a_file(given) ? *given.file : std::string(),
                                             output_style(given.brief)),
                       holds ? kHolds : kFails);
    } catch (const Wrong& wrong) {
        return refuse_line(paper::listed(wrong.fault, 200), wrong.mend);
    }
}

}  // namespace trialfit::cli
