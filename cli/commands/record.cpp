// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <trialfit/job/former.hpp>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/document/text.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
#include <trialfit/reading/edit/edit.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/reading/size/given.hpp>
#include <trialfit/reading/yaml/tokens.hpp>
#include <trialfit/sheet/trial_fit.hpp>
#include <trialfit/stack/change/as_built.hpp>

#include "command.hpp"
#include "exit_codes.hpp"
#include "files/input.hpp"
#include "files/output_file.hpp"
#include "files/read_back.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct RecordGiven {
    std::string job;
    std::string date;
    std::string who;
    std::string note;
    std::vector<std::string> cuts;
    std::vector<std::string> takes;
    std::vector<std::string> shims;
    std::vector<std::string> laps;
    std::vector<std::string> centred;
    std::vector<std::string> measured;
    std::optional<std::string> file;
    bool in_place = false;
    bool force = false;
};

// The two sides of the first `mark`; nothing where it is not there or a side is empty.
std::optional<std::pair<std::string, std::string>> split(std::string_view text,
                                                         std::string_view mark) {
    const std::size_t at = text.find(mark);
    if (at == std::string_view::npos) return std::nullopt;
    std::pair<std::string, std::string> sides{reading::trimmed(text.substr(0, at)),
                                              reading::trimmed(text.substr(at + mark.size()))};
    if (sides.first.empty() || sides.second.empty()) return std::nullopt;
    return sides;
}

// "NAME: FACE to FACE = SIZE [pushed in|out]"
std::optional<reading::MeasuredReading> measured_of(const std::string& text) {
    const auto named = split(text, ":");
    const auto sides = named ? split(named->second, "=") : std::nullopt;
    const auto faces = sides ? split(sides->first, " to ") : std::nullopt;
    if (!faces) return std::nullopt;
    reading::MeasuredReading out{.name = named->first,
                                 .from = faces->first,
                                 .to = faces->second,
                                 .is = sides->second,
                                 .pushed = {}};
    if (const auto pushed = split(out.is, " pushed ")) {
        out.is = pushed->first;
        out.pushed = pushed->second;
    }
    return out;
}

