// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <trialfit/paper/check/advice.hpp>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/plan/text.hpp>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
#include <trialfit/quantity/figures.hpp>
#include <utility>

namespace trialfit::paper {

namespace {

using stack::Verdict;

// More than this of one kind is a list to despair at, not advice; the table has them all.
constexpr std::size_t kMostListed = 5;

struct Context {
    const stack::CheckAnswer& answer;
    std::vector<CheckFinding> all;
    int decimals = 2;

    explicit Context(const stack::CheckAnswer& given)
        : answer(given),
          all(distinct_findings(given)),
          decimals(decimals_for(given.units, findings(given))) {}

    [[nodiscard]] std::string enough_with_unit(double length) const {
        return enough(length, decimals) + " " + std::string(spoken(answer.units));
    }
    [[nodiscard]] std::vector<const CheckFinding*> having(Verdict verdict) const {
        std::vector<const CheckFinding*> out;
        for (const CheckFinding& each : all)
            if (each.verdict == verdict) out.push_back(&each);
        return out;
    }
};

// A ring's end that lies beyond its face varies as the face does.
std::string why_command(const Context& context, const CheckFinding& f) {
    const std::string why = "trialfit why " + shell_word(context.answer.file) + " ";
    if (f.about == CheckFinding::About::clearance)
        return why + shell_word(f.first_face) + " " + shell_word(f.second_face);
    if (f.about == CheckFinding::About::radial && f.automatic)
        return why + shell_word(f.first) + " " + shell_word(f.second);
    return why + shell_word(f.name);
}

// An engine has an inside that everybody can point at; a gearbox or a hub has none.
bool is_engine(const Context& context) {
    const auto& all = context.answer.cautions;
    return std::ranges::find(all, stack::Caution::spark_plug) != all.end();
}

std::string faces_apart(const Context& context, const CheckFinding& f, const Pinch& at) {
    const std::string unit(spoken(context.answer.units));
    std::string by = context.enough_with_unit(at.miss);
    std::string split = "split the " + enough(at.miss, context.decimals);
    if (f.at_least && f.at_most) {
        // Not so far that the other limit is broken.
        const stack::Range range = shown_range(f.value, context.answer.judge);
        const double most = at.low ? *f.at_most - range.hi : range.lo - *f.at_least;
        by = enough(at.miss, context.decimals) + " to " + at_most(most, context.decimals) + " " +
             unit;
        split = "split that";
    }
    const bool engine = is_engine(context);
    const std::string_view in = engine ? "towards the engine" : "inboard";
    const std::string_view out = engine ? "away from the engine" : "outboard";
    return fmt::format("move {} {} {}, or {} {} {}, or {}", listed(f.first), by, at.low ? in : out,
                       listed(f.second), by, at.low ? out : in, split);
}

// What would bring a finding that misses its limits inside them.
std::string mend(const Context& context, const CheckFinding& f) {
    const stack::Range range = shown_range(f.value, context.answer.judge);
    const auto at = pinch(f, range);
    if (!at) return "it has no limit to come within";
    if (f.at_least && f.at_most && range.hi - range.lo > *f.at_most - *f.at_least)
        return "measure its sizes better first: they vary by more than its limits allow, and no "
               "cut "
               "or shim mends that";
    const std::string by = context.enough_with_unit(at->miss);
    switch (f.about) {
        case CheckFinding::About::engagement:
            if (!at->low) return "let " + by + " less thread engage";
            return "let " + by +
                   " more thread engage (a longer thread, a longer nut, or a thinner washer where "
                   "the nut does not run out of thread)";
        case CheckFinding::About::overlap:
            return fmt::format("let {} span {} {} of {}", listed(f.second), by,
                               at->low ? "more" : "less", listed(f.first));
        case CheckFinding::About::clamp:
            return "leave " + by +
                   " more thread free where it comes home (a thicker washer, or more thread)";
        case CheckFinding::About::radial:
            if (!at->low)
                return fmt::format(
                    "take {} from it: centre the parts better, or fit parts nearer in size", by);
            return fmt::format(
                "win {} between {} and {}: centre them better, make them run truer, or bring their "
                "diameters twice that further apart. Centre first; to skim a bore or a stator is "
                "the last resort",
                by, listed(f.first), listed(f.second));
        case CheckFinding::About::clearance:
        case CheckFinding::About::gap:
            break;
    }
    return faces_apart(context, f, *at);
}

void add_mends(const Context& context, std::vector<Item>& out) {
    const auto failing = context.having(Verdict::fails);
    const std::string_view judge = phrase(context.answer.judge);
    for (std::size_t i = 0; i < std::min(failing.size(), kMostListed); ++i)
        out.push_back({.text = fmt::format("For '{}' to hold {}: {}.", listed(titled(*failing[i])),
                                           judge, mend(context, *failing[i]))});
    if (failing.size() > kMostListed)
        out.push_back({.text = fmt::format("{} other checks fail too; the tables above have them.",
                                           failing.size() - kMostListed)});
    if (!failing.empty())
        out.push_back({.text =
                           "If you move a face, all parts on it move too, and every cut or shim "
                           "has an error of its own: write the new size into the job and check "
                           "again before you cut."});
}

// The planner looks at every check at once, and at what each cut or shim costs; a mend at one.
void add_plan(const Context& context, const plan::PlanAnswer* cheapest, std::vector<Item>& out) {
    if (!context.answer.may_change || context.answer.verdict == Verdict::holds) return;
    Item item{.text = "Let the plan work out what to cut or shim, with every check at once:",
              .command = "trialfit plan " + shell_word(context.answer.file)};
    if (cheapest != nullptr && cheapest->plans.empty())
        item.text =
            plan_headline(*cheapest) + " What stands in the way, and what would have to give:";
    if (cheapest != nullptr && !cheapest->plans.empty() && !leaves_all(cheapest->plans.front())) {
        item.text = plan_headline(*cheapest);
        const Lengths lengths{context.answer.units, plan_decimals(*cheapest)};
        for (const plan::ReadingAfter& each : cheapest->plans.front().readings)
            item.text += " " + told_reading(each, lengths);
        item.text += " How to do it, and what else would do:";
    }
    out.push_back(std::move(item));
}

void add_measuring(const Context& context, std::vector<Item>& out) {
    const auto failing = context.having(Verdict::fails);
    const auto doubtful = context.having(Verdict::doubtful);
    if (!failing.empty())
        out.push_back({.text = "Measure again before you cut or buy: metal does not grow back. The "
                               "sizes that the figure stands on, biggest first:",
                       .command = why_command(context, *failing.front())});
    std::size_t told = 0;
    for (const CheckFinding* each : doubtful) {
        std::string command = why_command(context, *each);
        // Both limits of one check may be in doubt.
        if (told == kMostListed || (!out.empty() && out.back().command == command)) continue;
        ++told;
        out.push_back({.text = fmt::format("Which size to measure better, so that '{}' is no "
                                           "longer in doubt:",
                                           listed(each->name)),
                       .command = std::move(command)});
    }
}

// What a finding is on the bench: in the state in which every part is at about 20 C, of a job with
// states; nothing where there is none.
std::optional<stack::Bounds> on_the_bench(const Context& context, const CheckFinding& f) {
    if (f.state.empty()) return f.value;
    constexpr double kBench = 20.0;
    constexpr double kAbout = 5.0;
    for (const stack::StateTold& state : context.answer.states) {
        const bool cold = !state.drawn_home && std::abs(state.all_c - kBench) <= kAbout &&
                          std::ranges::all_of(state.parts, [](const auto& part) {
                              return std::abs(part.second - kBench) <= kAbout;
                          });
        if (!cold) continue;
        if (state.name == f.state) return f.value;
        for (const stack::InState& each : f.in_states)
            if (each.state == state.name) return each.value;
    }
    return std::nullopt;
}

// Where nothing is wrong, the best use of the answer is to test it on the bench.
void add_trial_fit(const Context& context, std::vector<Item>& out) {
    const CheckFinding* tightest = nullptr;
    std::optional<stack::Bounds> read;
    double most = 0.0;
    for (const CheckFinding& each : context.all) {
        const bool axial =
            each.about == CheckFinding::About::clearance || each.about == CheckFinding::About::gap;
        const auto at = pinch(each, each.value.worst);
        if (!axial || !at || (tightest != nullptr && at->miss <= most)) continue;
        const auto cold = on_the_bench(context, each);
        if (!cold) continue;
        tightest = &each;
        read = cold;
        most = at->miss;
    }
    if (tightest != nullptr)
        out.push_back({.text = fmt::format(
                           "Trial-fit it and read one gap back: '{}' should come out at {}. "
                           "A reading outside {} says that one of the sizes is wrong.",
                           listed(tightest->name),
                           Lengths{context.answer.units, context.decimals}.with_unit(read->nominal),
                           range(read->worst, context.decimals))});
}

void add_by_rss_only(const Context& context, std::vector<Item>& out) {
    if (context.answer.judge != stack::Judge::rss) return;
    const auto only = std::ranges::count_if(context.all, [](const CheckFinding& f) {
        return f.verdict == Verdict::holds && !within(f, f.value.worst);
    });
    if (only > 0)
        out.push_back({.text = fmt::format(
                           "{} {} by RSS but not in the worst case: likely, not certain, and "
                           "one engine is not an average. Without --judge rss the worst case is "
                           "judged.",
                           only, only == 1 ? "check holds" : "checks hold")});
}

}  // namespace

std::vector<std::string> doubts(const stack::CheckAnswer& answer) {
    const Context context(answer);
    std::vector<std::string> out;
    for (const CheckFinding* f : context.having(Verdict::doubtful)) {
        const auto at = pinch(*f, shown_range(f->value, answer.judge));
        if (!at) continue;
        std::string text = fmt::format(
            "{}: {} nominal{}; {} {}", listed(titled(*f)),
            fixed(f->value.nominal, context.decimals), in_its_state(f->state),
            fixed(at->end, context.decimals),
            answer.judge == stack::Judge::rss ? "by RSS" : "with every size at its bad limit");
        if (at->low && at->limit == 0.0)
            text += at->end < 0.0 ? ", where they foul." : ", where they touch.";
        else
            text += fmt::format(", {} {} {} {}.", apart(at->end, at->limit, context.decimals),
                                at->low ? "short of the" : "over the",
                                fixed(at->limit, context.decimals), at->low ? "needed" : "allowed");
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

std::vector<Item> advice(const stack::CheckAnswer& answer, const plan::PlanAnswer* cheapest) {
    const Context context(answer);
    std::vector<Item> out;
    add_plan(context, cheapest, out);
    add_measuring(context, out);
    add_mends(context, out);
    add_by_rss_only(context, out);
    if (answer.verdict == Verdict::holds) add_trial_fit(context, out);
    if (!answer.not_judged.empty())
        out.push_back({.text = "Give the file what it lacks, so that all is judged: " +
                               words(answer.not_judged.front()) + "."});
    if (out.empty())
        out.push_back({.text = context.all.empty()
                                   ? "Give the parts rings (bore, od) or the job checks, so that "
                                     "there is something to judge."
                                   : "Nothing by these figures: all that is judged holds."});
    return out;
}

}  // namespace trialfit::paper
