// SPDX-License-Identifier: MIT
#include "terminal.hpp"

#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>
#include <trialfit/job/complaint.hpp>
#include <trialfit/paper/complaint/complaints.hpp>
#include <trialfit/paper/complaint/json.hpp>
#include <vector>

#include "exit_codes.hpp"

namespace trialfit::cli {

namespace {

bool is_set(const char* variable) {
    const char* value = std::getenv(variable);  // NOLINT(concurrency-mt-unsafe)
    return value != nullptr && *value != '\0';
}

paper::Style style_of(int stream) {
    const char* terminal = std::getenv("TERM");  // NOLINT(concurrency-mt-unsafe)
    const bool dumb = terminal == nullptr || std::strcmp(terminal, "dumb") == 0;
    return {.colour = !is_set("NO_COLOR") && !dumb && isatty(stream) == 1};
}

void complain_of(job::Severity severity, std::string_view name, std::string_view fault,
                 std::string_view mend) {
    const job::Complaint complaint{
        .severity = severity, .at = {}, .fault = std::string(fault), .mend = std::string(mend)};
    tell_complaints({complaint}, name, "");
}

// All that was told, for a caller that reads JSON.
std::vector<paper::FaultTold>& all_told() {
    static std::vector<paper::FaultTold> told;
    return told;
}

}  // namespace

paper::Style output_style(bool brief) {
    paper::Style style = style_of(STDOUT_FILENO);
    style.brief = brief;
    return style;
}

paper::Style error_style() {
    return style_of(STDERR_FILENO);
}

int deliver(std::string_view answer, int code) {
    const bool written = std::fwrite(answer.data(), 1, answer.size(), stdout) == answer.size();
    if (written && std::fflush(stdout) == 0) return code;
    const int why = errno;
    if (why != EPIPE) refuse("trialfit", "standard output: " + std::string(std::strerror(why)));
    return kFault;
}

void tell(std::string_view text) {
    (void)std::fwrite(text.data(), 1, text.size(), stderr);
}

void tell_complaints(const job::Complaints& complaints, std::string_view name,
                     std::string_view source) {
    tell(paper::complaints_text(complaints, name, source, error_style()));
    for (const job::Complaint& each : complaints)
        all_told().push_back({.file = std::string(name), .complaint = each});
}

std::string told_as_json() {
    return paper::faults_json(all_told());
}

int refuse(std::string_view name, std::string_view fault, std::string_view mend) {
    complain_of(job::Severity::error, name, fault, mend);
    return kWrong;
}

void warn(std::string_view name, std::string_view fault, std::string_view mend) {
    complain_of(job::Severity::warning, name, fault, mend);
}

}  // namespace trialfit::cli
