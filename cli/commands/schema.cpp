// SPDX-License-Identifier: MIT
#include <algorithm>
#include <memory>
#include <string>
#include <vector>

#include "command.hpp"
#include "exit_codes.hpp"
#include "schemas.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

int run_schema(const std::string& name) {
    const std::vector<Schema>& all = schemas();
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Schema& each) { return each.name == name; });
    if (found != all.end()) return deliver(found->text, kHolds);
    std::vector<std::string> names;
    std::string listed;
    names.reserve(all.size());
    for (const Schema& each : all) {
        names.emplace_back(each.name);
        listed += (listed.empty() ? "" : ", ") + names.back();
    }
    return refuse_line("there is no schema '" + name + "'",
                       did_you_mean(name, names, "there are " + listed));
}

}  // namespace

Command add_schema(CLI::App& program) {
    auto name = std::make_shared<std::string>("job");
    CLI::App* line =
        program.add_subcommand("schema", "What a job file may hold, for editors and programs");
    line->add_option("NAME", *name, "job, or the command whose --json it describes");
    line->group("For editors and shells");
    set_help(*line, "[NAME]",
             "Examples:\n"
             "  trialfit schema > job.schema.json\n"
             "  trialfit schema check\n\n"
             "JSON Schema, draft 07: every key with what it means. An editor that reads it\n"
             "completes keys and tells what is wrong while you write.");
    std::vector<std::string> names;
    for (const Schema& each : schemas())
        names.emplace_back(each.name);
    return {.line = line, .run = [name] { return run_schema(*name); }, .choices = std::move(names)};
}

}  // namespace trialfit::cli
