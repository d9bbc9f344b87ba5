// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/numerics/random/estimate.hpp>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>
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
    std::string out;
    for (const std::string& warning : words(check.warnings))
        out += harmless(warning) + " ";
    // Where nothing is judged but what cannot be, nothing holds together either.
    const bool any = !answer.nothing_asked && answer.judged > 0;
    if (any || answer.not_judged.empty()) out += all_together(answer);
    const std::vector<stack::NotJudged>& unjudged =
        check.not_judged.empty() ? answer.not_judged : check.not_judged;
    if (unjudged.empty()) return out;
    if (!out.empty() && out.back() != ' ') out += ' ';
    out += fmt::format("NOT JUDGED: {}.", harmless(words(unjudged.front())));
    if (unjudged.size() == 2) out += " 1 other is not judged either.";
    if (unjudged.size() > 2)
        out += fmt::format(" {} others are not judged either.", unjudged.size() - 1);
    return out;
}

Row row_of(const CheckOdds& found, int decimals) {
    const bool judged = !found.not_judged_for;
    std::string needed = found.more_than ? ">0" : "";
    if (!found.more_than && found.at_least) needed = "≥" + fixed(*found.at_least, decimals);
    if (found.at_most) needed += (needed.empty() ? "≤" : "  ≤") + fixed(*found.at_most, decimals);
    return {.cells = {{.text = listed(found.name, 200)},
                      {.text = needed},
                      {.text = fixed(found.mean, decimals)},
                      {.text = fixed(found.sd, decimals + 1)},
                      {.text = judged ? odds_in_words(found.holds, found.fails) : "NOT JUDGED",
                       .ink = judged ? ink_of(found.fails) : Ink::warn}},
            .remark = listed(words(found.not_judged_for), 200)};
}

