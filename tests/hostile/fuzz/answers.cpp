// SPDX-License-Identifier: MIT
// A job that reads is asked every answer of the library, and each is printed in every form.
#include <algorithm>
#include <array>
#include <trialfit/draw/page/layout.hpp>
#include <trialfit/paper/check/text.hpp>
#include <trialfit/paper/check/why_text.hpp>
#include <trialfit/paper/document/html.hpp>
#include <trialfit/paper/document/markdown.hpp>
#include <trialfit/paper/document/text.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/plan/text.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/paper/sheet/end_svg.hpp>
#include <trialfit/paper/sheet/lathe.hpp>
#include <trialfit/paper/sheet/section_text.hpp>
#include <trialfit/paper/sheet/section_words.hpp>
#include <trialfit/paper/sheet/sheet.hpp>
#include <trialfit/paper/spin/text.hpp>
#include <trialfit/paper/survey/text.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <trialfit/paper/timing/text.hpp>
#include <trialfit/sheet/end_view.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/study/study.hpp>

#include "harness.hpp"

namespace trialfit::fuzz {

namespace {

#if defined(TRIALFIT_FEW_ODDS)
constexpr bool kAllOdds = false;
#else
constexpr bool kAllOdds = true;
#endif
#if defined(TRIALFIT_LIBFUZZER)
// Where inputs are made by the million each is asked one thing, which its own bytes choose.
constexpr bool kEveryAnswer = false;
constexpr double kSearch_s = 0.005;
constexpr unsigned kSamples = 100;
#else
constexpr bool kEveryAnswer = true;
constexpr double kSearch_s = 0.05;
constexpr unsigned kSamples = 1000;
#endif
constexpr std::size_t kMostWhys = 6;
constexpr draw::PageSize kLying{.width = 297.0, .height = 210.0};

// Holds what one job's answers print to its text.
class Printed {
public:
    explicit Printed(const std::string& text) : text_(text) {}

    void operator()(std::string_view printed) const { hold_printed(printed, text_); }
    void operator()(const paper::Document& document) const {
        (*this)(paper::text_of(document, {}));
        (*this)(paper::text_of(document, {.brief = true, .width = 40, .ascii = true}));
        (*this)(paper::markdown_of(document));
        (*this)(paper::html_of(document, "A4"));
    }
    // An answer, or complaints, which say what is wrong.
    template <typename Answer, typename Json>
    void operator()(const Expected<Answer>& answer, const Json& json) const {
        if (!answer) return hold(job::any_error(answer.complaints()), "an answer, or why not");
        (*this)(paper::document_of(*answer));
        (*this)(json(*answer));
    }

private:
    const std::string& text_;
};

void ask_check(const Study& study, const Printed& printed) {
    printed(study.check(), paper::check_json);
}

void ask_by_rss(const Study& study, const Printed& printed) {
    printed(study.check({.judge = stack::Judge::rss, .inflate = 1.5, .all_pairs = true}),
            paper::check_json);
}

void ask_why(const Study& study, const Printed& printed) {
    for (std::size_t i = 0; i < std::min(kMostWhys, study.job().checks.size()); ++i)
        printed(study.why(study.job().checks[i].name), paper::why_json);
}

void ask_the_odds(const Study& study, const Printed& printed) {
    OddsOptions few;
    few.samples = kSamples;
    few.threads = 1;
    if (const auto odds = study.odds(few)) {
        const auto check = study.check();
        hold(check.has_value(), "what has odds has a check");
        printed(paper::document_of(*check, *odds));
        printed(paper::odds_json(*check, *odds));
    }
}

void ask_plan(const Study& study, const Printed& printed) {
    PlanOptions quick;
    quick.top = 2;
    quick.seconds = kSearch_s;
    printed(study.plan(quick), paper::plan_json);
}

void ask_survey(const Study& study, const Printed& printed) {
    printed(study.survey(), paper::survey_json);
}

void ask_running(const Study& study, const Printed& printed) {
    printed(study.seat(), paper::seat_json);
    printed(study.timing(), paper::timing_json);
    printed(study.spin(), paper::spin_json);
}

void ask_section(const Study& study, const Printed& printed) {
    if (const auto section = study.section()) {
        const auto drawn = paper::section_svg({*section}, kLying, std::nullopt, {});
        if (const auto* const svg = std::get_if<std::string>(&drawn)) printed(*svg);
        if (const auto details = paper::details_svg(*section, kLying, {})) printed(*details);
        printed(paper::section_text(*section));
    }
    const auto end = sheet::end_view(study.job(), {});
    if (const auto* const answer = std::get_if<sheet::EndAnswer>(&end))
        printed(paper::end_svg(*answer, kLying, {}));
}

void ask_sheet(const Study& study, const Printed& printed) {
    if (const auto sheet = study.sheet()) {
        printed(paper::sheet_html(*sheet, {.inches = true}));
        printed(paper::sheet_markdown(*sheet, {}));
        printed(paper::lathe_html(*sheet, {}));
        printed(paper::lathe_markdown(*sheet, {}));
    }
}

using Asked = void (*)(const Study&, const Printed&);
// What is slow stands once, what is quick oftener.
constexpr std::array<Asked, 16> kAsked{ask_check,   ask_by_rss,  ask_why,     ask_survey,
                                       ask_running, ask_check,   ask_by_rss,  ask_why,
                                       ask_survey,  ask_running, ask_section, ask_plan,
                                       ask_check,   ask_why,     ask_running, ask_the_odds};

// Spreads inputs that differ by one byte over all that may be asked.
std::size_t mixed(std::string_view text) {
    std::uint32_t hash = 2166136261U;
    for (const char each : text)
        hash = (hash ^ static_cast<unsigned char>(each)) * 16777619U;
    return hash >> 8U;
}

void ask_everything(const Study& study, const Printed& printed, std::size_t size) {
    for (const Asked ask : {ask_check, ask_by_rss, ask_why, ask_plan, ask_survey, ask_running,
                            ask_section, ask_sheet})
        ask(study, printed);
    // Odds take as long as all the rest.
    if (kAllOdds || size % 8 == 0) ask_the_odds(study, printed);
}

// One answer; one input in 256 is made a sheet of, which holds most of the others.
void ask_one(const Study& study, const Printed& printed, std::size_t chosen) {
    if (chosen % 256 == 255) return ask_sheet(study, printed);
    kAsked.at(chosen % kAsked.size())(study, printed);
}

}  // namespace

TRIALFIT_HARNESS(answers_harness) {
    const std::string text = text_of(bytes, size);
    const auto study = Study::read(text);
    if (!study) return 0;
    const Printed printed(text);
    if (kEveryAnswer)
        ask_everything(*study, printed, size);
    else
        ask_one(*study, printed, mixed(text));
    return 0;
}

}  // namespace trialfit::fuzz
