// SPDX-License-Identifier: MIT
#include "files/input.hpp"

#include <fcntl.h>
#include <fmt/chrono.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <cstddef>
#include <cstring>
#include <ctime>
#include <string_view>
#include <trialfit/reading/dates.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/study/suppose.hpp>
#include <utility>

#include "exit_codes.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

constexpr std::string_view kStandardInput = "-";

// Closes what it opened; standard input is left alone.
class Descriptor {
public:
    explicit Descriptor(const std::string& name)
        : owned_(name != kStandardInput),
          // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg)
          number_(owned_ ? open(name.c_str(), O_RDONLY | O_CLOEXEC | O_NOCTTY) : STDIN_FILENO) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor(Descriptor&&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    Descriptor& operator=(Descriptor&&) = delete;
    ~Descriptor() {
        if (owned_ && number_ >= 0) close(number_);
    }

    [[nodiscard]] int number() const { return number_; }

private:
    bool owned_;
    int number_;
};

// The whole text, or one byte more than the longest job file has of a longer one: enough for the
// reader to refuse it. Nothing, with errno set, where it cannot be read.
std::optional<std::string> read_text(const std::string& name) {
    const Descriptor file(name);
    if (file.number() < 0) return std::nullopt;
    std::string text;
    std::array<char, 65536> block{};
    while (text.size() <= reading::kLargestFile) {
        const ssize_t got = read(file.number(), block.data(), block.size());
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return std::nullopt;
        if (got == 0) break;
        text.append(block.data(), static_cast<std::size_t>(got));
    }
    if (text.size() > reading::kLargestFile) text.resize(reading::kLargestFile + 1);
    return text;
}

std::string_view mend_for(int why) {
    switch (why) {
        case EISDIR:
            return "name the job file in it";
        case ENOENT:
            return "`trialfit start -o FILE` writes one to begin from";
        default:
            return "";
    }
}

// How many entries of the record `as_of` puts in force; complains where it is neither a number of
// entries nor a day.
std::optional<std::size_t> in_force(const job::Job& job, const std::string& as_of) {
    const std::size_t most = job.record.size();
    if (as_of.empty()) return most;
    if (reading::is_date(as_of)) {
        std::size_t count = 0;
        while (count < most && job.record[count].date <= as_of)
            ++count;
        return count;
    }
    std::size_t count = 0;
    const char* const end = as_of.data() + as_of.size();
    const auto read = std::from_chars(as_of.data(), end, count);
    if (read.ec == std::errc() && read.ptr == end && count <= most) return count;
    refuse("trialfit",
           "--as-of '" + as_of + "' is neither a day nor one of the record's entries, which are " +
               std::to_string(most),
           "0 is the job before the first of them, 2026-11-25 the state of that day");
    return std::nullopt;
}

// "plate.front=5.46"; complains where a side is missing.
bool add_supposed(const char* option, const std::vector<std::string>& given, bool by_amount,
                  std::vector<study::Supposition>& all) {
    for (const std::string& each : given) {
        const std::size_t equals = each.find('=');
        if (equals == std::string::npos || equals == 0 || equals + 1 == each.size()) {
            refuse("trialfit",
                   fmt::format("{} '{}' is not {}", option, each,
                               by_amount ? "FACE=AMOUNT" : "WHAT=SIZE"),
                   by_amount ? "write it like plate.front=0.60" : "write it like plate.front=5.46");
            return false;
        }
        all.push_back({.what = each.substr(0, equals),
                       .size = each.substr(equals + 1),
                       .by_amount = by_amount});
    }
    return true;
}

// The job as if; complains where that cannot be.
bool suppose(job::Job& job, std::size_t entries, const WhatIfGiven& what_if) {
    std::vector<study::Supposition> all;
    if (!add_supposed("--with", what_if.with, false, all) ||
        !add_supposed("--take", what_if.take, true, all))
        return false;
    job.record.resize(entries);
    auto as_if = study::suppose(job, all, next_day(job));
    if (const auto* complaints = std::get_if<job::Complaints>(&as_if)) {
        for (const job::Complaint& each : *complaints)
            refuse("trialfit", "--with or --take: " + each.fault, each.mend);
        return false;
    }
    job = std::move(std::get<job::Job>(as_if));
    return true;
}

}  // namespace

std::string next_day(const job::Job& job) {
    const std::string today = fmt::format("{:%Y-%m-%d}", fmt::localtime(std::time(nullptr)));
    return job.record.empty() ? today : std::max(today, job.record.back().date);
}

std::optional<std::string> text_of_file(const std::string& name) {
    std::optional<std::string> text = read_text(name);
    const int why = errno;
    if (!text) refuse(name.empty() ? "''" : name, std::strerror(why), mend_for(why));
    return text;
}

std::optional<Loaded> load(const std::string& name, const std::string& as_of,
                           const WhatIfGiven& what_if) {
    std::optional<std::string> text = text_of_file(name);
    if (!text) return std::nullopt;
    reading::Outcome outcome = reading::read_job(*text, name);
    tell_complaints(outcome.complaints, name, *text);
    if (!outcome.job) return std::nullopt;
    auto entries = in_force(*outcome.job, as_of);
    if (!entries) return std::nullopt;
    if (what_if.any()) {
        if (!suppose(*outcome.job, *entries, what_if)) return std::nullopt;
        entries = outcome.job->record.size();
    }
    auto built = stack::as_built(*outcome.job, *entries);
    Loaded loaded{.job = std::move(*outcome.job), .text = std::move(*text)};
    if (const auto* complaints = std::get_if<job::Complaints>(&built)) {
        complain(*complaints, loaded);
        return std::nullopt;
    }
    loaded.job = std::move(std::get<job::Job>(built));
    return loaded;
}

int complain(const job::Complaints& complaints, const Loaded& about) {
    tell_complaints(complaints, about.job.file, about.text);
    return kWrong;
}

}  // namespace trialfit::cli
