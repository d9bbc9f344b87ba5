// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/plan/text.hpp>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/sheet/plan_sheet.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using plan::PlanAnswer;

bool takes_metal(const plan::PlanMade& plan) {
    return !plan.cuts.empty() || !plan.laps.empty() || !plan.skims.empty();
}

// What the search says of the plan: shims that are set to an aim are not chosen by their cost.
std::string told_proof(const plan::PlanMade& plan, bool stopped) {
    if (!plan.proven)
        return stopped ? "not proven: the search was stopped, and a cheaper plan may exist"
                       : "a cheaper plan may exist";
    if (!plan.set_to_aim) return "no cheaper plan exists";
    const std::string aims = plan.untied ? "no other shims come nearer to the aim"
                                         : "other shims may come nearer to the aim";
    return takes_metal(plan) ? "no plan costs less in cuts, and with these " + aims : aims;
}

std::string told_cost(const plan::PlanMade& plan, bool stopped) {
    return fmt::format("cost {} on the file's own scale; {}", fixed(plan.cost, 2),
                       told_proof(plan, stopped));
}

// What holds once the plan is done, and how sure that is to be all.
std::string told_held(const stack::CheckAnswer& after) {
    if (after.verdict_apart != stack::Verdict::holds) return "all else holds";
    return after.not_judged.empty() ? "every check holds" : "all that was judged holds";
}

std::string upper_first(std::string text) {
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text;
}

std::string told_not_judged(const stack::CheckAnswer& after) {
    if (after.not_judged.empty()) return {};
    const std::size_t more = after.not_judged.size() - 1;
    return fmt::format(" NOT JUDGED: {}.{}", harmless(words(after.not_judged.front())),
                       more == 0 ? std::string()
                                 : fmt::format(" {} not judged either.",
                                               more == 1 ? std::string("1 other is")
                                                         : fmt::format("{} others are", more)));
}

std::string told_best(const PlanAnswer& answer) {
    const plan::PlanMade& best = answer.plans.front();
    const std::string held = told_held(best.after);
    if (leaves_all(best)) {
        const std::string as_it_is = held + " as it is";
        if (best.proven && (best.untied || !best.set_to_aim))
            return "Nothing to cut and nothing to shim: " + as_it_is + ".";
        if (answer.before.verdict == stack::Verdict::holds && !best.set_to_aim)
            return "Nothing to cut and nothing to shim: " + as_it_is + ".";
        return upper_first(as_it_is) + "; the search for better aims was cut short.";
    }
    return fmt::format("{} if you {} ({}).",
                       best.after.verdict == stack::Verdict::holds ? "It fits" : upper_first(held),
                       told_works(best, plan_decimals(answer)), told_cost(best, answer.stopped));
}

// How many rank with the first.
std::string told_ties(const PlanAnswer& answer) {
    if (answer.ties < 2) return {};
    const std::size_t others = answer.ties - 1;
    return fmt::format(
        "{}{} of plan {} as much as the first{}.", answer.more_ties ? "At least " : "",
        others == 1 ? std::string("1 other kind") : fmt::format("{} other kinds", others),
        others == 1 ? "costs" : "cost",
        answer.plans.front().set_to_aim ? ", shims for the aim not counted, and "
                                          "come as near to the aim"
                                        : "");
}

std::string about_plan(const PlanAnswer& answer, const Style& style) {
    std::string text = answer.title.empty()
                           ? listed(answer.file)
                           : fmt::format("{} ({})", listed(answer.title, 200), listed(answer.file));
    const std::string by =
        answer.odds_level
            ? fmt::format("by odds of at least {}", brief(*answer.odds_level))
            : std::string(answer.judge == stack::Judge::rss ? "by RSS" : "by the worst case");
    text += fmt::format(". Lengths in {}, judged {}.", plural(answer.units), by);
    if (answer.inflate != 1.0)
        text += fmt::format(" RSS half-widths times {}.", brief(answer.inflate));
    return "\n" + paragraph(text, style.width);
}

