// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <filesystem>
#include <set>
#include <string>
#include <trialfit/job/validity/validate.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/plan/text.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/paper/spin/text.hpp>
#include <trialfit/paper/survey/text.hpp>
#include <trialfit/paper/timing/text.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/reading/write/write.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/study/study.hpp>
#include <variant>

#include "../../support/examples.hpp"

// A job that is written reads to the same answers.
namespace trialfit {

namespace {

// Seconds do not belong to an answer: a search is looked at where it comes to its end.
constexpr double kEnough = 600.0;

// Places are of another text.
std::string without_lines(std::string text) {
    for (const std::string key : {"\"line\": ", "\"column\": ", "line "})
        for (std::size_t at = text.find(key); at != std::string::npos; at = text.find(key, at + 1))
            while (at + key.size() < text.size() && text[at + key.size()] >= '0' &&
                   text[at + key.size()] <= '9')
                text.erase(at + key.size(), 1);
    return text;
}

template <typename Answer, typename Json>
std::string told(const Expected<Answer>& answer, const Json& json) {
    if (answer) return without_lines(json(*answer));
    std::string faults;
    for (const job::Complaint& complaint : answer.complaints())
        faults += complaint.fault + "; " + complaint.mend + "\n";
    return without_lines(faults);
}

// Every word before a colon: the keys of a job file, and the names that it gives.
std::set<std::string> keys_of(const std::string& text) {
    const auto of_a_key = [](char c) { return (c >= 'a' && c <= 'z') || c == '_'; };
    std::set<std::string> keys;
    for (std::size_t colon = text.find(':'); colon != std::string::npos;
         colon = text.find(':', colon + 1)) {
        std::size_t begin = colon;
        while (begin > 0 && of_a_key(text[begin - 1]))
            --begin;
        if (begin < colon) keys.insert(text.substr(begin, colon - begin));
    }
    return keys;
}

void same_answers(const Study& one, const Study& other) {
    CHECK(told(one.check(), paper::check_json) == told(other.check(), paper::check_json));
    const StudyOptions rss{.judge = stack::Judge::rss, .entries = 0, .all_pairs = true};
    CHECK(told(one.check(rss), paper::check_json) == told(other.check(rss), paper::check_json));
    OddsOptions few;
    few.samples = 20'000;
    const auto check = one.check();
    const auto odds = [&](const odds::OddsAnswer& answer) {
        return paper::odds_json(*check, answer);
    };
    CHECK(told(one.odds(few), odds) == told(other.odds(few), odds));
    PlanOptions enough;
    enough.seconds = kEnough;
    CHECK(told(one.plan(enough), paper::plan_json) == told(other.plan(enough), paper::plan_json));
    CHECK(told(one.survey(), paper::survey_json) == told(other.survey(), paper::survey_json));
    CHECK(told(one.seat(), paper::seat_json) == told(other.seat(), paper::seat_json));
    CHECK(told(one.timing(), paper::timing_json) == told(other.timing(), paper::timing_json));
    CHECK(told(one.spin(), paper::spin_json) == told(other.spin(), paper::spin_json));
}

void written_and_read(const std::filesystem::path& path) {
    CAPTURE(path.string());
    const std::string name = path.filename().string();
    const auto study = Study::read(testing::text_of(path), name);
    REQUIRE(study);
    const auto text = study->yaml();
    if (!text)
        for (const job::Complaint& complaint : text.complaints())
            MESSAGE(complaint.fault << "; " << complaint.mend);
    REQUIRE(text);
    const auto again = Study::read(*text, name);
    REQUIRE(again);
    same_answers(*study, *again);
    CHECK(again->yaml().value() == *text);
}

}  // namespace

TEST_CASE("every example, written and read again, gives the same answers") {
    std::size_t count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(TRIALFIT_SOURCE_DIR "/examples")) {
        if (entry.path().extension() != ".yaml") continue;
        written_and_read(entry.path());
        ++count;
    }
    CHECK(count > 10);
}

TEST_CASE("a job with every key of the format, written and read again, gives the same answers") {
    for (const auto& entry :
         std::filesystem::directory_iterator(TRIALFIT_SOURCE_DIR "/tests/hostile/accepted"))
        written_and_read(entry.path());
}

TEST_CASE("every key of the format that a job uses is written") {
    const std::string file =
        testing::text_of(TRIALFIT_SOURCE_DIR "/tests/hostile/accepted/every-key.yaml");
    const auto study = Study::read(file);
    REQUIRE(study);
    const std::set<std::string> written = keys_of(study->yaml().value());
    // What is written under another key, which says the same.
    const std::set<std::string> otherwise{"cone",  "thread", "lower", "upper",
                                          "minus", "plus",   "on"};
    for (const std::string& key : keys_of(file)) {
        CAPTURE(key);
        CHECK(written.count(key) + otherwise.count(key) > 0);
    }
}

