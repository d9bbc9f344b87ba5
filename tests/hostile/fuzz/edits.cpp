// SPDX-License-Identifier: MIT
// A job's text is changed as `plan --write` and `record` change it, and written anew as the library
// writes it. The first line of the input says by its bytes which changes; the rest is the job.
#include <algorithm>
#include <array>
#include <trialfit/paper/printed.hpp>
#include <trialfit/reading/edit/edit.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/study/study.hpp>

#include "harness.hpp"

namespace trialfit::fuzz {

namespace {

constexpr std::array<const char*, 12> kSizes = {
    "5.53 ±0.03", "5.21 by caliper", "4",       "0.1 exact",   "3..3.2", "12 thou",
    "1e3",        "a: b # c",        "\"' [{}", "2.5 +0.1 -0", "17 h7",  "unmeasured"};
constexpr std::array<const char*, 8> kNotes = {"",   "a note", "- x: 'y' # z", "\"q\\",
                                               "12", "no",     "two\nlines",   "é \t ±"};

// The bytes that steer the changes, one after the other; 0 once they are used up.
class Steer {
public:
    explicit Steer(std::string_view bytes) : bytes_(bytes) {}

    std::size_t below(std::size_t bound) {
        if (bound == 0 || at_ >= bytes_.size()) return 0;
        return static_cast<unsigned char>(bytes_[at_++]) % bound;
    }
    std::string size() { return kSizes.at(below(kSizes.size())); }
    std::string note() { return kNotes.at(below(kNotes.size())); }
    [[nodiscard]] bool spent() const { return at_ >= bytes_.size(); }

private:
    std::string_view bytes_;
    std::size_t at_ = 0;
};

// The names that a change may give; some of no such thing.
struct Names {
    std::vector<std::string> faces{"nobody.face"};
    std::vector<std::string> cones{"nobody.cone"};
    std::vector<std::string> rings{"nobody.ring"};
    std::vector<std::string> parts{"nobody"};

