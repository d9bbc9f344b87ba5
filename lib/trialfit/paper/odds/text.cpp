// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/numerics/random/estimate.hpp>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
#include <vector>

namespace trialfit::paper {

namespace {

using odds::CheckOdds;
using odds::OddsAnswer;

// Rarer failures than this are not told apart: no file's spreads are that well known.
constexpr double kRarest = 1e-6;
constexpr std::size_t kMostClearances = 12;
constexpr std::size_t kMostDrivers = 4;

std::string one_in(double odds) {
    return fmt::format("1 in {:.0f}", finite(numerics::one_in(odds)));
}

std::string in_percent(double odds) {
    return fmt::format("{:.0f} %", 100.0 * odds);
}

Ink ink_of(double fails) {
    if (fails < 0.0027) return Ink::good;
    return fails < 0.5 ? Ink::warn : Ink::bad;
}

// The interval's two ends where they read differently: " (1 in 66 to 67)".
std::string interval_in_words(const numerics::Probability& holds) {
    const bool fails = 1.0 - holds.value < 0.5;
    const auto told = [fails](double p) {
        const double odds = fails ? 1.0 - p : p;
        if (!fails && odds > 0.1) return in_percent(odds);
        return odds < kRarest ? std::string("none") : one_in(odds);
    };
    const std::string often = told(fails ? holds.lower : holds.upper);
    const std::string seldom = told(fails ? holds.upper : holds.lower);
    if (often == seldom) return {};
    if (seldom == "none") return fmt::format(" (at most {})", often);
    if (!fails && holds.value > 0.1) return fmt::format(" ({} to {})", seldom, often);
    const std::string end = often.starts_with("1 in ") && seldom.starts_with("1 in ")
                                ? seldom.substr(std::string_view("1 in ").size())
                                : seldom;
    return fmt::format(" ({} to {})", often, end);
}

std::string odds_in_words(const numerics::Probability& holds, double fails) {
    return chance_in_words(holds.value, fails) + interval_in_words(holds);
}

std::string all_together(const OddsAnswer& answer) {
    if (answer.nothing_asked)
        return "Nothing to judge: no two rings of this job can meet, and it asks for no check.";
    if (answer.all.upper <= 0.0) return "It never fits as it stands: FAILS, odds 0 %.";
    const std::string what =
        answer.not_judged.empty() ? "All together: " : "All that is judged, together: ";
    if (answer.all_fails < kRarest)
        return what + "no failure found above 1 in a million, if the sizes are right.";
    return what + odds_in_words(answer.all, answer.all_fails) + ".";
}

std::string odds_headline(const stack::CheckAnswer& check, const OddsAnswer& answer) {
    std::string out = warned(words(check.warnings), "");
    // Where nothing is judged but what cannot be, nothing holds together either.
    const bool any = !answer.nothing_asked && answer.judged > 0;
    if (any || answer.not_judged.empty()) out += all_together(answer);
    const std::vector<stack::NotJudged>& unjudged =
        check.not_judged.empty() ? answer.not_judged : check.not_judged;
    if (unjudged.empty()) return out;
    if (!out.empty() && out.back() != ' ') out += ' ';
    return out + told_not_judged(words(unjudged));
}

Row row_of(const CheckOdds& found, int decimals) {
    const bool judged = !found.not_judged_for;
    std::string needed = found.more_than ? ">0" : "";
    if (!found.more_than && found.at_least) needed = "≥" + fixed(*found.at_least, decimals);
    if (found.at_most) needed += (needed.empty() ? "≤" : "  ≤") + fixed(*found.at_most, decimals);
    return {
        .cells = {listed(found.name, 200), needed, found.open ? "-" : fixed(found.mean, decimals),
                  found.open ? "-" : fixed(found.sd, decimals + 1),
                  judged ? Cell(odds_in_words(found.holds, found.fails), ink_of(found.fails))
                         : Cell("NOT JUDGED", Ink::warn)},
        .remark = listed(words(found.not_judged_for), 200)};
}

Document rows_of(const std::vector<CheckOdds>& all, std::string_view heading, std::size_t most,
                 int decimals) {
    Table table{.columns = {Column::names(std::string(heading)), "needed", "mean", "sd",
                            Column::words("odds")}};
    std::vector<const CheckOdds*> sorted;
    sorted.reserve(all.size());
    for (const CheckOdds& each : all)
        sorted.push_back(&each);
    std::ranges::stable_sort(sorted, std::ranges::greater{}, &CheckOdds::fails);
    for (std::size_t i = 0; i < std::min(most, sorted.size()); ++i)
        table.rows.push_back(row_of(*sorted[i], decimals));
    Document out;
    out.add(std::move(table));
    if (sorted.size() > most)
        out.under(Paragraph{fmt::format("and {} more with more room.", sorted.size() - most)});
    return out;
}

// The check most worth a picture: undecided rather than sure either way.
const CheckOdds* riskiest(const OddsAnswer& answer) {
    const CheckOdds* best = nullptr;
    const auto doubt = [](const CheckOdds& c) { return std::min(c.fails, 1.0 - c.fails); };
    for (const auto* list : {&answer.checks, &answer.clearances}) {
        for (const CheckOdds& each : *list) {
            if (each.curve.density.empty()) continue;
            if (best == nullptr || doubt(each) > doubt(*best)) best = &each;
        }
    }
    return best;
}

Histogram histogram(const CheckOdds& found, int decimals) {
    constexpr std::size_t kBars = 15;
    const std::vector<double>& density = found.curve.density;
    const std::size_t points = (density.size() - 1) / kBars;
    if (points == 0) return {};
    std::vector<double> bars(kBars, 0.0);
    for (std::size_t bar = 0; bar < kBars; ++bar) {
        for (std::size_t i = 0; i <= points; ++i)
            bars[bar] += density[bar * points + i];
    }
    const double tallest = *std::ranges::max_element(bars);
    if (tallest <= 0.0) return {};
    Histogram out;
    const double width = found.curve.step * static_cast<double>(points);
    // Bars narrower than the job's last digit have as many more as tell their ends apart.
    constexpr int kMostMore = 6;
    int told = decimals;
    while (told < decimals + kMostMore && width < std::pow(10.0, -told))
        ++told;
    bool marked = !found.at_least.has_value();
    for (std::size_t bar = 0; bar < kBars; ++bar) {
        const double lo = found.curve.from + width * static_cast<double>(bar);
        const bool fails = (found.at_least && lo + width / 2 < *found.at_least) ||
                           (found.at_most && lo + width / 2 > *found.at_most);
        out.bars.push_back(
            {.range = range({lo, lo + width}, told), .height = bars[bar] / tallest, .bad = fails});
        if (!marked && lo + width > *found.at_least && lo <= *found.at_least) {
            out.bars.back().needed = true;
            marked = true;
        }
    }
    return out;
}

std::vector<std::string> drivers(const CheckOdds& found) {
    std::vector<std::string> out;
    if (found.sd <= 0.0) return out;
    const std::string now = chance_in_words(found.holds.value, found.fails);
    for (std::size_t i = 0; i < std::min(found.drivers.size(), kMostDrivers); ++i) {
        const odds::RiskDriver& each = found.drivers[i];
        const std::string then = chance_in_words(1.0 - each.fails_if_halved, each.fails_if_halved);
        std::string line = fmt::format("{}: {} of the spread", listed(name_of(each), 200),
                                       percent(each.share_of_variance));
        if (each.fails_if_halved < found.fails && then != now)
            line += "; measured twice as exactly, it " + then;
        out.push_back(line + ".");
    }
    return out;
}

std::vector<std::string> touches(const OddsAnswer& answer) {
    std::vector<std::string> out;
    for (const odds::TouchesFirst& each : answer.touches_first) {
        out.push_back(fmt::format("{} on {}: {}", listed(each.outboard), listed(each.inboard),
                                  each.chance.value > 0.9999
                                      ? "over 99.99 %"
                                      : fmt::format("{:.3g} %", 100.0 * each.chance.value)));
    }
    if (!out.empty() && answer.nothing_touches > 0.0)
        out.push_back(fmt::format("nothing: {:.3g} %", 100.0 * answer.nothing_touches));
    return out;
}

}  // namespace

std::string chance_in_words(double holds, double fails) {
    if (fails < kRarest) return "fails under 1 in a million";
    if (holds <= 0.0) return "FAILS, odds 0 %";
    if (holds < kRarest) return "FAILS, odds under 1 in a million";
    if (fails < 0.5) return "fails about " + one_in(fails);
    if (holds > 0.1) return "holds with odds of " + in_percent(holds);
    return "holds about " + one_in(holds);
}

Document document_of(const stack::CheckAnswer& check, const OddsAnswer& answer) {
    const int decimals = decimals_for(answer.units, findings(check));
    Document out;
    out.under(Headline{.text = odds_headline(check, answer), .ink = ink_of(answer.all_fails)});
    out.add_details(Document{}.add(
        Paragraph{fmt::format("{}. Lengths in {}, sizes {}.", titled(answer.title, answer.file),
                              quantity::name(answer.units),
                              answer.adjusted ? "as adjusted by the readings" : "as written")}));
    out.add(rows_of(answer.checks, "Checks", answer.checks.size(), decimals));
    out.add(rows_of(answer.clearances, "Clearances", kMostClearances, decimals));
    out.add(rows_of(answer.radial, "Radial gaps", kMostClearances, decimals));
    Document details;
    details.add_list("What touches first", touches(answer));
    if (const CheckOdds* found = riskiest(answer);
        found != nullptr && found->fails > kRarest && found->fails < 1.0) {
        const std::string name = "'" + listed(found->name) + "'";
        if (Histogram bars = histogram(*found, decimals); !bars.bars.empty())
            details.add(Heading{"How " + name + " is spread"}).under(std::move(bars));
        details.add_list("Deciding sizes of " + name, drivers(*found), List::Mark::number);
    }
    for (const std::string& note : words(answer.notes))
        details.add(Paragraph{note});
    details.add(
        Paragraph{"The odds are as good as the spreads in the file: a size that is simply wrong "
                  "is not in them, nor is anything that 'trialfit check' lists as not assessed."});
    if (answer.samples > 0)
        details.under(
            Paragraph{fmt::format("Sampled: {} draws, seed {}. Figures in brackets bound what is "
                                  "sampled, 95 times in 100.",
                                  answer.samples, answer.seed)});
    return out.add_details(std::move(details));
}

}  // namespace trialfit::paper