TEST_CASE("words that no longer say what a size is are not written") {
    const auto study =
        Study::read(testing::text_of(TRIALFIT_SOURCE_DIR "/examples/pump-engine.yaml"));
    REQUIRE(study);
    job::Job job = study->job();
    job::Given& given = job.parts[2].faces[1].dimensions.at(0).distance;
    given.size = quantity::toleranced(given.size.nominal + 0.125, -0.0625, 0.03125);
    // Its gauge could not have read it so.
    const auto refused = reading::write(job);
    CHECK(!refused.text);
    REQUIRE(refused.complaints.size() == 1);
    CHECK(refused.complaints[0].fault ==
          "the limits of face 'front' of part 'plate' are not those of the gauge that read it");
    given.gauge.reset();
    const auto written = reading::write(job);
    REQUIRE(written.text);
    const auto again = Study::read(*written.text);
    REQUIRE(again);
    CHECK(again->job().parts[2].faces[1].dimensions[0].distance.size == given.size);
}

TEST_CASE("sizes without words are written in figures that read back") {
    job::Job job = testing::job_in(TRIALFIT_SOURCE_DIR "/examples/pump-engine.yaml");
    job::Given& given = job.parts[2].faces[1].dimensions.at(0).distance;
    const std::optional<int> caliper = given.gauge;
    const auto read_back = [&](quantity::Size size, std::optional<int> gauge) {
        given = {.size = size, .written = "", .at = {}, .gauge = gauge};
        const auto written = reading::write(job);
        CHECK(told(Expected<std::string>(written.complaints),
                   [](const auto& text) { return text; }) == "");
        REQUIRE(written.text);
        const auto again = reading::read_job(*written.text, "");
        REQUIRE(again.job);
        const job::Given& found = again.job->parts[2].faces[1].dimensions[0].distance;
        CHECK(found.gauge == gauge);
        return found.size;
    };
    const auto same = [&](quantity::Size size) { CHECK(read_back(size, std::nullopt) == size); };
    same(quantity::exact(10.1));
    same(quantity::toleranced(10.1, -0.03, 0.03));
    same(quantity::toleranced(10.0, -0.1, 0.3));
    same(quantity::toleranced(10.0, 0.043, 0.059));
    same({.nominal = 31.0 / 3.0,
          .lower = 10.1,
          .upper = 10.4,
          .spread = {quantity::Shape::uniform}});
    same({.nominal = 10.0,
          .lower = 9.9,
          .upper = 10.1,
          .spread = {quantity::Shape::truncated_normal, 2.5}});
    same({.nominal = 10.0, .lower = 9.9, .upper = 10.2, .spread = {quantity::Shape::normal, 2.0}});
    same({.nominal = 10.0, .lower = 9.9, .upper = 10.2, .spread = {quantity::Shape::triangular}});
    const double half = job.gauges.at(static_cast<std::size_t>(caliper.value())).half_width;
    CHECK(read_back(quantity::reading(10.07, half), caliper) == quantity::reading(10.07, half));
    const quantity::Size repeated = quantity::repeated_reading(10.0, 0.02, 3, half);
    const quantity::Size found = read_back(repeated, caliper);
    CHECK(found.lower == doctest::Approx(repeated.lower).epsilon(1e-14));
    CHECK(found.upper == doctest::Approx(repeated.upper).epsilon(1e-14));
    CHECK(found.sd() == doctest::Approx(repeated.sd()).epsilon(1e-12));
}

TEST_CASE("what the format cannot say is refused in the words of the fault") {
    job::Job job = testing::job_in(TRIALFIT_SOURCE_DIR "/examples/pump-engine.yaml");
    const job::Job every =
        testing::job_in(TRIALFIT_SOURCE_DIR "/tests/hostile/accepted/every-key.yaml");
    const auto built = stack::as_built(every, 1);
    REQUIRE(std::holds_alternative<job::Job>(built));
    CHECK(reading::write(std::get<job::Job>(built)).complaints.at(0).fault ==
          "the record of this job is in force: its parts are as they are now");
    job.parts[0].name = "two.words";
    const auto named = reading::write(job);
    CHECK(!named.text);
    REQUIRE(!named.complaints.empty());
    CHECK(named.complaints[0].at == job::Place{});
    CHECK(reading::write({}).complaints.size() == job::validate({}).size());
}

}  // namespace trialfit
