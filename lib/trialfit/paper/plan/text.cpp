// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/plan/text.hpp>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/plan/work.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
#include <trialfit/plan/order_of_work.hpp>

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

std::string told_best(const PlanAnswer& answer) {
    const plan::PlanMade& best = answer.plans.front();
    const std::string held = told_held(best.after);
    if (leaves_all(best)) {
        if (findings(answer.before).empty())
            return "Nothing to cut and nothing to shim: there is nothing to judge.";
        const std::string as_it_is = held + " as it is";
        if (best.proven && (best.untied || !best.set_to_aim))
            return "Nothing to cut and nothing to shim: " + as_it_is + ".";
        if (answer.before.verdict == stack::Verdict::holds && !best.set_to_aim)
            return "Nothing to cut and nothing to shim: " + as_it_is + ".";
        return capital(as_it_is) + "; the search for better aims was cut short.";
    }
    return fmt::format("{} if you {} ({}).",
                       best.after.verdict == stack::Verdict::holds ? "It fits" : capital(held),
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

Document other_plans(const PlanAnswer& answer) {
    Document out;
    if (answer.plans.size() < 2) return out;
    out.add(Heading{"Other kinds of plan: other faces cut, or other seats shimmed"});
    out.under(Paragraph{.text = told_ties(answer), .indented = true});
    const int decimals = plan_decimals(answer);
    std::vector<std::string> others;
    for (std::size_t i = 1; i < answer.plans.size(); ++i) {
        const plan::PlanMade& plan = answer.plans[i];
        std::string windows;
        for (const plan::CutMade& cut : plan.cuts)
            windows += fmt::format("{}{} {}", windows.empty() ? "; windows " : ", ",
                                   listed(cut.face), told_readings(cut, decimals));
        others.push_back(fmt::format("cost {}: {}{}.", fixed(plan.cost, 2),
                                     told_works(plan, decimals), windows));
    }
    return out.under(list_of(std::move(others)));
}

// What is measured next, and the name that --with knows it by.
std::string next_measured(const plan::PlanMade& plan) {
    if (!plan.centrings.empty()) return plan.centrings.front().part + ".clearance";
    if (!plan.cuts.empty()) return plan::in_order_of_work(plan).front().face;
    if (plan.skims.empty()) return {};
    return plan.skims.front().ring + (plan.skims.front().bore ? ".bore" : ".od");
}

Document after_that(const PlanAnswer& answer) {
    Document out;
    out.add(Heading{"When it is done"});
    const Lengths lengths{answer.units, plan_decimals(answer)};
    for (const plan::ReadingAfter& each : answer.plans.front().readings)
        out.under(Paragraph{.text = told_reading(each, lengths), .indented = true});
    const plan::PlanMade& plan = answer.plans.front();
    const std::string next = next_measured(plan);
    const bool by_amount = plan.centrings.empty() && !plan.cuts.empty() &&
                           plan::in_order_of_work(plan).front().by_amount;
    if (next.empty())
        return out.under(
            Paragraph{.text = "Fit everything, read the gaps back and write the readings into the "
                              "job: `trialfit check` then says how sure they make it.",
                      .indented = true});
    return out.under(Paragraph{
        .text = plan.centrings.empty()
                    ? "Measure each cut as it came out, and plan what is left by it; the cuts "
                      "after it may then be smaller, or none. Name every cut made so far:"
                    : "Centre it, measure what is left of the clearance, on diameter, and plan "
                      "again before any metal comes off: what is left to skim may then be less, or "
                      "nothing.",
        .command = fmt::format("trialfit plan {} {} {}={}", shell_word(answer.file),
                               by_amount ? "--take" : "--with", shell_word(next),
                               by_amount ? "TAKEN" : "MEASURED"),
        .indented = true});
}

}  // namespace

Document no_plan(const PlanAnswer& answer, bool on_sheet) {
    Document out;
    if (!answer.conflict) return out;
    const ToldConflict told = told_conflict(*answer.conflict, answer);
    const auto add = [&](const std::string& about, const std::vector<std::string>& all) {
        if (all.empty()) return;
        on_sheet ? out.add(Paragraph{about + ":"}) : out.add(Heading{about});
        out.under(list_of(all));
    };
    add("Fails now, and nothing that the job allows moves it", told.stuck);
    add("What stands in each other's way", told.members);
    out.under(Paragraph{told.meaning});
    const std::string least = "The least that would make a plan";
    if (on_sheet) return out.add(Paragraph{least + ": " + told.least});
    return out.add(Heading{least}).under(Paragraph{.text = told.least, .indented = true});
}

std::string plan_headline(const PlanAnswer& answer) {
    if (!answer.plans.empty()) {
        const std::string rest = told_not_judged(words(answer.plans.front().after.not_judged));
        return told_best(answer) + (rest.empty() ? "" : " ") + rest;
    }
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

Document document_of(const PlanAnswer& answer) {
    const plan::PlanMade* const best = answer.plans.empty() ? nullptr : &answer.plans.front();
    Document out;
    out.under(Headline{.text = warned(words(answer.warnings), plan_headline(answer)),
                       .ink = best == nullptr ? Ink::bad : Ink::good});
    out.add_details(Document{}.add(
        Paragraph{titled(answer.title, answer.file) + ". " +
                  told_judge(answer.units, answer.judge, answer.odds_level, answer.inflate)}));
    if (best == nullptr)
        out.add_details(no_plan(answer, false));
    else
        out.add(plan_work(answer, *best));
    out.add(plan_findings(answer, best == nullptr ? answer.before : best->after));
    if (best != nullptr && !leaves_all(*best)) out.add_details(after_that(answer));
    out.add_details(other_plans(answer));
    Document last;
    last.add_list("Notes", words(answer.notes));
    last.add_list("Not assessed", words(answer.not_assessed));
    last.add(cautions_block(answer.before.cautions, NextWork::cut));
    return out.add_details(std::move(last));
}

}  // namespace trialfit::paper
