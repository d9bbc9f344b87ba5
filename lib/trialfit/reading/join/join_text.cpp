// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <string_view>
#include <trialfit/reading/fields.hpp>
#include <trialfit/reading/join/join_text.hpp>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/write/size_words.hpp>
#include <trialfit/reading/yaml/source.hpp>
#include <trialfit/reading/yaml/tree.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

using Lines = std::vector<std::string>;

Lines lines_of(std::string_view text) {
    Lines lines;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size() - 1);
        lines.emplace_back(text.substr(0, end + 1));
        text.remove_prefix(end + 1);
    }
    return lines;
}

std::size_t indent_of(const std::string& line) {
    return line.find_first_not_of(' ');
}

bool is_blank_or_comment(const std::string& line) {
    const std::size_t first = line.find_first_not_of(" \t\r\n");
    return first == std::string::npos || line[first] == '#';
}

// A key of a file and its lines: comments above it, the key's own, those of its value.
struct Block {
    std::string key;
    Lines above;
    std::string head;  ///< the key's line; empty where the file has no such key
    Lines body;
    Node value;
    std::vector<std::size_t> items;  ///< where each item begins in the body
    std::size_t indent = 0;          ///< of the items
    std::size_t kit_at = 0;          ///< of parts: the line of the body that a kit's go before
    bool has_kit = false;            ///< an entry for it stands there
};

struct Blocks {
    std::vector<Block> all;
    Lines behind;  ///< comments at the end

    Block* find(std::string_view key) {
        for (Block& block : all)
            if (block.key == key) return &block;
        return nullptr;
    }
};

std::string with_said(FileToJoin& file) {
    std::ranges::sort(file.said, std::ranges::greater{}, &SaidByFile::at);
    std::string text = std::move(file.text);
    for (const SaidByFile& said : file.said)
        text.replace(said.at, said.length, said.words);
    return text;
}

// Where the items of a list stand, if each is on lines of its own.
bool place_items(const Source& source, const Node& value, std::size_t first_line, Block& block) {
    if (value.is_empty() || value.children.empty()) return true;
    const std::size_t first = source.line_of(value.children.front().at);
    if (first <= first_line || first - first_line > block.body.size()) return false;
    block.indent = indent_of(block.body[first - first_line - 1]);
    block.kit_at = block.body.size();
    const std::size_t step = value.is_map() ? 2 : 1;
    for (std::size_t i = 0; i < value.children.size(); i += step) {
        const std::size_t line = source.line_of(value.children[i].at) - first_line - 1;
        if (line >= block.body.size() || indent_of(block.body[line]) != block.indent) return false;
        if (value.is_list() && block.body[line][block.indent] != '-') return false;
        block.items.push_back(line);
        if (!value.is_list() || !kit_goes_here(value.children[i])) continue;
        block.kit_at = line;
        block.has_kit = true;
    }
    return true;
}

// The file in blocks; nothing where its keys do not each begin a line.
std::optional<Blocks> blocks_of(const std::string& text) {
    const Source source(text);
    const Tree tree = parse(source);
    if (!tree.root || !tree.root->is_map()) return std::nullopt;
    const Lines lines = lines_of(source.text());
    Blocks out;
    std::size_t next = 0;
    const std::vector<Entry> all = entries(*tree.root);
    for (std::size_t i = 0; i < all.size(); ++i) {
        const job::Place at = source.place(all[i].key.at);
        const auto line = static_cast<std::size_t>(at.line) - 1;
        if (at.column != 1 || line < next) return std::nullopt;
        std::size_t end = i + 1 < all.size() ? source.line_of(all[i + 1].key.at) : lines.size();
        // Comments that begin a line belong to the key below them.
        while (end > line + 1 && is_blank_or_comment(lines[end - 1]) &&
               (indent_of(lines[end - 1]) == 0 || lines[end - 1] == "\n"))
            --end;
        Block& block = out.all.emplace_back();
        block.key = all[i].key.scalar;
        const auto begin = lines.begin();
        block.above.assign(begin + static_cast<std::ptrdiff_t>(next),
                           begin + static_cast<std::ptrdiff_t>(line));
        block.head = lines[line];
        block.body.assign(begin + static_cast<std::ptrdiff_t>(line) + 1,
                          begin + static_cast<std::ptrdiff_t>(end));
        block.value = all[i].value;
        const bool in_lines = all[i].value.is_list() || all[i].value.is_map();
        if (in_lines && !block.body.empty() && !place_items(source, all[i].value, line, block))
            return std::nullopt;
        next = end;
    }
    out.behind.assign(lines.begin() + static_cast<std::ptrdiff_t>(next), lines.end());
    return out;
}

