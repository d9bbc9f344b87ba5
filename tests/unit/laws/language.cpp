// SPDX-License-Identifier: MIT
// What the host program sets as its language does not reach a figure: reading, every answer and
// every page are the same bytes under a decimal comma.
#include <doctest/doctest.h>

#include <clocale>
#include <locale>
#include <string>
#include <support/examples.hpp>
#include <trialfit/odds/odds.hpp>
#include <trialfit/paper/check/text.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/paper/sheet/sheet.hpp>
#include <trialfit/paper/spin/text.hpp>
#include <trialfit/paper/survey/text.hpp>
#include <trialfit/paper/timing/text.hpp>
#include <trialfit/reading/edit/edit.hpp>
#include <trialfit/seat/seat.hpp>
#include <trialfit/sheet/sheet.hpp>
#include <trialfit/spin/spin.hpp>
#include <trialfit/survey/survey.hpp>
#include <trialfit/timing/timing.hpp>
#include <variant>

namespace trialfit {

namespace {

// German figures: 1.234,5.
class Comma : public std::numpunct<char> {
    [[nodiscard]] char do_decimal_point() const override { return ','; }
    [[nodiscard]] char do_thousands_sep() const override { return '.'; }
    [[nodiscard]] std::string do_grouping() const override { return "\3"; }
};

// While it lives, streams write German figures, and the C library too where the machine has German.
class GermanHost {
public:
    GermanHost() : before_(std::locale::global(std::locale(std::locale::classic(), new Comma))) {
        for (const char* name : {"de_DE.UTF-8", "de_DE.utf8", "de_DE"})
            c_too_ = c_too_ || std::setlocale(LC_ALL, name) != nullptr;
    }
    GermanHost(const GermanHost&) = delete;
    GermanHost(GermanHost&&) = delete;
    GermanHost& operator=(const GermanHost&) = delete;
    GermanHost& operator=(GermanHost&&) = delete;
    ~GermanHost() {
        std::locale::global(before_);
        std::setlocale(LC_ALL, "C");
    }
    [[nodiscard]] bool c_too() const { return c_too_; }

private:
    std::locale before_;
    bool c_too_ = false;
};

template <typename Outcome, typename Text>
std::string said(const Outcome& outcome, const Text& text) {
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        return paper::complaints_text(*complaints, "job", "", {});
    return text(std::get<0>(outcome));
}

// All that the program could say of a job file.
std::string all_said(const std::string& file) {
    const std::string text = testing::text_of(TRIALFIT_SOURCE_DIR "/examples/" + file);
    const job::Job job = testing::job_in(TRIALFIT_SOURCE_DIR "/examples/" + file);
    const paper::Style style;
    std::string out = said(sheet::sheet(job, {}, text), [](const auto& answer) {
        return paper::sheet_html(answer, {}) + paper::sheet_markdown(answer, {.inches = true});
    });
    out += said(stack::check(job, {}),
                [&](const auto& answer) { return paper::check_text(answer, style); });
    out += said(survey::survey(job), [&](const auto& answer) {
        return paper::survey_text(answer, style) + paper::survey_json(answer);
    });
    out += said(seat::seat(job), [&](const auto& answer) {
        return paper::seat_text(answer, style) + paper::seat_json(answer);
    });
    out += said(timing::timing(job),
                [&](const auto& answer) { return paper::timing_text(answer, style); });
    out += said(spin::spin(job, {}),
                [&](const auto& answer) { return paper::spin_text(answer, style); });
    out += said(odds::odds(job, odds::beside({})), [&](const auto& answer) {
        return paper::odds_text(std::get<0>(stack::check(job, {})), answer, style);
    });
    const auto edited =
        reading::edited(text, {reading::RecordedEntry{.date = "2026-11-25", .note = "1,5"}});
    return out + edited.text.value_or("");
}

}  // namespace

TEST_CASE("what is said of a job does not hang on the host program's language") {
    for (const char* file : {"pump-engine-turned.yaml", "off-centre-plate.yaml", "loose-rotor.yaml",
                             "kicks-no-spark.yaml"}) {
        CAPTURE(file);
        const std::string expected = all_said(file);
        const GermanHost german;
        if (!german.c_too()) MESSAGE("this machine has no German: only C++ streams are held");
        CHECK(all_said(file) == expected);
    }
}

}  // namespace trialfit
