// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using stack::Verdict;

std::size_t count(const std::vector<CheckFinding>& all, Verdict verdict) {
    return static_cast<std::size_t>(std::ranges::count(all, verdict, &CheckFinding::verdict));
}

stack::Range point(double value) {
    return {.lo = value, .hi = value};
}

// The finding of this verdict that misses its limits by most, where and by how much: a failing one
// at nominal, the others by the judged range. One that holds by least is the tightest.
struct Worst {
    const CheckFinding* finding = nullptr;
    Pinch at;
};

Worst worst_of(const std::vector<CheckFinding>& all, Verdict verdict, stack::Judge judge) {
    Worst worst;
    for (const CheckFinding& each : all) {
        if (each.verdict != verdict) continue;
        const auto at = pinch(each, verdict == Verdict::fails ? point(each.value.nominal)
                                                              : shown_range(each.value, judge));
        if (at && (worst.finding == nullptr || at->miss > worst.at.miss))
            worst = {.finding = &each, .at = *at};
    }
    return worst;
}

std::string on_seat(const stack::FirstContact& contact) {
    return fmt::format("before {} seats on {}", spoken("the " + contact.part),
                       contact.seat.empty() ? "the cone" : spoken(contact.seat));
}

std::string lands(const stack::FirstContact& contact, const std::string& how_far) {
    return fmt::format("{} lands on {} {} {}{}", spoken(contact.outboard), spoken(contact.inboard),
                       how_far, on_seat(contact), in_its_state(contact.state));
}

std::string needed(const Worst& worst, const Lengths& lengths) {
    if (!worst.at.low) return lengths.with_unit(worst.at.limit) + " is the most allowed";
    return (worst.finding->more_than ? "more than " : "at least ") +
           lengths.with_unit(worst.at.limit) + " is needed";
}

// "the rotor's rim clears the plate's front by only 0.30 mm; at least 0.50 mm is needed"
std::string failure(const Worst& worst, const Lengths& lengths) {
    const CheckFinding& f = *worst.finding;
    const double value = f.value.nominal;
    const std::string need = needed(worst, lengths);
    const std::string state = in_its_state(f.state);
    if (f.about != CheckFinding::About::clearance)
        return fmt::format("'{}' is {}{}; {}", listed(titled(f)), lengths.with_unit(value), state,
                           need);
    const std::string outboard = spoken(f.second);
    const std::string inboard = spoken(f.first);
    constexpr double kNothing = 1e-9;  // of a sum that should be nothing
    if (value < -kNothing)
        return fmt::format("{} fouls {} by {}{}", outboard, inboard, lengths.with_unit(-value),
                           state);
    if (value <= kNothing)
        return fmt::format("{} touches {}{}; {}", outboard, inboard, state, need);
    return fmt::format("{} clears {} by only {}{}; {}", outboard, inboard, lengths.with_unit(value),
                       state, need);
}

std::string doubt(const Worst& worst, stack::Judge judge, const Lengths& lengths) {
    const CheckFinding& f = *worst.finding;
    const std::string nominal =
        lengths.with_unit(f.value.nominal) + " nominal" + in_its_state(f.state);
    const std::string end = lengths.with_unit(worst.at.end);
    const std::string need = needed(worst, lengths);
    if (f.about != CheckFinding::About::clearance)
        return fmt::format("'{}' is {} but {} {}; {}", listed(titled(f)), nominal, end,
                           phrase(judge), need);
    const std::string clears =
        fmt::format("{} clears {} by {} but ", spoken(f.second), spoken(f.first), nominal);
    if (worst.at.end < 0.0)
        return fmt::format("{}fouls it by {} {}", clears, lengths.with_unit(-worst.at.end),
                           phrase(judge));
    return fmt::format("{}by {} {}; {}", clears, end, phrase(judge), need);
}

// How many others fail or are doubtful, beyond the one that the headline names.
std::string others(std::size_t fails, std::size_t doubtful) {
    const auto counted_others = [](std::size_t n) {
        return fmt::format("{} other {}", n, n == 1 ? "check" : "checks");
    };
    std::string out;
    if (fails > 0)
        out = fmt::format("{} {} too", counted_others(fails), fails == 1 ? "fails" : "fail");
    if (doubtful > 0)
        out += fmt::format("{} {} doubtful",
                           out.empty() ? counted_others(doubtful) : fmt::format(", {}", doubtful),
                           doubtful == 1 ? "is" : "are");
    return out.empty() ? out : " " + out + ".";
}

std::string by_odds(const std::vector<CheckFinding>& all, double level) {
    const CheckFinding* least = nullptr;
    for (const CheckFinding& each : all) {
        if (each.verdict != Verdict::doubtful || !each.odds) continue;
        if (least == nullptr || *each.odds < *least->odds) least = &each;
    }
    if (least == nullptr) return "Doubtful.";
    return fmt::format("Doubtful: {} {}; its odds are {} where {} is asked.", listed(least->name),
                       chance_in_words(*least->odds, least->fails.value_or(1.0 - *least->odds)),
                       brief(*least->odds), brief(level));
}