// Lines moved sideways, so that items at `from` come to stand at `to`.
Lines moved(Lines lines, std::size_t from, std::size_t to) {
    for (std::string& line : lines) {
        const std::size_t indent = indent_of(line);
        if (line == "\n" || indent == std::string::npos) continue;
        if (to > from)
            line.insert(0, to - from, ' ');
        else
            line.erase(0, std::min(from - to, indent));
    }
    return lines;
}

void append(Lines& lines, const Lines& more) {
    lines.insert(lines.end(), more.begin(), more.end());
}

// Comments alone of what stands above a key, without what may begin a document ("---").
Lines comments(const Lines& lines) {
    Lines out;
    std::ranges::copy_if(lines, std::back_inserter(out), [](const std::string& line) {
        return line != "\n" && line.front() != '-';
    });
    return out;
}

bool is_head(std::string_view key) {
    constexpr std::array<std::string_view, 6> kHead{"trialfit",          "title", "units",
                                                    "general_tolerance", "price", "gauges"};
    return std::ranges::find(kHead, key) != kHead.end();
}

// What stands once in a job, whichever of its files it is in: the same in all of them.
bool stands_once(std::string_view key) {
    constexpr std::array<std::string_view, 6> kOnce{
        "running_clearance", "radial_clearance", "shim_cost", "seat", "timing", "spin"};
    return std::ranges::find(kOnce, key) != kOnce.end();
}

// Whether the engine has an item of a kit's materials or states already.
bool known_item(const Block& known, const Block& kit, std::size_t item) {
    const std::vector<Node>& all = known.value.children;
    const std::vector<Node>& own = kit.value.children;
    if (known.value.is_list())
        return std::ranges::any_of(all, [&](const Node& each) { return alike(each, own[item]); });
    const Node* const value = value_of(known.value, own[2 * item].scalar);
    return value != nullptr && alike(*value, own[2 * item + 1]);
}

// The lines of a kit's block without the materials and states that the engine has, too.
Lines new_lines(const Block& known, const Block& kit) {
    if (kit.key != "materials" && kit.key != "states") return kit.body;
    if (kit.items.empty()) return alike(known.value, kit.value) ? Lines() : kit.body;
    Lines lines;
    for (std::size_t i = 0; i < kit.items.size(); ++i) {
        const std::size_t end = i + 1 < kit.items.size() ? kit.items[i + 1] : kit.body.size();
        if (known_item(known, kit, i)) continue;
        lines.insert(lines.end(), kit.body.begin() + static_cast<std::ptrdiff_t>(kit.items[i]),
                     kit.body.begin() + static_cast<std::ptrdiff_t>(end));
    }
    return lines;
}

// One key of a kit put into the engine's.
bool add_block(Blocks& engine, const Block& block, const Lines& notes) {
    Block* const known = engine.find(block.key);
    Lines lines = moved(notes, 0, block.indent);
    append(lines, moved(comments(block.above), 0, block.indent));
    if (!block.value.is_scalar() && block.value.children.empty()) {
        append(engine.behind, notes);
        return true;
    }
    if (known == nullptr) {
        Block added = block;
        added.above = {"\n"};
        append(added.above, notes);
        append(added.above, comments(block.above));
        engine.all.push_back(std::move(added));
        return true;
    }
    if (stands_once(block.key)) return true;
    const Lines own = new_lines(*known, block);
    if (own.empty() && !block.body.empty()) return true;
    if (own.empty() && alike(known->value, block.value)) return true;
    if (own.empty() || known->body.empty()) return false;
    append(lines, own);
    lines = moved(std::move(lines), block.indent, known->indent);
    const auto at =
        known->body.begin() +
        static_cast<std::ptrdiff_t>(std::min(
            block.key == "parts" ? known->kit_at : known->body.size(), known->body.size()));
    known->body.insert(at, lines.begin(), lines.end());
    if (block.key == "parts") known->kit_at += lines.size();
    return true;
}

