// SPDX-License-Identifier: MIT
#include "files/page.hpp"

#include <algorithm>
#include <trialfit/paper/text/words.hpp>

#include "command.hpp"
#include "exit_codes.hpp"
#include "files/output_file.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

Target page_target(const PageGiven& given) {
    return {.name = *given.file, .overwrite = given.force, .job = given.job};
}

}  // namespace

std::optional<Paper> paper_named(const std::string& name) {
    std::string plain = name;
    std::transform(plain.begin(), plain.end(), plain.begin(), [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    });
    if (plain == "a4") return Paper{"A4", 210.0, 297.0};
    if (plain == "a3") return Paper{"A3", 297.0, 420.0};
    if (plain == "letter") return Paper{"Letter", 215.9, 279.4};
    refuse_line("--paper '" + name + "' is neither A4, A3 nor Letter",
                did_you_mean(name, {"A4", "A3", "Letter"}));
    return std::nullopt;
}

void add_page_options(CLI::App& line, PageGiven& given, const std::string& papers) {
    line.add_option("JOB", given.job, "The job file; - for standard input")->required();
    line.add_option("-o,--output", given.file, "Write it to FILE, not to standard output")
        ->type_name("FILE");
    line.add_flag("--force", given.force, "Overwrite FILE where it is there already");
    line.add_option("--paper", given.paper, papers)->type_name("NAME");
    line.add_flag("--as-written", given.as_written, "Set the readings aside: the sizes as written");
    add_as_of(line, given.as_of);
    add_what_if(line, given.what_if);
}

int may_hand_over(const PageGiven& given) {
    return given.file.value_or("-") == "-" ? kHolds : may_write(page_target(given));
}

int hand_over(std::string_view page, const PageGiven& given) {
    if (given.file.value_or("-") == "-") return deliver(page, kHolds);
    const int code = write_whole(page_target(given), page);
    if (code != kHolds) return code;
    return deliver("Wrote " + paper::shell_word(*given.file) + ".\n", kHolds);
}

}  // namespace trialfit::cli
