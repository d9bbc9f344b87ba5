// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string_view>
#include <trialfit/paper/survey/feelers.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/survey/answers.hpp>
#include <utility>

namespace trialfit::paper {

namespace {

using survey::FeelersFound;
using survey::FeelerTerm;
using survey::NotTold;
using survey::SettingReach;

constexpr double kHalfHour_deg = 15.0;
constexpr int kHalfHours = 24;

// A figure for a sentence; one more decimal where it would otherwise be lost.
std::string amount(double length, int decimals) {
    const double last = std::pow(10.0, -decimals);
    return fixed(length, std::abs(length) < 1.5 * last ? decimals + 1 : decimals);
}

std::string place_words(const survey::FeelerReadingFound& reading) {
    std::string words = fmt::format("at {} (rotor's mark at {}", o_clock(reading.clock_deg),
                                    o_clock(reading.rotor_deg));
    if (!reading.height.empty()) words += ", " + listed(reading.height);
    return words + ")";
}

std::string out_of_step(const FeelersFound& found, const Lengths& lengths) {
    switch (found.judgement) {
        case survey::Judgement::suspect:
            for (const survey::FeelerReadingFound& each : found.readings)
                if (each.suspect)
                    return fmt::format(
                        "One reading is out of step with the others: {} it is {}, where they say "
                        "{}. {}Read it again.",
                        place_words(each), fixed(each.is, lengths.decimals),
                        fixed(each.should_be, lengths.decimals),
                        each.left_out ? "All that follows is from the others. " : "");
            break;
        case survey::Judgement::cannot_tell:
            return "The readings do not agree, and cannot tell which of them is wrong: any of "
                   "those marked below could be. Read those again; the figures are of all, and "
                   "advise nothing until then.";
        case survey::Judgement::contradict:
            return "The readings do not agree, and no single one of them explains it: more than "
                   "one is wrong, the feeler springs more than its half-width says, or a ring is "
                   "not round. The figures advise nothing until they do.";
        case survey::Judgement::nothing_to_compare:
        case survey::Judgement::agree:
            break;
    }
    return {};
}

std::string move_words(const FeelersFound& found, const Lengths& lengths) {
    if (!found.even_up) return {};
    const survey::EvenUp& move = *found.even_up;
    const int d = lengths.decimals;
    const std::string by = fmt::format("{} {} towards {}", amount(move.by.is, d),
                                       spoken(lengths.units), o_clock(move.towards_deg));
    if (found.offset_mixed)
        return fmt::format(
            "As the rotor stood, moving the {} {} would even the gap up; whether that lasts as the "
            "rotor turns, these readings cannot tell.",
            listed(move.part), by);
    std::string out = fmt::format(
        "Move the {} {}. That leaves {} at the tightest and {} at the widest place (usual error of "
        "the move {}).",
        listed(move.part), by, amount(move.least.is, d), amount(move.most.is, d),
        fixed(move.by.sd, d + 1));
    if (move.room && move.by.is > *move.room)
        out += fmt::format(
            " The file gives it {} to move in, on diameter, which is not enough: ease what holds "
            "it, or look for what is bent.",
            amount(*move.room, d));
    return out;
}

// Why no setting does it: what moving the still part does not cure.
std::string not_cured(const FeelersFound& found, const Lengths& lengths) {
    std::vector<std::string> why;
    const int d = lengths.decimals;
    const bool eccentric = (found.runout && found.runout->seen) ||
                           (found.turning_cocked && found.turning_cocked->seen);
    if (eccentric)
        why.push_back(fmt::format("eccentricity alone is {}", amount(found.eccentricity->is, d)));
    if (found.still_leans && found.still_leans->seen)
        why.push_back(fmt::format("the {} leans by {}", listed(found.still_part),
                                  amount(found.still_leans->amount.is, d)));
    why.push_back(fmt::format("the mean gap is {}", amount(found.mean.is, d)));
    return joined(why);
}

std::string stays_words(const FeelersFound& found, const Lengths& lengths,
                        const survey::FeelerLimit& limit) {
    const int d = lengths.decimals;
    const std::string varies =
        fmt::format("the gap varies by {} as the {} turns", fixed(limit.varies_by->is, d + 1),
                    listed(found.turning_part));
    const std::string asked =
        fmt::format("{} to {} {} ('{}')", fixed(*limit.at_least, d), fixed(*limit.at_most, d),
                    spoken(lengths.units), listed(limit.check));
    if (limit.can_stay == SettingReach::cannot)
        return fmt::format(
            "No setting can keep the gap within {}: {}. True the {}, or find what is "
            "bent.",
            asked, varies, listed(found.turning_part));
    return fmt::format(
        "Whether any setting keeps the gap within {} these readings cannot tell: {}, "
        "and all were taken at one place.",
        asked, varies);
}

std::string against_diameters_words(const FeelersFound& found, const Lengths& lengths) {
    if (!found.against_diameters) return {};
    const survey::AgainstDiameters& off = *found.against_diameters;
    const std::string by = amount(std::abs(off.by.is), lengths.decimals);
    if (off.widest)
        return fmt::format(
            "The feelers and the diameters contradict each other: the widest gap "
            "read is {} {} more than the diameters leave at one place. Measure the "
            "leaves, {} and {} again.",
            by, spoken(lengths.units), listed(found.still), listed(found.turning));
    return fmt::format(
        "The feelers and the diameters contradict each other: the mean gap is {} {} "
        "{} than half the difference of the diameters. Measure the leaves, {} and "
        "{} again.",
        by, spoken(lengths.units), off.by.is > 0.0 ? "more" : "less", listed(found.still),
        listed(found.turning));
}

std::string limit_words(const FeelersFound& found, const Lengths& lengths, bool least,
                        const survey::FeelerLimit& limit) {
    const SettingReach can = least ? limit.can_reach : limit.can_keep;
    const double asked = least ? *limit.at_least : *limit.at_most;
    const survey::FeelerFigure& best = least ? *found.best_least : *found.best_most;
    const int d = lengths.decimals;
    const std::string what = fmt::format("{} {} {}", least ? "at least" : "at most",
                                         fixed(asked, d), spoken(lengths.units));
    const std::string found_best =
        fmt::format("{} (usual error {})", amount(best.is, d), fixed(best.sd, d + 1));
    switch (can) {
        case SettingReach::cannot:
            if (least)
                return fmt::format("No setting can give {} {} here ('{}'): {}. The best is {}.",
                                   fixed(asked, d), spoken(lengths.units), listed(limit.check),
                                   not_cured(found, lengths), found_best);
            return fmt::format("No setting can keep the gap to {} here ('{}'): {}. The best is {}.",
                               what, listed(limit.check), not_cured(found, lengths), found_best);
        case SettingReach::cannot_tell:
            return fmt::format(
                "Whether any setting gives {} ('{}') these readings cannot tell: the best is {}{}.",
                what, listed(limit.check), found_best,
                found.offset_mixed ? ", before what the rotor's eccentricity takes off it" : "");
        case SettingReach::can:
            break;
    }
    return fmt::format("The best setting gives {} at the {} place, where '{}' asks for {}.",
                       found_best, least ? "tightest" : "widest", listed(limit.check), what);
}

double degrees_over(double rise, double span) {
    return std::atan2(rise, span) * 180.0 / std::numbers::pi;
}

// What no move sideways cures.
std::vector<std::string> out_of_true(const FeelersFound& found, const Lengths& lengths) {
    std::vector<std::string> out;
    const auto leaning = [&](const survey::FeelerVector& by) {
        return fmt::format("by {} over {} ({:.2f} degrees), outboard towards {}",
                           amount(by.amount.is, lengths.decimals), brief(found.span),
                           degrees_over(by.amount.is, found.span), o_clock(by.towards_deg));
    };
    if (found.still_leans && found.still_leans->seen)
        out.push_back(fmt::format(
            "The {} leans {}. Moving it does not cure that: look for dirt or a burr under it, or "
            "true the face that it sits on.",
            listed(found.still_part), leaning(*found.still_leans)));
    if (found.turning_cocked && found.turning_cocked->seen)
        out.push_back(fmt::format(
            "The {} is cocked {} of its own mark. Moving the {} does not cure that: look for dirt "
            "or a burr in the seat of the {}, or a bent shaft.",
            listed(found.turning_part), leaning(*found.turning_cocked),
            listed(found.even_up ? found.even_up->part : found.still_part),
            listed(found.turning_part)));
    constexpr double kSure = 2.0;
    if (found.taper && std::abs(found.taper->is) > kSure * found.taper->sd)
        out.push_back(
            fmt::format("The gap is {} wider all round at the {} end, over {}: a ring is "
                        "tapered.",
                        amount(std::abs(found.taper->is), lengths.decimals),
                        found.taper->is > 0.0 ? "outboard" : "inboard", brief(found.span)));
    return out;
}

std::string_view term_word(FeelerTerm term) {
    switch (term) {
        case FeelerTerm::mean:
            return "the mean gap";
        case FeelerTerm::offset:
            return "the offset";
        case FeelerTerm::runout:
            return "the eccentricity";
        case FeelerTerm::taper:
            return "the taper";
        case FeelerTerm::still_leans:
            return "how far the still part leans";
        case FeelerTerm::turning_cocked:
            break;
    }
    return "how far the turning part is cocked";
}

std::string term_list(const std::vector<FeelerTerm>& terms) {
    std::vector<std::string> words;
    words.reserve(terms.size());
    for (const FeelerTerm term : terms)
        words.emplace_back(term_word(term));
    return joined(words);
}

std::string why_words(const FeelersFound& found, NotTold why, const std::string& terms) {
    switch (why) {
        case NotTold::one_height:
            return fmt::format(
                "All was read at one height, so nothing tells {}: they are taken as none. Read "
                "again at the other end of the rings.",
                terms);
        case NotTold::not_turned:
            return fmt::format(
                "The rotor was never turned, so nothing tells {} from what stands still. Turn the "
                "rotor half round, not the feeler, and read again: what then stays is the {}'s, "
                "what goes round with it is the {}'s.",
                terms, listed(found.still_part), listed(found.turning_part));
        case NotTold::one_place:
            return fmt::format(
                "The feeler always went in at {}, so nothing tells {}. Read at three places more, "
                "a "
                "quarter round from one another.",
                o_clock(found.readings.front().clock_deg), terms);
        case NotTold::turned_with_feeler:
            return fmt::format(
                "The feeler always went round with the rotor, so nothing tells {}. Turn the rotor "
                "alone, and read again at the same places.",
                terms);
        case NotTold::too_few:
            break;
    }
    return fmt::format(
        "Too few readings, or too near one another, to tell {}. Read all round at both heights, "
        "with the rotor at the same places for each.",
        terms);
}

}  // namespace

std::string o_clock(double degrees) {
    const int halves =
        static_cast<int>(std::lround(degrees / kHalfHour_deg) % kHalfHours + kHalfHours) %
        kHalfHours;
    const int hour = halves / 2 == 0 ? 12 : halves / 2;
    return halves % 2 == 0 ? fmt::format("{} o'clock", hour) : fmt::format("half past {}", hour);
}

std::vector<std::string> feeler_findings(const FeelersFound& found, const Lengths& lengths) {
    std::vector<std::string> out;
    if (std::string wrong = out_of_step(found, lengths); !wrong.empty())
        out.push_back(std::move(wrong));
    if (std::string wrong = against_diameters_words(found, lengths); !wrong.empty())
        out.push_back(std::move(wrong));
    if (!survey::figures_stand(found)) return out;
    if (std::string move = move_words(found, lengths); !move.empty())
        out.push_back(std::move(move));
    if (found.offset && !found.offset->seen && !found.mean_mixed)
        out.push_back(fmt::format(
            "It is even as far as the feeler can tell: {}",
            found.offset_mixed
                ? "as the rotor stood, no side is wider than its opposite."
                : fmt::format("no offset of the {} to be seen.", listed(found.still_part))));
    for (std::string& each : out_of_true(found, lengths))
        out.push_back(std::move(each));
    for (const survey::FeelerLimit& limit : found.limits) {
        if (limit.varies_by) {
            out.push_back(stays_words(found, lengths, limit));
            continue;
        }
        if (limit.at_least) out.push_back(limit_words(found, lengths, true, limit));
        if (limit.at_most) out.push_back(limit_words(found, lengths, false, limit));
    }
    constexpr double kSure = 2.0;
    const bool beyond =
        found.offset && found.offset_stated && !found.offset_mixed &&
        found.offset->amount.is - kSure * found.offset->amount.sd > *found.offset_stated;
    if (beyond)
        out.push_back(fmt::format(
            "The offset is more than the file's limits on centring allow, {}: mend those limits, "
            "for the check goes by them.",
            amount(*found.offset_stated, lengths.decimals)));
    return out;
}

std::vector<std::string> feeler_not_told(const FeelersFound& found) {
    std::vector<std::string> out;
    for (const NotTold why : {NotTold::not_turned, NotTold::one_place, NotTold::turned_with_feeler,
                              NotTold::one_height, NotTold::too_few}) {
        std::vector<FeelerTerm> terms;
        std::vector<FeelerTerm> in;
        for (const survey::FeelerNotTold& each : found.not_told) {
            if (each.why != why) continue;
            terms.push_back(each.term);
            for (const FeelerTerm term : each.shows_in)
                if (std::ranges::find(in, term) == in.end()) in.push_back(term);
        }
        if (terms.empty()) continue;
        std::string words = why_words(found, why, term_list(terms));
        if (!in.empty())
            words += fmt::format(" What there is of {} shows in {} as given here.",
                                 terms.size() == 1 ? "it" : "them", term_list(in));
        out.push_back(std::move(words));
    }
    if (found.offset && found.offset->along_deg)
        out.push_back(fmt::format(
            "The feeler went in along one line only: the offset is told along {} to {}, and "
            "nothing "
            "across it.",
            o_clock(*found.offset->along_deg), o_clock(*found.offset->along_deg + 180.0)));
    return out;
}

Lengths feeler_lengths(const survey::FeelersFound& found, quantity::Unit units) {
    std::vector<double> written;
    written.reserve(found.readings.size());
    for (const survey::FeelerReadingFound& each : found.readings)
        written.push_back(each.is);
    return {.units = units, .decimals = decimals_for(units, written, found.half_width)};
}

Table feeler_table(const FeelersFound& found, const Lengths& lengths) {
    Table out{.columns = {Column::names("figure"), "is", "usual\nerror", Column::words("towards")}};
    const auto add = [&](std::string what, const std::optional<survey::FeelerFigure>& figure,
                         std::string towards = {}) {
        const int d = lengths.decimals + 1;
        if (figure)
            out.add(
                {std::move(what), fixed(figure->is, d), fixed(figure->sd, d), std::move(towards)});
    };
    const auto vector = [&](std::string what, const std::optional<survey::FeelerVector>& by,
                            const char* of = "") {
        if (by)
            add(std::move(what), by->amount,
                by->seen ? o_clock(by->towards_deg) + of : "none seen");
    };
    constexpr const char* kOfMark = " of its mark";
    const std::string still = listed(found.still_part);
    const std::string turning = listed(found.turning_part);
    const std::string over = fmt::format(" over {}", brief(found.span));
    const std::string lies = found.offset_mixed ? "as the rotor stood" : "as it lies";
    add(found.mean_mixed ? "mean gap, with what is not told" : "mean gap", found.mean);
    add("the same by the diameters", found.by_diameters);
    vector("offset of " + still + (found.offset_mixed ? " with that of " + turning : ""),
           found.offset);
    vector("eccentricity of " + turning, found.runout, kOfMark);
    add("taper, outboard end wider" + over, found.taper);
    vector(still + " leans" + over, found.still_leans);
    vector(turning + " is cocked" + over, found.turning_cocked, kOfMark);
    add("least gap " + lies, found.least_now);
    add("greatest gap " + lies, found.most_now);
    return out;
}

}  // namespace trialfit::paper
