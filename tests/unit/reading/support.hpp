// SPDX-License-Identifier: MIT
#pragma once

#include <doctest/doctest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <string_view>
#include <trialfit/reading/read.hpp>

namespace trialfit::test {

/// The complaints as a person sees them, without the file's name: "3:5: error: fault; mend\n".
inline std::string rendered(const job::Complaints& complaints) {
    std::ostringstream text;
    for (const job::Complaint& each : complaints) {
        if (each.at.line > 0) text << each.at.line << ":" << each.at.column << ": ";
        text << (each.severity == job::Severity::error ? "error: " : "warning: ") << each.fault;
        if (!each.mend.empty()) text << "; " << each.mend;
        text << "\n";
    }
    return text.str();
}

inline std::string complaints(std::string_view text) {
    const reading::Outcome outcome = reading::read_job(text, "test.yaml");
    // A job and an error never come together.
    CHECK(outcome.job.has_value() == !job::any_error(outcome.complaints));
    return rendered(outcome.complaints);
}

inline job::Job read(std::string_view text) {
    reading::Outcome outcome = reading::read_job(text, "test.yaml");
    CHECK(rendered(outcome.complaints) == "");
    REQUIRE(outcome.job);
    return *outcome.job;
}

inline std::string file_text(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    REQUIRE(file.good());
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

/// `text` with the one place where it says `old` changed.
inline std::string with(std::string text, std::string_view old, std::string_view fresh) {
    const std::size_t at = text.find(old);
    REQUIRE(at != std::string::npos);
    REQUIRE(text.find(old, at + 1) == std::string::npos);
    return text.replace(at, old.size(), fresh);
}

}  // namespace trialfit::test
