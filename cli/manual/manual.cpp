// SPDX-License-Identifier: MIT
#include "manual/manual.hpp"

#include <fmt/format.h>

#include <utility>

#include "exit_codes.hpp"
#include "manual/roff.hpp"
#include "schemas.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

// What closes a command's help: lines to type, under a heading, and what is said after them.
struct Closing {
    std::string heading;
    std::string lines;
    std::string text;
};

Closing closing_of(const CLI::App& line) {
    const std::string footer = line.get_footer();
    Closing out;
    bool listed = true;
    for (std::size_t at = 0; at < footer.size();) {
        const std::size_t end = std::min(footer.find('\n', at), footer.size());
        const std::string each = footer.substr(at, end - at);
        at = end + 1;
        if (out.heading.empty() && each.ends_with(':')) {
            out.heading = each.substr(0, each.size() - 1);
        } else if (listed && each.starts_with("  ")) {
            out.lines += (out.lines.empty() ? "" : "\n") + each.substr(2);
        } else {
            listed = false;
            out.text += each + "\n";
        }
    }
    return out;
}

// "-o, --output", or the name of an argument.
std::string names_of(const CLI::Option& option) {
    if (option.get_positional()) return option.get_name();
    std::string out;
    for (const std::string& name : option.get_snames())
        out += (out.empty() ? "-" : ", -") + name;
    for (const std::string& name : option.get_lnames())
        out += (out.empty() ? "--" : ", --") + name;
    return out;
}

void add_options(const CLI::App& line, RoffPage& page) {
    const auto add = [&](bool positional, std::string_view heading) {
        bool first = true;
        for (const CLI::Option* each : line.get_options()) {
            if (each->get_positional() != positional) continue;
            if (first) page.heading(heading);
            first = false;
            const bool valued = !positional && each->get_type_size() != 0;
            page.item(names_of(*each), valued ? each->get_type_name() : "",
                      each->get_description());
        }
    };
    add(true, "arguments");
    add(false, "options");
}

void add_closing(const CLI::App& line, RoffPage& page) {
    const Closing closing = closing_of(line);
    if (!closing.lines.empty()) {
        page.heading(closing.heading);
        page.lines(closing.lines);
    }
    if (closing.text.find_first_not_of('\n') == std::string::npos) return;
    page.heading("notes");
    page.text(closing.text);
}

std::string page_name(const Command& command) {
    return "trialfit-" + command.line->get_name();
}

int run_manual(const std::string& name) {
    const Program program = make_program();
    if (name.empty()) return deliver(program_page(program), kHolds);
    if (name == "job") return deliver(job_page(schemas().front().text), kHolds);
    std::vector<std::string> names{"job"};
    for (const Command& each : program.commands) {
        names.push_back(each.line->get_name());
        if (names.back() == name) return deliver(command_page(each), kHolds);
    }
    return refuse_line("there is no page of '" + name + "'",
                       did_you_mean(name, names, "`trialfit --help` lists the commands"));
}

}  // namespace

std::string program_page(const Program& program) {
    const CLI::App& line = *program.line;
    RoffPage page("trialfit", 1, "makes the trial fit of an ignition kit on paper");
    page.heading("synopsis");
    page.lines(usage_of(line));
    page.heading("description");
    page.text(line.get_description());
    page.heading("commands");
    for (const Command& each : program.commands)
        page.item(each.line->get_name(), "", each.line->get_description());
    add_options(line, page);
    add_closing(line, page);
    page.heading("see also");
    std::string others = "trialfit-job(5)";
    for (const Command& each : program.commands)
        others += ", " + page_name(each) + "(1)";
    page.text(others);
    return std::move(page).take();
}

std::string command_page(const Command& command) {
    const CLI::App& line = *command.line;
    RoffPage page(page_name(command), 1, line.get_description());
    page.heading("synopsis");
    page.lines(usage_of(line));
    add_options(line, page);
    add_closing(line, page);
    page.heading("see also");
    page.text("trialfit(1), trialfit-job(5)");
    return std::move(page).take();
}

Command add_manual(CLI::App& program) {
    auto name = std::make_shared<std::string>();
    CLI::App* line = program.add_subcommand("manual", "The manual's pages, for man");
    line->add_option("NAME", *name,
                     "A command, or job for the job file; the program where left out");
    line->group("For editors and shells");
    set_help(*line, "[NAME]",
             "Examples:\n"
             "  trialfit manual check | man -l -\n"
             "  trialfit manual job | man -l -\n\n"
             "Where Trialfit is installed as a package, `man trialfit-check` shows the same.");
    std::vector<std::string> names{"job"};
    for (const CLI::App* each : program.get_subcommands({}))
        names.push_back(each->get_name());
    return {.line = line, .run = [name] { return run_manual(*name); }, .choices = std::move(names)};
}

}  // namespace trialfit::cli
