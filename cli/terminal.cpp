// SPDX-License-Identifier: MIT
#include "terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>
#include <trialfit/job/complaint.hpp>
#include <trialfit/paper/complaint/json.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/quantity/characters.hpp>
#include <vector>

#include "exit_codes.hpp"

namespace trialfit::cli {

namespace {

std::string_view variable(const char* name) {
    const char* value = std::getenv(name);  // NOLINT(concurrency-mt-unsafe)
    return value == nullptr ? std::string_view() : value;
}

Colour& colour() {
    static Colour chosen = Colour::as_it_is;
    return chosen;
}

bool is_coloured(int stream) {
    if (colour() != Colour::as_it_is) return colour() == Colour::always;
    if (!variable("NO_COLOR").empty()) return false;
    if (!variable("FORCE_COLOR").empty()) return variable("FORCE_COLOR") != "0";
    const std::string_view terminal = variable("TERM");
    return !terminal.empty() && terminal != "dumb" && isatty(stream) == 1;
}

std::size_t width_of(int stream) {
    constexpr std::size_t kUsual = 80;
    constexpr std::size_t kLeast = 60;
    constexpr std::size_t kMost = 120;
    std::size_t columns = 0;
    const std::string_view said = variable("COLUMNS");
    const auto read = std::from_chars(said.data(), said.data() + said.size(), columns);
    if (read.ec != std::errc() || read.ptr != said.data() + said.size()) columns = 0;
    winsize size{};
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg): there is no other way to ask
    if (columns == 0 && isatty(stream) == 1 && ioctl(stream, TIOCGWINSZ, &size) == 0)
        columns = size.ws_col;
    return columns == 0 ? kUsual : std::clamp(columns, kLeast, kMost);
}

// Where nothing says in which letters the terminal writes, it is taken to know all.
bool is_ascii() {
    for (const char* const name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
        const std::string language = quantity::small(variable(name));
        if (language.empty()) continue;
        return language.find("utf-8") == std::string::npos &&
               language.find("utf8") == std::string::npos;
    }
    return false;
}

paper::Style style_of(int stream) {
    return {.colour = is_coloured(stream), .width = width_of(stream), .ascii = is_ascii()};
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

void set_colour(Colour chosen) {
    colour() = chosen;
}

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
