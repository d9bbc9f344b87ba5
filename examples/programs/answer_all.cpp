// SPDX-License-Identifier: MIT
// Asks every answer of a job, each on a thread of its own, and writes the section and the sheet.
//   answer_all examples/pump-engine.yaml /tmp
#include <fstream>
#include <future>
#include <iostream>
#include <trialfit/trialfit.hpp>

namespace {

using trialfit::Expected;
using trialfit::Study;

// One line: what was asked, and the answer's first line or the first fault.
template <typename Answer, typename Text>
void tell(const char* what, const Expected<Answer>& answer, const Text& text) {
    const std::string words = answer ? text(*answer) : answer.complaints().front().fault + '\n';
    std::cout << what << ": " << words.substr(0, words.find('\n')) << '\n';
}

void write(const std::string& folder, const char* name, const std::string& text) {
    std::ofstream(folder + '/' + name, std::ios::binary) << text;
    std::cout << "wrote " << name << '\n';
}

}  // namespace

int main(int count, char** words) {
    if (count != 3) return 2;
    const auto read = Study::read_file(words[1]);
    if (!read) {
        // The records as a person reads them; as records they are in read.complaints().
        std::cerr << trialfit::paper::complaints_text(read.complaints(), words[1], "", {});
        return 2;
    }
    const Study& study = *read;
    using std::async;
    auto check = async([&] { return study.check(); });
    auto odds = async([&] { return study.odds({}); });
    auto plan = async([&] { return study.plan({}); });
    auto survey = async([&] { return study.survey(); });
    auto seat = async([&] { return study.seat(); });
    auto timing = async([&] { return study.timing(); });
    auto spin = async([&] { return study.spin(); });

    namespace paper = trialfit::paper;
    const paper::Style wide{.width = 400};
    tell("check", check.get(), [&](const auto& a) { return paper::check_text(a, wide); });
    tell("odds", odds.get(), [](const auto& a) { return std::to_string(a.all.value); });
    tell("plan", plan.get(), [&](const auto& a) { return paper::plan_text(a, wide); });
    tell("survey", survey.get(), [&](const auto& a) { return paper::survey_text(a, wide); });
    tell("seat", seat.get(), [&](const auto& a) { return paper::seat_text(a, wide); });
    tell("timing", timing.get(), [&](const auto& a) { return paper::timing_text(a, wide); });
    tell("spin", spin.get(), [&](const auto& a) { return paper::spin_text(a, wide); });

    const std::string folder = words[2];
    if (const auto section = study.section()) {
        const auto svg = paper::section_svg({*section}, {.width = 297, .height = 210}, {});
        if (const auto* text = std::get_if<std::string>(&svg)) write(folder, "section.svg", *text);
    }
    if (const auto sheet = study.sheet())
        write(folder, "sheet.html", paper::sheet_html(*sheet, {}));
}