// The first name that comes twice; empty where none does.
template <typename Named>
std::string doubled(const std::vector<Named>& all) {
    for (std::size_t i = 0; i < all.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (all[i].first == all[j].first) return all[i].first;
    return {};
}

// Words of an option that each give a name and what stands behind '='.
struct Pairs {
    std::string_view option;
    const std::vector<std::string>& words;
    std::string_view what;
    std::string_view like;
    std::vector<std::pair<std::string, std::string>>& into;
};

// The entry that the command line asks for; complains and returns nothing where it is wrong.
std::optional<reading::RecordedEntry> entry_of(const RecordGiven& given) {
    const auto refused = [](const std::string& fault, const std::string& mend) {
        refuse_line(paper::harmless(fault), mend);
        return std::nullopt;
    };
    reading::RecordedEntry entry{.date = given.date, .who = given.who, .note = given.note};
    for (const Pairs& each : {Pairs{"--cut", given.cuts, "face and size",
                                    "'plate.front=5.21 by caliper'", entry.as_cut},
                              Pairs{"--take", given.takes, "face and amount",
                                    "'plate.front=0.60 by caliper'", entry.taken_off},
                              Pairs{"--lap", given.laps, "cone and amount",
                                    "'rotor.bore=0.04', off the diameters", entry.lapped},
                              Pairs{"--centred", given.centred, "part and clearance",
                                    "'plate=0.06', what is left on diameter", entry.centred}})
        for (const std::string& word : each.words) {
            auto pair = split(word, "=");
            if (!pair)
                return refused(fmt::format("{} '{}' gives no {}", each.option, word, each.what),
                               fmt::format("write it like {}", each.like));
            each.into.push_back(std::move(*pair));
        }
    for (const std::string& word : given.shims) {
        const auto shim = split(word, "=");
        // Points and commas: two shims in a row, and no decimal comma, which the reader tells of.
        const auto has = [&shim](char mark) {
            return shim && shim->second.find(mark) != std::string::npos;
        };
        if (!shim || (has('.') && has(',')))
            return refused("--shim '" + word + "' gives no part and shims",
                           "write it like 'stator=0.5+0.3', or 'stator=none'");
        entry.fitted.emplace_back(shim->first, reading::pieces_of(shim->second));
    }
    for (const std::string& word : given.measured) {
        auto reading = measured_of(word);
        if (!reading)
            return refused("--measured '" + word + "' gives no name, two faces and a size",
                           "write it like 'rim gap: plate.front to rotor.rim = 0.85 by caliper'");
        entry.measured.push_back(std::move(*reading));
    }
    std::vector<std::pair<std::string, std::string>> faces = entry.as_cut;
    faces.insert(faces.end(), entry.taken_off.begin(), entry.taken_off.end());
    if (const std::string twice =
            doubled(faces) + doubled(entry.fitted) + doubled(entry.lapped) + doubled(entry.centred);
        !twice.empty())
        return refused("'" + twice + "' is given twice",
                       "one entry has one size of a face, and "
                       "one stack of shims of a part");
    if (entry.as_cut.empty() && entry.taken_off.empty() && entry.fitted.empty() &&
        entry.lapped.empty() && entry.centred.empty() && entry.measured.empty() &&
        entry.note.empty())
        return refused("there is nothing to record",
                       "give --cut, --take, --shim, --lap, --centred, --measured or --note");
    return entry;
}

// A plain number: nobody said how well it is known.
bool is_bare(const std::string& size) {
    return !size.empty() && size.find_first_not_of("0123456789.") == std::string::npos;
}

// A bare size as it is taken: by the gauge that reads the face, else within what the lathe holds.
std::string as_taken(const job::Job& job, const std::string& face, const std::string& size) {
    const auto named = job::face_named(job, face);
    const job::Cut* const cut = named ? job::cut_of(job, *named) : nullptr;
    if (cut == nullptr) return size;
    const std::optional<job::GaugeId> gauge =
        job::gauge_of(job.parts.at(static_cast<std::size_t>(named->part)), *cut);
    if (gauge) return size + " by " + job.gauges.at(static_cast<std::size_t>(*gauge)).name;
    if (cut->holds > 0.0) return fmt::format("{} ±{:.9g}", size, cut->holds);
    return size;
}

// Gives bare sizes their limits, and says which.
std::string take_bare(const job::Job& job, std::vector<std::pair<std::string, std::string>>& cuts) {
    std::string said;
    for (auto& [face, size] : cuts) {
        if (!is_bare(size)) continue;
        const std::string taken = as_taken(job, face, size);
        if (taken != size) said += fmt::format("{} is taken as {}.\n", face, taken);
        size = taken;
    }
    return said;
}

// What is left of a clearance lies anywhere from nothing to that.
std::string take_clearances(std::vector<std::pair<std::string, std::string>>& centred) {
    std::string said;
    for (auto& [part, left] : centred) {
        if (!is_bare(left) || left.find("..") != std::string::npos) continue;
        left.insert(0, "0..");
        said += fmt::format("The clearance of {} is taken as {}.\n", part, left);
    }
    return said;
}

// What is said of the changed file and was not said of the file as it was.
job::Complaints news(const reading::Edited& after, const Loaded& loaded) {
    const job::Complaints before = reading::read_job(loaded.text, loaded.job.file).complaints;
    job::Complaints fresh;
    for (const job::Complaint& each : after.complaints) {
        const bool known =
            std::any_of(before.begin(), before.end(), [&](const job::Complaint& old) {
                return old.at == each.at && old.fault == each.fault;
            });
        if (!known) fresh.push_back(each);
    }
    return fresh;
}

// What the work that the changed file tells of calls for.
std::string cautions_of(const reading::Edited& after, const Loaded& loaded) {
    const auto read = reading::read_job(*after.text, loaded.job.file);
    if (!read.job) return {};
    paper::Document out;
    out.add(paper::cautions_block(stack::cautions(*read.job), paper::NextWork::record));
    return out.blocks.empty() ? "" : "\n" + paper::text_of(out, error_style());
}

// Whether the changed file can be judged, or could not be as it was. What this entry makes
// contradict itself is told and not written.
bool stands(const std::string& text, const Loaded& loaded, const std::string& name) {
    const job::Complaints now = against(text, loaded.job.file);
    if (now.empty()) return true;
    const bool as_before = !against(loaded.text, loaded.job.file).empty();
    tell_complaints(now, name, text);
    if (!as_before)
        tell(
            "Nothing was written: with this entry the file contradicts itself, as the lines "
            "above say. Measure again, or first mend the size that is wrong.\n");
    return as_before;
}

// The file that the entry is for; nothing for standard output.
std::optional<Target> entry_target(const RecordGiven& given) {
    if (given.in_place || given.file.value_or("-") == "-") return std::nullopt;
    return Target{.name = *given.file,
                  .overwrite = given.force,
                  .job = given.job,
                  .instead = "--in-place writes it back, another name leaves it alone"};
}

int wrong_pair(const RecordGiven& given) {
    return refuse_line(given.file ? "--in-place and -o say two things"
                                  : "standard input cannot be written in place",
                       given.file ? "keep one of the two" : "write the job with -o FILE");
}

std::string written(const RecordGiven& given, const Loaded& loaded, const std::string& date) {
    const std::string word = paper::shell_word(given.in_place ? given.job : *given.file);
    return fmt::format("Recorded in {}: entry {} of its record, {}. Now: trialfit check {}\n", word,
                       loaded.job.record.size() + 1, date, word);
}

// What stands before anything that is said of the job as it now is.
struct Standing {
    std::string lines;
    bool fails = false;  ///< a limit was passed or is not judged, or a part stands off its seat
};

Standing standing(const std::string& text, const std::string& file) {
    Standing out;
    const reading::Outcome outcome = reading::read_job(text, file);
    if (!outcome.job) return out;
    const auto built = stack::as_built(*outcome.job, outcome.job->record.size());
    const auto* const now = std::get_if<job::Job>(&built);
    if (now == nullptr) return out;
    std::string planned;
    for (const job::PlannedWork& work : now->planned)
        planned += (planned.empty() ? "PLANNED, NOT CUT YET: " : ", ") + work.what;
    if (!planned.empty()) out.lines = planned + ".\n";
    for (const job::LimitPassed& passed : job::limits_passed(*now)) {
        out.lines += paper::words(job::Warning(passed)) + "\n";
        out.fails = true;
    }
    for (const job::KeepNotJudged& keep : job::keeps_not_judged(*now)) {
        out.lines += paper::words(job::Warning(keep)) + "\n";
        out.fails = true;
    }
    // A part that the last trial fit still found off its seat, and what holds it.
    const auto outcome_now = trial_fit(*outcome.job);
    if (const auto* const answer = std::get_if<stack::CheckAnswer>(&outcome_now))
        for (const stack::Warning& warning : answer->warnings) {
            if (!std::holds_alternative<stack::StoodOff>(warning)) continue;
            out.lines += paper::words(warning) + "\n";
            out.fails = true;
        }
    return out;
}

int run(const RecordGiven& given) {
    if (given.in_place && (given.file || given.job == "-")) return wrong_pair(given);
    auto entry = entry_of(given);
    if (!entry) return kWrong;
    const std::optional<Target> target = entry_target(given);
    if (target)
        if (const int code = may_write(*target); code != kHolds) return code;
    std::optional<Held> held;
    if (given.in_place) held.emplace(given.job);
    if (held && held->code() != kHolds) return held->code();
    const auto loaded = load(given.job);
    if (!loaded) return kWrong;
    if (entry->date.empty()) entry->date = next_day(loaded->job);
    const std::string taken = take_bare(loaded->job, entry->as_cut) +
                              take_bare(loaded->job, entry->taken_off) +
                              take_clearances(entry->centred);
    const reading::Edited after = reading::edited(loaded->text, {*entry});
    tell_complaints(news(after, *loaded), given.job, after.about);
    if (!after.text) {
        if (after.about != loaded->text)
            tell("Nothing was written: the lines above are the entry as it would have stood.\n");
        return kWrong;
    }
    if (!stands(*after.text, *loaded, given.job)) return kWrong;
    Standing now = standing(*after.text, given.job);
    now.lines += taken;
    const int verdict = now.fails ? kFails : kHolds;
    if (!held && !target) {
        const int code = deliver(*after.text, verdict);
        if (code == verdict) tell(now.lines + cautions_of(after, *loaded));
        return code;
    }
    const int code =
        held ? held->write_back(*after.text, loaded->text) : write_whole(*target, *after.text);
    if (code != kHolds) return code;
    return deliver(now.lines + written(given, *loaded, entry->date) + cautions_of(after, *loaded),
                   verdict);
}

}  // namespace