std::string other_plans(const PlanAnswer& answer, const Style& style) {
    if (answer.plans.size() < 2) return {};
    std::string out =
        heading(style, "Other kinds of plan: other faces cut, or other seats shimmed");
    if (const std::string ties = told_ties(answer); !ties.empty())
        out += paragraph(ties, style.width, "  ");
    const int decimals = plan_decimals(answer);
    for (std::size_t i = 1; i < answer.plans.size(); ++i) {
        const plan::PlanMade& plan = answer.plans[i];
        std::string windows;
        for (const plan::CutMade& cut : plan.cuts)
            windows += fmt::format("{}{} {}", windows.empty() ? "; windows " : ", ",
                                   listed(cut.face), told_readings(cut, decimals));
        out += paragraph(
            fmt::format("cost {}: {}{}.", fixed(plan.cost, 2), told_works(plan, decimals), windows),
            style.width, "  - ");
    }
    return out;
}

std::string no_plan(const PlanAnswer& answer, const Style& style) {
    if (!answer.conflict) return {};
    const ToldConflict told = told_conflict(*answer.conflict, answer);
    std::string out =
        bullets(style, "Fails now, and nothing that the job allows moves it", told.stuck);
    out += bullets(style, "What stands in each other's way", told.members);
    if (!told.meaning.empty()) out += paragraph(told.meaning, style.width);
    out += heading(style, "The least that would make a plan");
    return out + paragraph(told.least, style.width, "  ");
}

// What is measured next, and the name that --as-cut knows it by.
std::string next_measured(const plan::PlanMade& plan) {
    if (!plan.centrings.empty()) return plan.centrings.front().part;
    if (!plan.cuts.empty()) return in_order_of_work(plan).front().face;
    return plan.skims.empty() ? std::string() : plan.skims.front().ring;
}

std::string after_that(const PlanAnswer& answer, const Style& style) {
    std::string out = heading(style, "When it is done");
    const plan::PlanMade& plan = answer.plans.front();
    const std::string next = next_measured(plan);
    if (next.empty())
        return out + paragraph(
                         "Fit everything, read the gaps back and write the readings into the "
                         "job: `trialfit check` then says how sure they make it.",
                         style.width, "  ");
    out += paragraph(
        plan.centrings.empty()
            ? "Measure each cut as it came out, and plan what is left by it; the cuts after "
              "it may then be smaller, or none. Name every cut made so far:"
            : "Centre it, measure what is left of the clearance, on diameter, and plan again "
              "before any metal comes off: what is left to skim may then be less, or nothing.",
        style.width, "  ");
    out += fmt::format("    trialfit plan {} --as-cut {}=MEASURED\n", shell_word(answer.file),
                       shell_word(next));
    return out;
}

}  // namespace

std::string plan_headline(const PlanAnswer& answer) {
    if (!answer.plans.empty())
        return told_best(answer) + told_not_judged(answer.plans.front().after);
    if (!answer.proven)
        return answer.stopped ? "No plan was found before the search was stopped; there may be one."
                              : "No plan was found, and none is proven not to exist.";
    if (answer.nothing_to_change)
        return fmt::format(
            "It {}, and the job allows nothing to be changed.",
            answer.before.verdict == stack::Verdict::fails ? "does not fit" : "is not sure to fit");
    return "No plan: nothing that the job allows to be done to the parts makes everything hold "
           "(proven).";
}

std::string plan_text(const PlanAnswer& answer, const Style& style) {
    const Ink how = answer.plans.empty() ? Ink::bad : Ink::good;
    std::string out;
    for (const std::string& line :
         wrapped(warned(words(answer.warnings), plan_headline(answer)), style.width))
        out += painted(style, how, line) + "\n";
    if (style.brief) {
        if (!answer.plans.empty()) out += plan_sheet(answer, answer.plans.front(), style);
        return out + plan_findings(
                         answer, answer.plans.empty() ? answer.before : answer.plans.front().after,
                         style);
    }
    out += about_plan(answer, style);
    if (answer.plans.empty()) {
        out += no_plan(answer, style);
        out += plan_findings(answer, answer.before, style);
    } else {
        const plan::PlanMade& best = answer.plans.front();
        out += plan_sheet(answer, best, style);
        out += plan_findings(answer, best.after, style);
        if (!leaves_all(best)) out += after_that(answer, style);
        out += other_plans(answer, style);
    }
    out += bullets(style, "Notes", words(answer.notes));
    out += bullets(style, "Not assessed", words(answer.not_assessed));
    out += cautions_block(style, answer.before.cautions, Work::cut);
    return out;
}

}  // namespace trialfit::paper
