// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "manual/manual.hpp"
#include "manual/roff.hpp"

namespace trialfit::cli {

namespace {

using Keys = nlohmann::ordered_json;

std::string last_of(const std::string& path) {
    return path.substr(path.rfind('/') + 1);
}

std::string joined(const std::string& one, const std::string& more, std::string_view by) {
    if (one.empty() || one == more) return more;
    return more.empty() ? one : one + std::string(by) + more;
}

std::string constant(const Keys& value) {
    return value.is_string() ? value.get<std::string>() : value.dump();
}

// What may be written for a key: "SIZE", "worst | rss", "list of FACE".
std::string value_words(const Keys& of) {
    if (of.contains("$ref")) return last_of(of["$ref"]);
    if (of.contains("const")) return constant(of["const"]);
    std::string out;
    if (of.contains("enum")) {
        for (const Keys& each : of["enum"])
            out = joined(out, constant(each), " | ");
        return out;
    }
    for (const char* const either : {"anyOf", "oneOf"})
        if (of.contains(either)) {
            for (const Keys& each : of[either])
                out = joined(out, value_words(each), " | ");
            if (!out.empty()) return out;
        }
    if (!of.contains("type") || !of["type"].is_string()) return out;
    const std::string type = of["type"];
    if (type == "array")
        return of.contains("items") && of["items"].is_object()
                   ? "list of " + value_words(of["items"])
                   : "list";
    if (type == "object")
        return of.contains("additionalProperties") && of["additionalProperties"].is_object()
                   ? "map to " + value_words(of["additionalProperties"])
                   : "map";
    return type == "boolean" ? "true | false" : type == "string" ? "text" : type;
}

std::string about(const Keys& of, const Keys& definitions) {
    if (of.contains("description")) return of["description"];
    if (!of.contains("$ref")) return {};
    const Keys& meant = definitions[last_of(of["$ref"])];
    return meant.value("description", meant.value("title", ""));
}

bool is_required(const Keys& of, const std::string& key) {
    if (!of.contains("required")) return false;
    const Keys& required = of["required"];
    return std::any_of(required.begin(), required.end(),
                       [&key](const Keys& each) { return each == key; });
}

void add_keys(const Keys& of, const Keys& definitions, RoffPage& page) {
    if (!of.contains("properties")) return;
    for (const auto& [key, value] : of["properties"].items()) {
        std::string words = about(value, definitions);
        if (is_required(of, key)) words += " Required.";
        page.item(key + ":", value_words(value), words.empty() ? "See above." : words);
    }
}

}  // namespace

std::string job_page(std::string_view schema) {
    const Keys job = Keys::parse(schema);
    const Keys& definitions = job["definitions"];
    RoffPage page("trialfit-job", 5, "the job file of Trialfit");
    page.heading("description");
    page.text(job["description"].get<std::string>());
    page.text(
        "\nThe file is YAML in UTF-8. What stands in the place of a value below is what may be "
        "written there: a kind of value that has its own part in this page, or words as they "
        "are, parted by |.");
    page.heading("keys of the file");
    add_keys(job, definitions, page);
    page.heading("kinds of value");
    for (const auto& [name, value] : definitions.items()) {
        page.subheading(name);
        page.text(about(value, definitions));
        add_keys(value, definitions, page);
    }
    page.heading("see also");
    page.text("trialfit(1), trialfit-start(1), trialfit-schema(1)");
    return std::move(page).take();
}

}  // namespace trialfit::cli
