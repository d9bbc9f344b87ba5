// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <memory>
#include <optional>

#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/sheet/lathe.hpp>
#include <trialfit/paper/sheet/sheet.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/reading/dates.hpp>
#include <trialfit/sheet/sheet.hpp>

#include "busy.hpp"
#include "command.hpp"
#include "exit_codes.hpp"
#include "files/input.hpp"
#include "files/page.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct SheetGiven : PageGiven {
    std::string date;
    std::string who;
    bool inches = false;
    bool markdown = false;
    bool lathe = false;
};

std::string page_of(const sheet::SheetAnswer& answer, const paper::SheetStyle& style,
                    const SheetGiven& given) {
    if (given.lathe)
        return given.markdown ? paper::lathe_markdown(answer, style)
                              : paper::lathe_html(answer, style);
    return given.markdown ? paper::sheet_markdown(answer, style) : paper::sheet_html(answer, style);
}

int run(const SheetGiven& given) {
    if (!given.date.empty() && !reading::is_date(given.date))
        return refuse_line(fmt::format("--date '{}' is not a date", paper::harmless(given.date)),
                           "write it like '2026-11-25'");
    const auto paper = paper_named(given.paper);
    if (!paper) return kWrong;
    if (const int code = may_hand_over(given); code != kHolds) return code;
    const auto loaded = load(given.job, given.as_of, given.what_if);
    if (!loaded) return kWrong;
    stack::Options options;
    if (!bind_readings(options, {.as_written = given.as_written}, *loaded)) return kWrong;
    auto outcome = while_busy([&] { return sheet::sheet(loaded->job, options, loaded->text); });
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        return complain(*complaints, *loaded);
    auto& answer = std::get<sheet::SheetAnswer>(outcome);
    answer.record.date = given.date;
    answer.record.who = given.who;
    const paper::SheetStyle style{.width = paper->width,
                                  .height = paper->height,
                                  .paper = paper->name,
                                  .inches = given.inches};
    const int code = hand_over(page_of(answer, style, given), given);
    return code == kHolds && !job::limits_passed(loaded->job).empty() ? kFails : code;
}

}  // namespace

Command add_sheet(CLI::App& program) {
    auto given = std::make_shared<SheetGiven>();
    CLI::App* line = program.add_subcommand("sheet", "The page for the lathe and the shelf");
    add_page_options(*line, *given, "A4, A3 or Letter, standing");
    line->add_option("--date", given->date, "For the record; a blank to fill in where not given")
        ->type_name("DATE");
    line->add_option("--who", given->who, "For the record, likewise")->type_name("NAME");
    line->add_flag("--inches", given->inches, "Inches beside the file's unit");
    line->add_flag("--markdown", given->markdown, "Markdown, without the section");
    line->add_flag("--lathe", given->lathe, "One page for the person at the lathe, in large print");
    line->group("Commands");
    set_help(*line, "JOB [options]",
             "Examples:\n"
             "  trialfit sheet engine.yaml -o engine.html --who \"A. Turner\" --date 2026-11-25\n"
             "  trialfit sheet engine.yaml --lathe -o lathe.html\n"
             "  trialfit sheet engine.yaml --markdown > engine.md\n\n"
             "One HTML page that needs nothing else; print it from any browser. Ends with 0\n"
             "where it was written, whether or not the parts fit; with 1 where less metal is\n"
             "left than the job says must remain.");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
