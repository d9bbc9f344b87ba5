// SPDX-License-Identifier: MIT
// Any bytes read as a job, and as a size: a job or complaints, each with a place within the text.
#include <trialfit/job/validity/validate.hpp>
#include <trialfit/paper/complaint/json.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/reading/yaml/source.hpp>

#include "harness.hpp"

namespace trialfit::fuzz {

namespace {

std::size_t characters(std::string_view line) {
    std::size_t count = 0;
    for (const char each : line)
        count += (static_cast<unsigned char>(each) & 0xC0U) == 0x80U ? 0 : 1;
    return count;
}

void hold_place(job::Place at, const reading::Source& source) {
    if (at == job::Place{}) return;
    hold(at.line >= 1 && static_cast<std::size_t>(at.line) <= source.lines(), "the line is there");
    const std::string_view line = source.line(static_cast<std::size_t>(at.line) - 1);
    hold(at.column >= 1 && static_cast<std::size_t>(at.column) <= characters(line) + 1,
         "the column is there", line);
}

void read_as_job(const std::string& text) {
    const reading::Outcome outcome = reading::read_job(text, "job.yaml");
    hold(outcome.job || job::any_error(outcome.complaints), "a job, or why there is none");
    hold(!outcome.job || !job::any_error(outcome.complaints), "a job has no errors");
    if (outcome.job) hold(!job::any_error(job::validate(*outcome.job)), "what is read is valid");
    const reading::Source source(text);
    std::vector<paper::FaultTold> told;
    for (const job::Complaint& each : outcome.complaints) {
        hold(!each.fault.empty(), "a complaint says what is wrong");
        hold_place(each.at, source);
        told.push_back({.file = "job.yaml", .complaint = each});
    }
    if (told.empty()) return;
    hold_printed(paper::complaints_text(outcome.complaints, "job.yaml", text, {}), text);
    hold_printed(paper::faults_json(told), text);
}

void read_as_size(const std::string& text) {
    job::Job context;
    context.gauges.push_back({.name = "caliper", .half_width = 0.03});
    const reading::SizeOutcome outcome = reading::read_size(text, context);
    hold(outcome.size || !outcome.fault.empty(), "a size, or why there is none");
    if (!outcome.size) return;
    const quantity::Size& size = *outcome.size;
    hold(size.lower <= size.upper && size.lower >= -1e6 && size.upper <= 1e6, "limits in bounds",
         text);
}

}  // namespace

TRIALFIT_HARNESS(reading_harness) {
    constexpr std::size_t kLongestSize = 200;
    const std::string text = text_of(bytes, size);
    read_as_job(text);
    if (size <= kLongestSize) read_as_size(text);
    return 0;
}

}  // namespace trialfit::fuzz