    explicit Names(const job::Job& job) {
        for (const job::Part& part : job.parts) {
            parts.push_back(part.name);
            for (const job::Face& face : part.faces)
                faces.push_back(part.name + "." + face.name);
            for (const job::Cone& cone : part.cones)
                cones.push_back(part.name + "." + cone.name);
            for (const job::Ring& ring : part.rings)
                rings.push_back(part.name + "." + ring.name);
        }
    }
    static const std::string& one(const std::vector<std::string>& names, Steer& steer) {
        return names[(steer.below(names.size()) + 1) % names.size()];
    }
};

reading::RecordedEntry entry_of(const Names& names, Steer& steer) {
    reading::RecordedEntry entry{.date = "2026-11-25", .who = steer.note(), .note = steer.note()};
    const std::size_t what = steer.below(256);
    entry.planned = (what & 1U) != 0;
    if ((what & 2U) != 0) entry.as_cut.emplace_back(Names::one(names.faces, steer), steer.size());
    if ((what & 4U) != 0)
        entry.as_skimmed.emplace_back(Names::one(names.rings, steer), steer.size());
    if ((what & 8U) != 0) entry.lapped.emplace_back(Names::one(names.cones, steer), steer.size());
    if ((what & 16U) != 0) entry.fitted.push_back({Names::one(names.parts, steer), {steer.size()}});
    if ((what & 32U) != 0)
        entry.taken_off.emplace_back(Names::one(names.faces, steer), steer.size());
    if ((what & 64U) != 0) entry.centred.emplace_back(Names::one(names.parts, steer), steer.size());
    if ((what & 128U) != 0)
        entry.measured.push_back({.name = steer.note(),
                                  .from = Names::one(names.faces, steer),
                                  .to = Names::one(names.faces, steer),
                                  .is = steer.size(),
                                  .pushed = steer.below(2) == 0 ? "" : "in"});
    return entry;
}

reading::Change change_of(const Names& names, Steer& steer) {
    switch (steer.below(6)) {
        case 0:
            return reading::FinishSize{Names::one(names.faces, steer), steer.size()};
        case 1:
            return reading::FittedShims{Names::one(names.parts, steer), {steer.size()}, {}};
        case 2:
            return reading::ConeDiameter{Names::one(names.cones, steer), steer.size()};
        case 3:
            return reading::RingDiameter{Names::one(names.rings, steer), steer.below(2) == 0,
                                         steer.size()};
        case 4:
            return reading::CentredBetter{Names::one(names.parts, steer), steer.size()};
        default:
            return entry_of(names, steer);
    }
}

std::size_t count_of(std::string_view text, std::string_view what) {
    std::size_t count = 0;
    for (std::size_t at = text.find(what); at != std::string_view::npos;
         at = text.find(what, at + what.size()))
        ++count;
    return count;
}

// How many bytes two texts share from their begin, and then from their end.
std::pair<std::size_t, std::size_t> shared(std::string_view one, std::string_view other) {
    const std::size_t least = std::min(one.size(), other.size());
    std::size_t begin = 0;
    while (begin < least && one[begin] == other[begin])
        ++begin;
    std::size_t end = 0;
    while (end < least - begin && one[one.size() - 1 - end] == other[other.size() - 1 - end])
        ++end;
    return {begin, end};
}

// What no change may touch: the mark at the begin, line ends, every line that is a comment.
void hold_kept(const std::string& before, const std::string& after) {
    hold(before.starts_with("\xEF\xBB\xBF") == after.starts_with("\xEF\xBB\xBF"), "the mark stays");
    if (count_of(before, "\r") == 0) hold(count_of(after, "\r") == 0, "line ends stay", after);
    if (count_of(before, "\r\n") == count_of(before, "\n"))
        hold(count_of(before, "\n") == 0 || count_of(after, "\r\n") == count_of(after, "\n"),
             "line ends of Windows stay", after);
    hold(count_of(before, "#") <= count_of(after, "#"), "comments stay", after);
}

// An entry of the record is put in, and not one byte is taken away; of one value no more than it.
void hold_one_change(const std::string& before, const std::string& after,
                     const reading::Change& change) {
    hold_kept(before, after);
    const auto [begin, end] = shared(before, after);
    const std::string gone = before.substr(begin, before.size() - begin - end);
    if (std::holds_alternative<reading::RecordedEntry>(change))
        hold(gone.empty(), "a record is added to, and no more", after);
    if (std::holds_alternative<reading::ConeDiameter>(change) ||
        std::holds_alternative<reading::RingDiameter>(change))
        hold(count_of(gone, "\n") == 0 || gone.find(':') != std::string::npos ||
                 gone.find('"') != std::string::npos || gone.find('\'') != std::string::npos,
             "one value is changed, and no more", after);
}

void hold_edits(std::string text, Steer& steer) {
    constexpr int kMost = 3;
    for (int i = 0; i < kMost && (i == 0 || !steer.spent()); ++i) {
        const reading::Outcome now = reading::read_job(text, "job");
        if (!now.job) return;
        const reading::Change change = change_of(Names(*now.job), steer);
        const reading::Edited edited = reading::edited(text, {change});
        hold(edited.text || job::any_error(edited.complaints), "a text, or why there is none");
        if (!edited.text) return;
        hold(reading::read_job(*edited.text, "job").job.has_value(), "what is changed reads",
             *edited.text);
        hold_one_change(text, *edited.text, change);
        text = *edited.text;
    }
}

std::string check_of(const Study& study) {
    const auto answer = study.check();
    return answer ? paper::check_json(*answer) : answer.complaints().front().fault;
}

void hold_written(const std::string& text) {
    const auto study = Study::read(text);
    if (!study) return;
    const auto written = study->yaml();
    if (!written) return hold(job::any_error(written.complaints()), "a text, or why there is none");
    const auto again = Study::read(*written);
    hold(again.has_value(), "what is written reads", *written);
    hold(again->yaml().has_value(), "what is written can be written", *written);
    hold(*again->yaml() == *written, "written twice it is the same", *written);
    hold(same_json(check_of(*study), check_of(*again)), "what is written has the same answer",
         *written);
}

std::string with_line_ends(const std::string& text, std::string_view end) {
    std::string out;
    for (const char each : text) {
        if (each == '\n')
            out += end;
        else if (each != '\r')
            out += each;
    }
    return out;
}

}  // namespace

TRIALFIT_HARNESS(edits_harness) {
    const std::string input = text_of(bytes, size);
    const std::size_t line = std::min(input.find('\n'), input.size());
    Steer steer(std::string_view(input).substr(0, line));
    std::string text = input.substr(std::min(line + 1, input.size()));
    const std::size_t how = steer.below(8);
    if (how == 0) {
        hold_written(text);
        return 0;
    }
    if ((how & 2U) != 0) text = with_line_ends(text, "\r\n");
    if (how == 7) text = "\xEF\xBB\xBF" + text;
    hold_edits(std::move(text), steer);
    return 0;
}

}  // namespace trialfit::fuzz