std::string rows_of(const std::vector<CheckOdds>& all, std::string_view heading, std::size_t most,
                    int decimals, const Style& style) {
    Table out;
    out.columns = {{.heading = std::string(heading), .set = Column::Set::names},
                   {.heading = "needed"},
                   {.heading = "mean"},
                   {.heading = "sd"},
                   {.heading = "odds", .set = Column::Set::left}};
    std::vector<const CheckOdds*> sorted;
    sorted.reserve(all.size());
    for (const CheckOdds& each : all)
        sorted.push_back(&each);
    std::stable_sort(sorted.begin(), sorted.end(),
                     [](const CheckOdds* a, const CheckOdds* b) { return a->fails > b->fails; });
    for (std::size_t i = 0; i < std::min(most, sorted.size()); ++i)
        out.rows.push_back(row_of(*sorted[i], decimals));
    if (out.rows.empty()) return {};
    std::string text = "\n" + table(out, style);
    if (sorted.size() > most)
        text += fmt::format("and {} more with more room.\n", sorted.size() - most);
    return text;
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

std::string histogram(const CheckOdds& found, int decimals, const Style& style) {
    constexpr std::size_t kBars = 15;
    const std::vector<double>& density = found.curve.density;
    const std::size_t points = (density.size() - 1) / kBars;
    if (points == 0) return {};
    std::vector<double> bars(kBars, 0.0);
    for (std::size_t bar = 0; bar < kBars; ++bar) {
        for (std::size_t i = 0; i <= points; ++i)
            bars[bar] += density[bar * points + i];
    }
    const double tallest = *std::max_element(bars.begin(), bars.end());
    if (tallest <= 0.0) return {};
    const auto room = static_cast<double>(style.width > 40 ? style.width - 36 : 20);
    std::string out =
        "\n" + painted(style, Ink::strong, "How '" + listed(found.name) + "' is spread") + "\n";
    const double width = found.curve.step * static_cast<double>(points);
    bool marked = !found.at_least.has_value();
    for (std::size_t bar = 0; bar < kBars; ++bar) {
        const double lo = found.curve.from + width * static_cast<double>(bar);
        const bool fails = (found.at_least && lo + width / 2 < *found.at_least) ||
                           (found.at_most && lo + width / 2 > *found.at_most);
        const auto length = static_cast<std::size_t>(std::lround(bars[bar] / tallest * room));
        std::string line = "  " + right(range({lo, lo + width}, decimals), 18) + "  ";
        line +=
            painted(style, fails ? Ink::bad : Ink::good, std::string(length, fails ? 'x' : '#'));
        if (!marked && lo + width > *found.at_least && lo <= *found.at_least) {
            line += " <- needed";
            marked = true;
        }
        out += line + "\n";
    }
    return out + "  # holds, x fails\n";
}

std::string drivers(const CheckOdds& found, const Style& style) {
    if (found.drivers.empty() || found.sd <= 0.0) return {};
    std::string out =
        "\n" + painted(style, Ink::strong, "Deciding sizes of '" + listed(found.name) + "'") + "\n";
    const std::string now = chance_in_words(found.holds.value, found.fails);
    for (std::size_t i = 0; i < std::min(found.drivers.size(), kMostDrivers); ++i) {
        const odds::RiskDriver& each = found.drivers[i];
        const std::string then = chance_in_words(1.0 - each.fails_if_halved, each.fails_if_halved);
        std::string line = fmt::format("{}: {} of the spread", listed(name_of(each), 200),
                                       percent(each.share_of_variance));
        if (each.fails_if_halved < found.fails && then != now)
            line += "; measured twice as exactly, it " + then;
        out += paragraph(line + ".", style.width, fmt::format("  {}. ", i + 1));
    }
    return out;
}

std::string touches(const OddsAnswer& answer, const Style& style) {
    if (answer.touches_first.empty()) return {};
    std::string out = "\n" + painted(style, Ink::strong, "What touches first") + "\n";
    for (const odds::TouchesFirst& each : answer.touches_first) {
        out += paragraph(fmt::format("{} on {}: {}", listed(each.outboard), listed(each.inboard),
                                     each.chance.value > 0.9999
                                         ? "over 99.99 %"
                                         : fmt::format("{:.3g} %", 100.0 * each.chance.value)),
                         style.width, "  - ");
    }
    if (answer.nothing_touches > 0.0) {
        out += fmt::format("  - nothing: {:.3g} %\n", 100.0 * answer.nothing_touches);
    }
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

std::string odds_text(const stack::CheckAnswer& check, const OddsAnswer& answer,
                      const Style& style) {
    const int decimals = decimals_for(answer.units, findings(check));
    std::string out;
    for (const std::string& line : wrapped(odds_headline(check, answer), style.width)) {
        out += painted(style, ink_of(answer.all_fails), line) + "\n";
    }
    if (!style.brief)
        out += "\n" + paragraph(fmt::format(
                                    "{} ({}). Lengths in {}, sizes {}.", listed(answer.title, 200),
                                    listed(answer.file), quantity::name(answer.units),
                                    answer.adjusted ? "as adjusted by the readings" : "as written"),
                                style.width);
    out += rows_of(answer.checks, "Checks", answer.checks.size(), decimals, style);
    out += rows_of(answer.clearances, "Clearances", kMostClearances, decimals, style);
    out += rows_of(answer.radial, "Radial gaps", kMostClearances, decimals, style);
    if (style.brief) return out;
    out += touches(answer, style);
    if (const CheckOdds* found = riskiest(answer);
        found != nullptr && found->fails > kRarest && found->fails < 1.0) {
        out += histogram(*found, decimals, style);
        out += drivers(*found, style);
    }
    for (const std::string& note : words(answer.notes))
        out += "\n" + paragraph(note, style.width);
    out += "\n" + paragraph(
                      "The odds are as good as the spreads in the file: a size that is simply "
                      "wrong is not in "
                      "them, nor is anything that 'trialfit check' lists as not assessed.",
                      style.width);
    if (answer.samples > 0)
        out +=
            paragraph(fmt::format("Sampled: {} draws, seed {}. Figures in brackets bound what is "
                                  "sampled, 95 times in 100.",
                                  answer.samples, answer.seed),
                      style.width);
    return out;
}

}  // namespace trialfit::paper