Command add_record(CLI::App& program) {
    auto given = std::make_shared<RecordGiven>();
    CLI::App* line = program.add_subcommand("record", "Put down what was cut, fitted and measured");
    line->add_option("JOB", given->job, "The job file; - for standard input")->required();
    const auto several = [&](const char* name, std::vector<std::string>& into, const char* what,
                             const char* type) {
        line->add_option(name, into, what)->type_name(type)->allow_extra_args(false);
    };
    several("--cut", given->cuts, "A face's size as cut: plate.front=5.21 by caliper", "FACE=SIZE");
    several("--take", given->takes, "What came off a face: plate.front=0.60 by caliper",
            "FACE=AMOUNT");
    several("--shim", given->shims, "The shims now under a part: 0.5+0.3, or none", "PART=SHIMS");
    several("--lap", given->laps, "What was lapped off a cone's diameter: rotor.bore=0.04",
            "CONE=AMOUNT");
    several("--centred", given->centred,
            "What is left of a part's clearance once it is\ncentred, on diameter: plate=0.06",
            "PART=CLEARANCE");
    several("--measured", given->measured,
            "A reading taken after the work:\n'NAME: FACE to FACE = SIZE [pushed in|out]'",
            "READING");
    line->add_option("--note", given->note, "What is worth knowing")->type_name("TEXT");
    line->add_option("--who", given->who, "Who did it")->type_name("NAME");
    line->add_option("--date", given->date, "The day, YYYY-MM-DD (today)")->type_name("DAY");
    line->add_option("-o,--output", given->file, "Write the job to FILE, not to standard output")
        ->type_name("FILE");
    line->add_flag("--in-place", given->in_place, "Write it back to JOB");
    line->add_flag("--force", given->force, "Overwrite FILE where it is there already");
    line->group("Commands");
    set_help(*line, "JOB [options]",
             "Examples:\n"
             "  trialfit record engine.yaml --date 2026-11-25 --in-place \\\n"
             "    --cut \"plate.front=5.52 by caliper\" --shim stator=0.5+0.3\n"
             "  trialfit record engine.yaml --in-place --cut plate.front=5.52\n"
             "  trialfit record engine.yaml --date 2026-11-25 -o new.yaml --note \"first run\"\n\n"
             "The job's comments, order and layout stay as they are. The last entry is the\n"
             "present state for every command; `check --as-of` looks at an earlier one.");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