// The gauges of the job, each on a line: those that the engine's own text has are left to it.
bool add_gauges(Blocks& engine, const job::Job& job, const Lines& own_text) {
    Block* known = engine.find("gauges");
    std::string words;
    for (const std::string& line : own_text)
        words += line;
    const Source source(words.empty() ? std::string("{}") : words);
    const Tree tree = parse(source);
    const auto has = [&](const std::string& name) {
        return tree.root && tree.root->is_map() && !tree.root->children.empty() &&
               value_of(tree.root->children[1], name) != nullptr;
    };
    std::vector<std::string> entries_added;
    for (const job::Gauge& gauge : job.gauges) {
        if (has(gauge.name)) continue;
        std::vector<std::string_view> reads;
        for (const job::GaugeReads each : gauge.reads)
            reads.push_back(word(each));
        entries_added.push_back(
            reads.empty() ? fmt::format("{}: {}", gauge.name, figures(gauge.half_width))
                          : fmt::format("{}: {{half_width: {}, reads: [{}]}}", gauge.name,
                                        figures(gauge.half_width), fmt::join(reads, ", ")));
    }
    if (entries_added.empty()) return true;
    if (known == nullptr) {
        engine.all.insert(engine.all.begin() + 1, Block{.key = "gauges", .head = "gauges:\n"});
        known = engine.find("gauges");
        known->indent = 2;
    }
    const std::size_t brace = known->head.rfind('}');
    if (known->body.empty() && brace != std::string::npos) {
        known->head.insert(brace, fmt::format(", {}", fmt::join(entries_added, ", ")));
        return true;
    }
    if (known->body.empty() && known->head != "gauges:\n") return false;
    for (const std::string& entry : entries_added)
        known->body.push_back(std::string(known->indent, ' ') + entry + "\n");
    return true;
}

// The text of a key's own lines.
Lines text_of(const Block* block) {
    if (block == nullptr) return {};
    Lines lines{block->head};
    append(lines, block->body);
    return lines;
}

}  // namespace

std::optional<std::string> join_texts(std::vector<FileToJoin> files, const job::Job& job) {
    auto engine = blocks_of(with_said(files.front()));
    if (!engine) return std::nullopt;
    const Lines gauges = text_of(engine->find("gauges"));
    if (Block* const parts = engine->find("parts"); parts != nullptr && parts->has_kit)
        parts->body.erase(parts->body.begin() + static_cast<std::ptrdiff_t>(parts->kit_at));
    for (std::size_t i = 1; i < files.size(); ++i) {
        const std::string from = fmt::format("# From {}:\n", files[i].name);
        auto kit = blocks_of(with_said(files[i]));
        if (!kit) return std::nullopt;
        // What is said of the kit as a whole stands above its parts.
        Lines notes{from};
        for (const Block& block : kit->all)
            if (is_head(block.key)) append(notes, comments(block.above));
        for (const Block& block : kit->all) {
            const bool of_parts = block.key == "parts";
            if (!is_head(block.key) && !add_block(*engine, block, of_parts ? notes : Lines{from}))
                return std::nullopt;
        }
        append(engine->behind, comments(kit->behind));
    }
    if (!add_gauges(*engine, job, gauges)) return std::nullopt;
    std::string text;
    for (const Block& block : engine->all) {
        for (const std::string& line : block.above)
            text += line;
        text += block.head;
        for (const std::string& line : block.body)
            text += line;
    }
    for (const std::string& line : engine->behind)
        text += line;
    return text;
}

}  // namespace trialfit::reading