std::string in_doubt(const stack::CheckAnswer& answer, const std::vector<CheckFinding>& all,
                     const Lengths& lengths) {
    const std::size_t number = count(all, Verdict::doubtful);
    const std::string rest = others(0, number > 1 ? number - 1 : 0);
    if (answer.odds_level) return by_odds(all, *answer.odds_level) + rest;
    if (answer.first_contact) {
        const auto& proud = answer.first_contact->stands_proud;
        const double most = answer.judge == stack::Judge::rss ? proud.rss.hi : proud.worst.hi;
        if (most > 0.0)
            return fmt::format("Doubtful: {} {}.{}", phrase(answer.judge),
                               lands(*answer.first_contact, "up to " + lengths.with_unit(most)),
                               rest);
    }
    const Worst worst = worst_of(all, Verdict::doubtful, answer.judge);
    if (worst.finding == nullptr) return "Doubtful.";
    return "Doubtful: " + doubt(worst, answer.judge, lengths) + "." + rest;
}

std::string does_not_fit(const stack::CheckAnswer& answer, const std::vector<CheckFinding>& all,
                         const Lengths& lengths) {
    const std::size_t fails = count(all, Verdict::fails);
    const std::size_t doubtful = count(all, Verdict::doubtful);
    const auto after = [&](std::size_t named) {
        return others(fails > named ? fails - named : 0, doubtful);
    };
    if (answer.first_contact && answer.first_contact->stands_proud.nominal > 0.0)
        return "Does not fit: " +
               lands(*answer.first_contact,
                     (may_meet_sooner(answer) ? "at least " : "") +
                         lengths.with_unit(answer.first_contact->stands_proud.nominal)) +
               "." + after(1);
    const Worst worst = worst_of(all, Verdict::fails, answer.judge);
    if (worst.finding == nullptr && doubtful > 0) return in_doubt(answer, all, lengths);
    if (worst.finding == nullptr) return "Does not fit." + after(0);
    return "Does not fit: " + failure(worst, lengths) + "." + after(1);
}

std::string all_checks(std::size_t n) {
    if (n == 1) return "the one check holds";
    return n == 2 ? std::string("both checks hold") : fmt::format("all {} checks hold", n);
}

std::string fitting(const stack::CheckAnswer& answer, const std::vector<CheckFinding>& all,
                    const Lengths& lengths, std::string_view lead) {
    if (all.empty())
        return "Nothing to judge: no two rings of this job can meet, and it asks for no check.";
    std::string what;
    if (!answer.clearances.empty() || !answer.radial.empty()) what = "nothing touches";
    if (!answer.checks.empty()) {
        const std::size_t n = answer.checks.size();
        what += what.empty() ? "" : " and ";
        what += all_checks(n);
    }
    const bool by_rss = answer.judge == stack::Judge::rss;
    if (answer.odds_level)
        return fmt::format("Likely fits: {}, each with odds of at least {}.", what,
                           brief(*answer.odds_level));
    what += by_rss ? ", judged by RSS" : ", even in the worst case";
    std::string out = fmt::format("{}{}.", lead, what);
    const Worst tightest = worst_of(all, Verdict::holds, answer.judge);
    if (tightest.finding == nullptr) return out;
    return out + fmt::format(" Tightest: {}, {} {} where {}.", listed(titled(*tightest.finding)),
                             lengths.with_unit(tightest.at.end), phrase(answer.judge),
                             needed(tightest, lengths));
}

// That a rotor clears says nothing of whether it stays.
std::string fits(const stack::CheckAnswer& answer, const std::vector<CheckFinding>& all,
                 const Lengths& lengths, std::string_view lead = "Fits: ") {
    std::string out = fitting(answer, all, lengths, lead);
    if (answer.held_by_cone.empty()) return out;
    return out + fmt::format(" Whether the cone holds the {} is not judged here.",
                             listed(answer.held_by_cone));
}

// Only what stands before the answer is against it.
bool all_findings_hold(const stack::CheckAnswer& answer, const std::vector<CheckFinding>& all) {
    return !answer.warnings.empty() && count(all, Verdict::holds) == all.size();
}

std::string verdict_line(const stack::CheckAnswer& answer, const std::vector<CheckFinding>& all) {
    const Lengths lengths{answer.units, decimals_for(answer.units, findings(answer))};
    // A keep that is not judged stands among the warnings.
    const bool bad = answer.verdict == Verdict::fails || answer.verdict == Verdict::doubtful ||
                     (answer.verdict == Verdict::not_judged && answer.not_judged.empty());
    if (bad && all_findings_hold(answer, all)) {
        return fits(answer, all, lengths, "All else holds: ");
    }
    switch (answer.verdict) {
        case Verdict::fails:
            return does_not_fit(answer, all, lengths);
        case Verdict::doubtful:
            return in_doubt(answer, all, lengths);
        case Verdict::not_judged:
            return all.empty() ? fits(answer, all, lengths) : std::string();
        case Verdict::holds:
            break;
    }
    return fits(answer, all, lengths);
}

}  // namespace

std::string headline(const stack::CheckAnswer& answer) {
    const std::vector<CheckFinding> all = distinct_findings(answer);
    std::string out = warned(words(answer.warnings), verdict_line(answer, all));
    if (answer.not_judged.empty()) return out;
    if (!out.empty() && out.back() != ' ') out += ' ';
    out += told_not_judged(words(answer.not_judged));
    if (answer.verdict == Verdict::not_judged && !all.empty()) out += " What was judged holds.";
    return out;
}

}  // namespace trialfit::paper
