// SPDX-License-Identifier: MIT
#include <array>
#include <chrono>
#include <random>
#include <string>
#include <string_view>
#include <support/fewer.hpp>

#include "everything.hpp"
#include "support.hpp"

using namespace trialfit;
using testing::fewer;

// Spoilt files must neither crash nor hang; a sanitized build of this test looks closer.

namespace {

void check_sound(std::string_view text) {
    const reading::Outcome outcome = reading::read_job(text, "spoilt.yaml");
    const bool failed = job::any_error(outcome.complaints);
    if (outcome.job.has_value() == failed) {
        CAPTURE(text);
        CHECK(outcome.job.has_value() != failed);
    }
    for (const job::Complaint& each : outcome.complaints) {
        const bool said =
            !each.fault.empty() && each.fault.size() < 2000 && each.mend.size() < 2000;
        if (said) continue;
        CAPTURE(text);
        CHECK(said);
    }
}

}  // namespace

TEST_CASE("a job cut short anywhere is read or refused") {
    const std::string whole = test::kEverything;
    for (std::size_t length = 0; length < whole.size(); length += 3)
        check_sound(std::string_view(whole).substr(0, length));
}

TEST_CASE("every line left out, and every line written twice") {
    const std::string whole = test::kEverything;
    for (std::size_t begin = 0; begin < whole.size();) {
        const std::size_t end = whole.find('\n', begin) + 1;
        check_sound(whole.substr(0, begin) + whole.substr(end));
        check_sound(whole.substr(0, end) + whole.substr(begin));
        begin = end;
    }
}

TEST_CASE("changed bytes, one to three at a time") {
    const std::string whole = test::kEverything;
    std::mt19937 random(20261125);  // NOLINT(*-msc51-cpp): the same run every time
    constexpr std::string_view kTelling = "{}[],:-#&*!|>'\"%@`\t\n\r .0159+/exz\\?~<";
    std::uniform_int_distribution<std::size_t> place(0, whole.size() - 1);
    std::uniform_int_distribution<std::size_t> mark(0, kTelling.size() - 1);
    std::uniform_int_distribution<int> byte(0, 255);
    std::uniform_int_distribution<int> times(1, 3);
    for (unsigned run = 0; run < fewer(1000); ++run) {
        std::string spoilt = whole;
        for (int left = times(random); left > 0; --left)
            spoilt[place(random)] =
                run % 4 == 0 ? static_cast<char>(byte(random)) : kTelling[mark(random)];
        check_sound(spoilt);
    }
}

TEST_CASE("pieces of sizes strung together") {
    job::Job job;
    job.general_tolerance = 'm';
    job.gauges = {{.name = "caliper", .at = {}, .half_width = 0.03}};
    constexpr std::array<std::string_view, 26> kPieces{
        "12.5", "±", "+/-", "+", "-", "0.05", "..", "by", "caliper", "h7", "exact", "mm", "in",
        "um",   "[", "]",   ",", "/", "3/8",  " ",  "e3", "1e308",   "0",  "from",  ".",  "\u2212"};
    std::mt19937 random(7);  // NOLINT(*-msc51-cpp): the same run every time
    std::uniform_int_distribution<std::size_t> piece(0, kPieces.size() - 1);
    std::uniform_int_distribution<int> count(1, 8);
    unsigned read = 0;
    for (unsigned run = 0; run < fewer(50000); ++run) {
        std::string text;
        for (int left = count(random); left > 0; --left)
            text += kPieces.at(piece(random));
        const auto outcome = reading::read_size(text, job);
        const bool sound =
            outcome.size ? outcome.size->lower <= outcome.size->upper : !outcome.fault.empty();
        if (!sound) CAPTURE(text);
        if (!sound) CHECK(sound);
        read += outcome.size ? 1U : 0U;
    }
    CHECK(read > fewer(200));  // some are sizes, or nothing was tried
}

TEST_CASE("the worst files of four megabytes are answered in time") {
    constexpr std::size_t kLargest = fewer(static_cast<unsigned>(reading::kLargestFile));
    const auto repeated = [](std::string head, std::string_view piece) {
        while (head.size() + piece.size() <= kLargest)
            head += piece;
        return head;
    };
    for (const std::string& text :
         {repeated("a: [[", "1,"), repeated("a: ", "["), repeated("", "- 1\n"),
          repeated("a: \"", "\n"), repeated("", "#"), repeated("", "x"), repeated("a: x\n", " y\n"),
          repeated("", "? a\n"),
          repeated("trialfit: 1\nparts:\n", "  - {part: a, faces: {b: zero}}\n"),
          repeated("trialfit: 1\nparts:\n  - part: a\n    faces: {z: zero}\n    cuts: [",
                   "{face: z},")}) {
        const auto begin = std::chrono::steady_clock::now();
        check_sound(text);
        const auto spent = std::chrono::steady_clock::now() - begin;
        CAPTURE(text.substr(0, 40));
        // The house's bound is 2 s for the whole program; a loaded or sanitized machine is slower.
        CHECK(std::chrono::duration<double>(spent).count() < 20.0);
    }
}
