// SPDX-License-Identifier: MIT
// A job that reads is asked every answer of the library, and each is printed in every form.
#include <algorithm>
#include <trialfit/draw/page/layout.hpp>
#include <trialfit/paper/check/text.hpp>
#include <trialfit/paper/check/why_text.hpp>
#include <trialfit/paper/document/html.hpp>
#include <trialfit/paper/document/markdown.hpp>
#include <trialfit/paper/json/answers.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/plan/text.hpp>
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

#if defined(TRIALFIT_LIBFUZZER) || defined(TRIALFIT_FEW_ODDS)
constexpr bool kEveryAnswer = false;
#else
constexpr bool kEveryAnswer = true;
#endif
constexpr double kSearch_s = 0.05;
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

void ask_the_odds(const Study& study, const Expected<stack::CheckAnswer>& check,
                  const Printed& printed) {
    OddsOptions few;
    few.samples = 1000;
    few.threads = 1;
    if (const auto odds = study.odds(few)) {
        hold(check.has_value(), "what has odds has a check");
        printed(paper::document_of(*check, *odds));
        printed(paper::odds_json(*check, *odds));
    }
}

void ask_of_the_fit(const Study& study, const Printed& printed, bool ask_odds) {
    const auto check = study.check();
    printed(check, paper::check_json);
    printed(study.check({.judge = stack::Judge::rss, .inflate = 1.5, .all_pairs = true}),
            paper::check_json);
    for (std::size_t i = 0; i < std::min(kMostWhys, study.job().checks.size()); ++i)
        printed(study.why(study.job().checks[i].name), paper::why_json);
    if (ask_odds) ask_the_odds(study, check, printed);
    PlanOptions quick;
    quick.top = 2;
    quick.seconds = kSearch_s;
    printed(study.plan(quick), paper::plan_json);
}

void ask_the_rest(const Study& study, const Printed& printed) {
    printed(study.survey(), paper::survey_json);
    printed(study.seat(), paper::seat_json);
    printed(study.timing(), paper::timing_json);
    printed(study.spin(), paper::spin_json);
}

void draw_it(const Study& study, const Printed& printed) {
    if (const auto section = study.section()) {
        const auto drawn = paper::section_svg({*section}, kLying, std::nullopt, {});
        if (const auto* const svg = std::get_if<std::string>(&drawn)) printed(*svg);
        if (const auto details = paper::details_svg(*section, kLying, {})) printed(*details);
        printed(paper::section_text(*section));
    }
    if (const auto sheet = study.sheet()) {
        printed(paper::sheet_html(*sheet, {.inches = true}));
        printed(paper::sheet_markdown(*sheet, {}));
        printed(paper::lathe_html(*sheet, {}));
        printed(paper::lathe_markdown(*sheet, {}));
    }
    const auto end = sheet::end_view(study.job(), {});
    if (const auto* const answer = std::get_if<sheet::EndAnswer>(&end))
        printed(paper::end_svg(*answer, kLying, {}));
}

}  // namespace

TRIALFIT_HARNESS(answers_harness) {
    const std::string text = text_of(bytes, size);
    const auto study = Study::read(text);
    if (!study) return 0;
    const Printed printed(text);
    // Odds take as long as all the rest: where they are counted twenty times slower, only some are
    // asked.
    ask_of_the_fit(*study, printed, kEveryAnswer || size % 8 == 0);
    ask_the_rest(*study, printed);
    draw_it(*study, printed);
    return 0;
}

}  // namespace trialfit::fuzz
