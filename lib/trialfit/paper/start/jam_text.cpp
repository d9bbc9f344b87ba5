// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/paper/document/text.hpp>
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/start/jam.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>

namespace trialfit::paper {

namespace {

using survey::JamAnswer;
using survey::JamReadings;
using Found = JamAnswer::Found;

// Lengths of one such answer, in its decimals.
struct JamLengths {
    std::string unit;
    int decimals = 2;

    [[nodiscard]] std::string operator()(double length) const { return fixed(length, decimals); }
    [[nodiscard]] std::string sure(double length) const { return enough(length, decimals); }
};

JamLengths lengths_of(const JamJob& job, const JamReadings& given) {
    std::vector<double> written{given.alone.nominal, given.together.nominal};
    if (given.clearance) written.push_back(*given.clearance);
    for (const survey::JamPart& part : given.parts)
        written.push_back(part.now.nominal);
    return {.unit = std::string(spoken(job.units)),
            .decimals = decimals_for(job.units, written, given.alone.half_width())};
}

std::string first_line_of(const JamAnswer& answer, const JamLengths& told) {
    switch (answer.found) {
        case Found::stands_off:
            return fmt::format("The rotor stands {} {} off its seat ({} to {} in the worst case).",
                               told(answer.off), told.unit, told(answer.worst.lo),
                               told(answer.worst.hi));
        case Found::doubtful:
            return fmt::format(
                "Doubtful: the rotor seems to stand {} {} off its seat; the readings may be out by "
                "as much, so it may seat, or stand off up to {}.",
                told(answer.off), told.unit, told(answer.worst.hi));
        case Found::seats:
        case Found::wrong_way:
            break;
    }
    return fmt::format(
        "It seems to seat: as much thread stands proud as with the rotor alone. By what the "
        "readings may be out, it may stand up to {} {} off.",
        told(answer.worst.hi), told.unit);
}

std::string come_off_line(const JamReadings& given, const JamAnswer& answer,
                          const JamLengths& told) {
    if (!answer.come_off)
        return "How much room is left between the faces, such readings do not say: measure it with "
               "modelling clay or feelers.";
    const std::string much =
        fmt::format("{} {} must come off in all", told(*answer.come_off), told.unit);
    if (given.clearance)
        return fmt::format("With {} clearance {}; {} to be sure.", told(*given.clearance), much,
                           told.sure(answer.to_be_sure));
    return fmt::format(
        "{}, {} to be sure, and the clearance that it needs on top of that (--clearance).", much,
        told.sure(answer.to_be_sure));
}

std::string verdict_of(const JamAnswer::Left& left, const JamLengths& told) {
    if (!left.keep) return "what must remain is not said: NOT JUDGED";
    const std::string need = told(*left.keep) + " must remain";
    switch (left.verdict) {
        case stack::Verdict::holds:
            return need + ": enough";
        case stack::Verdict::doubtful:
            return need + ": doubtful, by what the reading may be out";
        case stack::Verdict::fails:
        case stack::Verdict::not_judged:
            break;
    }
    return need + fmt::format(": TOO THIN by {}", told.sure(*left.keep - left.left));
}

List left_of(const JamAnswer& answer, const JamLengths& told) {
    std::vector<std::string> all;
    for (const JamAnswer::Left& left : answer.left)
        all.push_back(fmt::format("{}: {} now, {} left; {}", left.name, told(left.now),
                                  left.left > 0.0 ? told(left.left) : "nothing",
                                  verdict_of(left, told)));
    return list_of(std::move(all));
}

std::vector<std::string> taken_for_granted(const JamJob& job, const JamReadings& given,
                                           const JamLengths& told) {
    std::vector<std::string> all{
        fmt::format("the thread stands {} proud with the rotor alone and {} with everything fitted",
                    job.alone, job.together),
        fmt::format("each is good to {} {} either way", told(given.alone.half_width()), told.unit),
        "both were read from the same face of the rotor at the same place, with the crank pushed "
        "the same way and the rotor pushed home by hand"};
    if (!job.seats)
        all.push_back(
            fmt::format("what holds the rotor off lies on the {}: --touching says "
                        "otherwise",
                        job.on_stator ? "stator" : "plate"));
    return all;
}

Document next_of(const JamJob& job, const std::string& file) {
    Document out;
    out.add(Heading{"What to do next"});
    if (file.empty())
        return out.under(Paragraph{.text = "Keep it as a job file, with the sizes that nobody has "
                                           "measured left open: the same again with -o jam.yaml",
                                   .indented = true});
    const std::string word = shell_word(file);
    out.under(Paragraph{.text = fmt::format("Wrote {}. What is 'unmeasured' in it is found from "
                                            "the readings as far as they go.",
                                            word),
                        .command = "trialfit check " + word,
                        .indented = true});
    if (!job.seats) out.under(Paragraph{.command = "trialfit plan " + word, .indented = true});
    return out;
}

}  // namespace

std::string jam_text(const JamJob& job, const JamReadings& given, const JamAnswer& answer,
                     const std::string& file, const Style& style) {
    const JamLengths told = lengths_of(job, given);
    Document out;
    out.under(Headline{.text = first_line_of(answer, told),
                       .ink = answer.found == Found::seats ? Ink::good : Ink::bad});
    out.under(Paragraph{come_off_line(given, answer, told)});
    if (!answer.left.empty())
        out.add(Heading{"What is left if all of it comes off one part"})
            .under(left_of(answer, told));
    Document details;
    details.add_list("Taken for granted", taken_for_granted(job, given, told));
    details.add_list("Not judged",
                     {"which two faces meet first, and whether others foul once these clear",
                      "whether the cone bears, the key is clear of its slot and the nut has thread",
                      "whether what is left of a part is strong enough"});
    details.add(next_of(job, file));
    details.add(Paragraph{cautions_line({stack::Caution::lathe, stack::Caution::maker})});
    return text_of(out.add_details(std::move(details)), style);
}

std::string jam_json(const JamJob& job, const JamReadings& given, const JamAnswer& answer) {
    Json out{{"trialfit", 1}, {"command", "start jam"}, {"units", quantity::name(job.units)}};
    out["found"] = answer.found == Found::seats      ? "seats"
                   : answer.found == Found::doubtful ? "doubtful"
                                                     : "stands off";
    out["stands_off"] = {{"nominal", answer.off}, {"worst", range_json(answer.worst)}};
    out["clearance"] = or_null(given.clearance);
    out["come_off"] = answer.come_off
                          ? Json{{"nominal", *answer.come_off}, {"to_be_sure", answer.to_be_sure}}
                          : Json();
    out["left"] = Json::array();
    for (const JamAnswer::Left& left : answer.left)
        out["left"].push_back({{"part", left.name},
                               {"now", left.now},
                               {"left", left.left},
                               {"least", left.least},
                               {"keep", or_null(left.keep)},
                               {"verdict", word(left.verdict)}});
    return json_text(out);
}

}  // namespace trialfit::paper
