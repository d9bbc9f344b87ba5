// SPDX-License-Identifier: MIT
#include "input.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <string_view>
#include <trialfit/paper/complaints.hpp>
#include <trialfit/reading/read.hpp>
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
std::optional<std::string> text_of(const std::string& name) {
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

}  // namespace

std::optional<Loaded> load(const std::string& name) {
    std::optional<std::string> text = text_of(name);
    if (!text) {
        const int why = errno;
        refuse(name.empty() ? "''" : name, std::strerror(why), mend_for(why));
        return std::nullopt;
    }
    reading::Outcome outcome = reading::read_job(*text, name);
    tell(paper::complaints_text(outcome.complaints, name, *text, error_style()));
    if (!outcome.job) return std::nullopt;
    return Loaded{.job = std::move(*outcome.job), .text = std::move(*text)};
}

int complain(const job::Complaints& complaints, const Loaded& about) {
    tell(paper::complaints_text(complaints, about.job.file, about.text, error_style()));
    return kWrong;
}

}  // namespace trialfit::cli
