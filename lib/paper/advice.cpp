// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/advice.hpp>
#include <trialfit/paper/figures.hpp>
#include <trialfit/paper/findings.hpp>
#include <trialfit/paper/odds_text.hpp>
#include <trialfit/paper/words.hpp>
#include <trialfit/quantity/figures.hpp>

namespace trialfit::paper {

namespace {

using stack::Verdict;

// More than this of one kind is a list to despair at, not advice; the table has them all.
constexpr std::size_t kMost = 5;

struct Context {
    const stack::CheckAnswer& answer;
    std::vector<Finding> all;
    int decimals = 2;

    explicit Context(const stack::CheckAnswer& given)
        : answer(given),
          all(distinct_findings(given)),
          decimals(decimals_for(given.units, findings(given))) {}

    [[nodiscard]] std::string with_unit(double length) const {
        return fixed(length, decimals) + " " + std::string(spoken(answer.units));
    }
    [[nodiscard]] std::string enough_with_unit(double length) const {
        return enough(length, decimals) + " " + std::string(spoken(answer.units));
    }
    [[nodiscard]] std::vector<const Finding*> having(Verdict verdict) const {
        std::vector<const Finding*> out;
        for (const Finding& each : all)
            if (each.verdict == verdict) out.push_back(&each);
        return out;
    }
};

// The face of a ring's end that lies beyond it: "cap.top -5" varies as "cap.top" does.
std::string face_of(const std::string& end) {
    return end.substr(0, end.find(' '));
}

std::string why_command(const Context& context, const Finding& f) {
    const std::string file = shell_word(context.answer.file);
    if (f.about == Finding::About::clearance)
        return fmt::format("trialfit why {} {} {}", file, shell_word(face_of(f.first)),
                           shell_word(face_of(f.second)));
    if (f.about == Finding::About::radial && f.name == f.first + " in " + f.second)
        return fmt::format("trialfit why {} {} {}", file, shell_word(f.first),
                           shell_word(f.second));
    return fmt::format("trialfit why {} {}", file, shell_word(f.name));
}

std::string faces_apart(const Context& context, const Finding& f, const Pinch& at) {
    std::string by = context.enough_with_unit(at.miss);
    if (f.at_least && f.at_most) {
        // Not so far that the other limit is broken.
        const stack::Range range = shown_range(f.value, context.answer.judge);
        const double most = at.low ? *f.at_most - range.hi : range.lo - *f.at_least;
        by = enough(at.miss, context.decimals) + " to " + at_most(most, context.decimals) + " " +
             std::string(spoken(context.answer.units));
    }
    return fmt::format("{} would have to come {} {}, or {} as far {}, or the two share it",
                       spoken(f.first), by, at.low ? "inboard" : "outboard", spoken(f.second),
                       at.low ? "outboard" : "inboard");
}

// What would bring a finding that misses its limits inside them.
std::string mend(const Context& context, const Finding& f) {
    const stack::Range range = shown_range(f.value, context.answer.judge);
    const auto at = pinch(f, range);
    if (!at) return "it has no limit to come within";
    if (f.at_least && f.at_most && range.hi - range.lo > *f.at_most - *f.at_least)
        return "its sizes leave it more room than its limits allow, so neither a cut nor a shim "
               "can mend it before they are known better";
    const std::string by = context.enough_with_unit(at->miss);
    switch (f.about) {
        case Finding::About::engagement:
            if (!at->low) return by + " less thread would have to engage";
            return by +
                   " more thread would have to engage (a thinner washer, a longer thread, a "
                   "nut that goes further on)";
        case Finding::About::overlap:
            return fmt::format("{} would have to span {} {} of {}", spoken(f.second), by,
                               at->low ? "more" : "less", spoken(f.first));
        case Finding::About::clamp:
            return by +
                   " more thread would have to be left where it comes home (a thicker washer, "
                   "or more thread)";
        case Finding::About::radial:
            if (!at->low)
                return by + " of it would have to go: the parts centred better, or nearer in size";
            return fmt::format(
                "{} would have to come from {} and {} being centred better, running "
                "truer, or lying twice that further apart in diameter. Centre first: "
                "to skim a bore or a stator is the last resort",
                by, spoken(f.first), spoken(f.second));
        case Finding::About::clearance:
        case Finding::About::gap:
            break;
    }
    return faces_apart(context, f, *at);
}

void add_mends(const Context& context, std::vector<Step>& out) {
    const auto failing = context.having(Verdict::fails);
    const std::string_view judge = phrase(context.answer.judge);
    for (std::size_t i = 0; i < std::min(failing.size(), kMost); ++i)
        out.push_back({.text = fmt::format("For '{}' to hold {}, {}.", listed(failing[i]->name),
                                           judge, mend(context, *failing[i]))});
    if (failing.size() > kMost)
        out.push_back({.text = fmt::format("{} more fail; the tables above have them.",
                                           failing.size() - kMost)});
    if (!failing.empty())
        out.push_back({.text = "A face that moves takes along all that sits on it, and a cut "
                               "or a shim brings in a spread of its own: write the new size into "
                               "the job and check again before cutting."});
}

void add_measuring(const Context& context, std::vector<Step>& out) {
    const auto failing = context.having(Verdict::fails);
    const auto doubtful = context.having(Verdict::doubtful);
    if (!failing.empty())
        out.push_back({.text = "Measure again before you cut or buy: metal does not grow back. The "
                               "sizes that the figure stands on, biggest first:",
                       .command = why_command(context, *failing.front())});
    for (std::size_t i = 0; i < std::min(doubtful.size(), kMost); ++i)
        out.push_back({.text = fmt::format("Which size to measure better, so that '{}' is no "
                                           "longer in doubt:",
                                           listed(doubtful[i]->name)),
                       .command = why_command(context, *doubtful[i])});
}

// What a finding is with everything at 20 degrees, as it is on the bench; null where no state is.
const stack::Bounds* on_the_bench(const stack::CheckAnswer& answer, const Finding& f) {
    if (f.state.empty()) return &f.value;
    for (const stack::StateTold& state : answer.states) {
        if (state.all_c != 20.0 || !state.parts.empty()) continue;
        for (const stack::InState& each : f.in_states)
            if (each.state == state.name) return &each.value;
    }
    return nullptr;
}

// Where nothing is wrong, the best use of the answer is to test it on the bench.
void add_trial_fit(const Context& context, std::vector<Step>& out) {
    const Finding* tightest = nullptr;
    double most = 0.0;
    for (const Finding& each : context.all) {
        const bool axial =
            each.about == Finding::About::clearance || each.about == Finding::About::gap;
        const auto at = pinch(each, each.value.worst);
        if (!axial || !at || (tightest != nullptr && at->miss <= most)) continue;
        tightest = &each;
        most = at->miss;
    }
    if (tightest == nullptr) return;
    const stack::Bounds* const value = on_the_bench(context.answer, *tightest);
    if (value == nullptr) return;
    out.push_back(
        {.text = fmt::format("Trial-fit it and read one gap back: '{}' should come out at {}. A "
                             "reading outside {} says that one of the sizes is wrong.",
                             listed(tightest->name), context.with_unit(value->nominal),
                             range(value->worst, context.decimals))});
}

void add_by_rss_only(const Context& context, std::vector<Step>& out) {
    if (context.answer.judge != stack::Judge::rss) return;
    const auto only = std::count_if(context.all.begin(), context.all.end(), [](const Finding& f) {
        return f.verdict == Verdict::holds && !within(f, f.value.worst);
    });
    if (only > 0)
        out.push_back({.text = fmt::format(
                           "{} {} by RSS but not in the worst case: likely, not certain, and "
                           "one engine is not an average. Without --judge rss the worst case is "
                           "judged.",
                           only, only == 1 ? "holds" : "hold")});
}

}  // namespace

// By how much two figures differ as they are printed beside it.
static std::string apart(double one, double other, int decimals) {
    return fixed(std::abs(quantity::rounded(one, decimals) - quantity::rounded(other, decimals)),
                 decimals);
}

std::vector<std::string> doubts(const stack::CheckAnswer& answer) {
    const Context context(answer);
    std::vector<std::string> out;
    for (const Finding* f : context.having(Verdict::doubtful)) {
        const auto at = pinch(*f, shown_range(f->value, answer.judge));
        if (!at) continue;
        std::string text = fmt::format("{}: {}{}, but its sizes' limits taken {} bring it {} to {}",
                                       listed(f->name), fixed(f->value.nominal, context.decimals),
                                       f->state.empty() ? " as written" : in_its_state(f->state),
                                       answer.judge == stack::Judge::rss ? "by RSS" : "together",
                                       at->low ? "down" : "up", fixed(at->end, context.decimals));
        if (at->low && at->limit == 0.0)
            text += at->end < 0.0 ? ", where they foul." : ", where they touch.";
        else
            text +=
                fmt::format(", {} {} the {} needed.", apart(at->end, at->limit, context.decimals),
                            at->low ? "short of" : "over", fixed(at->limit, context.decimals));
        if (answer.judge == stack::Judge::worst)
            text += fmt::format(" RSS {}: that {}.", range(f->value.rss, context.decimals),
                                within(*f, f->value.rss) ? "would hold" : "would not hold either");
        if (f->odds)
            text += fmt::format(" By the odds it {}.",
                                chance_in_words(*f->odds, f->fails.value_or(1.0 - *f->odds)));
        out.push_back(std::move(text));
    }
    return out;
}

std::vector<Step> advice(const stack::CheckAnswer& answer) {
    const Context context(answer);
    std::vector<Step> out;
    add_measuring(context, out);
    add_mends(context, out);
    add_by_rss_only(context, out);
    if (answer.verdict == Verdict::holds) add_trial_fit(context, out);
    if (out.empty())
        out.push_back({.text = "Give the parts rings (bore, od) or the job checks, so that there "
                               "is something to judge."});
    return out;
}

}  // namespace trialfit::paper
