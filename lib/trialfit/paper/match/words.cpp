// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/match/rank.hpp>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/match/words.hpp>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/paper/spin/text.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
#include <vector>

namespace trialfit::paper {

namespace {

using match::Candidate;
using match::MatchAnswer;
using match::Standing;

std::size_t how_many(const MatchAnswer& answer, Standing standing) {
    return static_cast<std::size_t>(
        std::ranges::count(answer.candidates, standing, &Candidate::standing));
}

// The first complaint, and how many more there are.
std::string told_complaints(const Candidate& candidate, const MatchAnswer& answer) {
    const reading::FileComplaint& first = candidate.complaints.front();
    const job::Complaint& what = first.complaint;
    std::string place = listed(file_name(answer.files[first.file]));
    if (what.at.line > 0) place += fmt::format(":{}", what.at.line);
    std::string told = fmt::format("{}: {}", place, what.fault);
    const std::string mend = mend_of(what);
    if (!mend.empty()) told += "; " + mend;
    if (candidate.complaints.size() > 1)
        told += fmt::format(" ({} more)", candidate.complaints.size() - 1);
    return told;
}

std::string told_open(const Candidate& candidate) {
    if (!candidate.check) return "not judged";
    if (candidate.check->verdict == stack::Verdict::not_judged ||
        match::nothing_judged(*candidate.check))
        return headline(*candidate.check);
    if (candidate.plan && !candidate.plan->plans.empty()) {
        stack::CheckAnswer after = candidate.plan->plans.front().after;
        after.warnings.clear();  // they stand before the whole line
        if (after.verdict == stack::Verdict::not_judged)
            return "after its cheapest plan: " + headline(after);
    }
    return "seat or start is not judged";
}

// Where the checks hold, or would after a plan, and what runs does not.
bool held_by_running(const Candidate& candidate) {
    const bool checks = candidate.check && candidate.check->verdict == stack::Verdict::holds;
    const bool planned = candidate.plan && !candidate.plan->plans.empty() &&
                         candidate.plan->plans.front().after.verdict == stack::Verdict::holds;
    return checks || planned;
}

std::string none_fits(const MatchAnswer& answer) {
    const std::size_t doubtful = how_many(answer, Standing::doubtful);
    const bool one = answer.candidates.size() == 1;
    if (answer.candidates.empty()) return "No kit was judged.";
    if (how_many(answer, Standing::not_judged) == answer.candidates.size())
        return one ? "The kit cannot be judged." : "None of the kits can be judged.";
    std::string told = one ? "The kit is not sure to fit" : "No kit is sure to fit";
    const bool sure = std::ranges::none_of(
        answer.candidates, [](const Candidate& each) { return each.plan && !each.plan->proven; });
    if (doubtful == 0)
        return told + (sure ? ", and no plan mends that."
                            : "; no plan was found that mends that, and one may exist.");
    return fmt::format("{}: nearest is {}, which is doubtful.", told,
                       kit_words(answer.candidates.front(), answer));
}

// What fits besides the best.
std::string told_others(std::size_t hold, std::size_t by_plan) {
    if (hold == 0)
        return fmt::format("{} more {} after a plan.", by_plan, by_plan == 1 ? "does" : "do");
    if (by_plan == 0) return fmt::format("{} more {} so, too.", hold, hold == 1 ? "does" : "do");
    return fmt::format("{} more {} so, too, and {} after a plan.", hold, hold == 1 ? "does" : "do",
                       by_plan);
}

}  // namespace

std::string_view word(Standing standing) {
    switch (standing) {
        case Standing::holds:
            return "holds";
        case Standing::after_plan:
            return "holds after a plan";
        case Standing::doubtful:
            return "doubtful";
        case Standing::no_plan:
            return "no plan";
        case Standing::not_judged:
            break;
    }
    return "not judged";
}

std::string kit_words(const Candidate& candidate, const MatchAnswer& answer) {
    std::vector<std::string> names;
    for (const std::size_t file : candidate.files)
        names.push_back(listed(file_name(answer.files[file])));
    return names.empty() ? std::string("nothing joined")
                         : fmt::format("{}", fmt::join(names, " + "));
}

std::string told_tightest(const Candidate& candidate) {
    if (!candidate.check) return {};
    const stack::CheckAnswer& answer = *candidate.check;
    const std::vector<CheckFinding> all = findings(answer);
    const CheckFinding* const which = deciding(all, answer.judge);
    if (which == nullptr || which->verdict == stack::Verdict::not_judged) return {};
    const int decimals = decimals_for(answer.units, all);
    const auto at = pinch(*which, shown_range(which->value, answer.judge));
    if (!at) return {};
    const std::string_view unit = spoken(answer.units);
    return fmt::format("{} is {} {} in the worst case; {} {} {} is {}", listed(titled(*which), 100),
                       fixed(at->end, decimals), unit,
                       which->more_than && at->low ? "more than"
                       : at->low                   ? "at least"
                                                   : "at most",
                       fixed(at->limit, decimals), unit, at->low ? "needed" : "allowed");
}

std::string told_takes(const Candidate& candidate, const MatchAnswer& answer) {
    if (!candidate.complaints.empty()) return told_complaints(candidate, answer);
    switch (candidate.standing) {
        case Standing::holds:
            return "nothing";
        case Standing::after_plan:
            return told_works(candidate.plan->plans.front(), plan_decimals(*candidate.plan));
        case Standing::doubtful:
        case Standing::no_plan:
            if (held_by_running(candidate)) return "no cut mends how it is held or starts";
            if (!candidate.plan) return "nothing of it may be cut or shimmed";
            return candidate.plan->proven ? "no plan mends it" : "no plan was found (not proven)";
        case Standing::not_judged:
            break;
    }
    return told_open(candidate);
}

std::vector<std::string> told_running(const match::Candidate& candidate) {
    std::vector<std::string> told;
    // What changes the answer stands before the whole line.
    const auto alone = [](auto answer) {
        answer.warnings.clear();
        return answer;
    };
    if (candidate.seat) told.push_back("Seat: " + seat_headline(alone(*candidate.seat)));
    if (candidate.spin) told.push_back("Start: " + spin_headline(alone(*candidate.spin)));
    return told;
}

std::string match_headline(const MatchAnswer& answer) {
    const std::size_t hold = how_many(answer, Standing::holds);
    const std::size_t by_plan = how_many(answer, Standing::after_plan);
    std::string told;
    if (answer.stopped)
        told = fmt::format("STOPPED: {} of {} judged. ", answer.candidates.size(), answer.asked);
    // What changes the answer about the first of them stands before it, as in every answer.
    const bool judged = !answer.candidates.empty() && answer.candidates.front().check;
    if (judged) told = warned(words(answer.candidates.front().check->warnings), told);
    if (hold + by_plan == 0) return told + none_fits(answer);
    const Candidate& best = answer.candidates.front();
    const std::string name = kit_words(best, answer);
    if (best.standing == Standing::holds)
        told += fmt::format("{} fits as it comes{}.", name,
                            best.price ? fmt::format(" (price {})", brief(*best.price, 10)) : "");
    else
        told += fmt::format(
            "None fits as it comes. {} does if you {} (cost {} on the file's own "
            "scale{}).",
            name, told_takes(best, answer), fixed(best.plan->plans.front().cost, 2),
            best.plan->proven ? "" : "; a cheaper plan may exist");
    const std::size_t others = hold + by_plan - 1;
    if (others > 0)
        told += " " + told_others(hold - (best.standing == Standing::holds ? 1 : 0),
                                  by_plan - (best.standing == Standing::holds ? 0 : 1));
    return told;
}

}  // namespace trialfit::paper
