// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <trialfit/reading/join/join_text.hpp>
#include <trialfit/reading/join/joiner.hpp>
#include <trialfit/reading/section/sections.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

constexpr std::array<std::string_view, 10> kSections{"materials", "parts",  "checks", "readings",
                                                     "feelers",   "states", "seat",   "timing",
                                                     "spin",      "record"};
// Those that add up item by item.
constexpr std::array<std::string_view, 6> kLists{"materials", "parts",   "checks",
                                                 "readings",  "feelers", "record"};

void shift(Node& node, std::uint32_t by) {
    node.at += by;
    for (Node& child : node.children)
        shift(child, by);
}

Node* value_in(Node& map, std::string_view key) {
    const Node* const found = value_of(map, key);
    return found == nullptr ? nullptr
                            : &map.children[static_cast<std::size_t>(found - map.children.data())];
}

template <std::size_t count>
bool among(const std::array<std::string_view, count>& keys, std::string_view key) {
    return std::ranges::find(keys, key) != keys.end();
}

// Items of a kit's list behind those that are there; parts at the place for them.
void add_items(Reader& reader, Node& list, const Node& more, std::string_view key,
               std::size_t& parts_at) {
    if (key == "parts") {
        for (const Node& part : more.children)
            if (kit_goes_here(part))
                reader.error(part, "a kit has a place for another kit", "leave it out");
        const auto at = list.children.begin() + static_cast<std::ptrdiff_t>(parts_at);
        list.children.insert(at, more.children.begin(), more.children.end());
        parts_at += more.children.size();
        return;
    }
    for (const Node& item : more.children) {
        const bool known =
            key == "materials" &&
            std::ranges::any_of(list.children, [&](const Node& each) { return alike(each, item); });
        if (!known) list.children.push_back(item);
    }
    if (key == "record")
        std::ranges::stable_sort(list.children, [](const Node& a, const Node& b) {
            const Node* const first = value_of(a, "date");
            const Node* const second = value_of(b, "date");
            return first != nullptr && second != nullptr && first->scalar < second->scalar;
        });
}

// States of a kit beside those that are there.
void add_states(Reader& reader, Node& states, const Node& more) {
    for (const Entry& state : entries(more)) {
        const Node* const known = value_of(states, state.key.scalar);
        if (known == nullptr) {
            states.children.push_back(state.key);
            states.children.push_back(state.value);
        } else if (!alike(*known, state.value)) {
            reader.error(state.key,
                         fmt::format("state {} is another one in {}", quoted(state.key.scalar),
                                     reader.line_words(reader.place(*known))),
                         "make the two agree, or give this one another name");
        }
    }
}

void add_section(Reader& reader, Node& all, const Entry& section, std::size_t& parts_at) {
    const std::string& key = section.key.scalar;
    Node* const known = value_in(all, key);
    if (known == nullptr || known->is_empty()) {
        all.children.push_back(section.key);
        all.children.push_back(section.value);
        return;
    }
    if (among(kLists, key) && known->is_list() && section.value.is_list())
        return add_items(reader, *known, section.value, key, parts_at);
    if (key == "states" && known->is_map() && section.value.is_map())
        return add_states(reader, *known, section.value);
    if (!alike(*known, section.value))
        reader.error(section.key,
                     fmt::format("'{}' stands in two of the files; the first is in {}", key,
                                 reader.line_words(reader.place(*known))),
                     "keep one of the two");
}

}  // namespace

Joiner::Joiner(const std::vector<NamedText>& files) {
    std::string all;
    for (const NamedText& file : files) {
        files_.push_back({.name = file.name, .begin = all.size()});
        Tree& tree = trees_.emplace_back();
        if (all.size() + file.text.size() > kMostJoined) {
            tree.complaints.push_back({.fault = "these files hold more than 256 MiB together",
                                       .mend = "match fewer of them at a time"});
            continue;
        }
        if (auto complaint = refuse_text(file.text)) {
            tree.complaints.push_back(std::move(*complaint));
            continue;
        }
        const Source own(file.text);
        tree = parse(own);
        if (tree.root) shift(*tree.root, static_cast<std::uint32_t>(all.size()));
        if (tree.complaints.empty() && (!tree.root || !tree.root->is_map()))
            tree.complaints.push_back({.at = own.place(0),
                                       .fault = "the file holds no job",
                                       .mend = "begin it with 'trialfit: 1'"});
        all += own.text();
        if (!all.ends_with('\n')) all += '\n';
    }
    source_ = std::make_unique<Source>(all);
}

Reader Joiner::reader() const {
    Reader reader{.source = *source_,
                  .job = {},
                  .faults = {},
                  .files = files_,
                  .parts = {},
                  .part_names = {},
                  .materials = {}};
    reader.job.file = files_.front().name;
    return reader;
}

// All sections but the heads, as one file would have them.
Node Joiner::sections_of(Reader& reader, const std::vector<std::size_t>& kits) const {
    Node all = *trees_.front().root;
    all.children.clear();
    for (const Entry& entry : entries(*trees_.front().root))
        if (among(kSections, entry.key.scalar)) {
            all.children.push_back(entry.key);
            all.children.push_back(entry.value);
        }
    std::size_t parts_at = 0;
    if (Node* const parts = value_in(all, "parts")) {
        const auto here = std::ranges::find_if(parts->children, kit_goes_here);
        parts_at = static_cast<std::size_t>(here - parts->children.begin());
        if (here != parts->children.end()) {
            const auto more = std::find_if(here + 1, parts->children.end(), kit_goes_here);
            if (more != parts->children.end())
                reader.error(*more, "a kit has two places in this job", "keep one of the two");
            parts->children.erase(here);
        }
    }
    for (const std::size_t kit : kits)
        for (const Entry& entry : entries(*trees_[kit].root))
            if (among(kSections, entry.key.scalar)) add_section(reader, all, entry, parts_at);
    return all;
}

bool Joiner::read(Reader& reader, const std::vector<std::size_t>& kits,
                  std::vector<FileComplaint>& complaints) const {
    try {
        (void)read_top(reader, *trees_.front().root);
        for (const std::size_t kit : kits) {
            const Fields fields = read_top(reader, *trees_[kit].root);
            if (value_of(*trees_[kit].root, "parts") == nullptr)
                reader.error(*trees_[kit].root, "the kit has no parts",
                             "add 'parts: [{part: NAME, faces: {back: zero}}]'");
        }
        const Node sections = sections_of(reader, kits);
        read_sections(reader, Fields(reader, sections, "the job",
                                     {"materials", "states", "parts", "checks", "readings",
                                      "feelers", "seat", "timing", "spin", "record"}));
    } catch (const TooManyFaults&) {
        // The complaints so far are more than anybody reads at once.
    }
    job::Complaints found = reader.faults.finish();
    const bool sound = !job::any_error(found);
    for (job::Complaint& complaint : found)
        complaints.push_back(located(std::move(complaint)));
    return sound;
}

Joined Joiner::joined(const std::vector<std::size_t>& kits) const {
    Joined out;
    Reader reader = this->reader();
    if (read(reader, kits, out.complaints)) out.job = std::move(reader.job);
    out.price = 0.0;
    for (const std::size_t kit : kits) {
        const FileRead& file = reader.files[kit];
        out.titles.push_back(file.title);
        out.price =
            out.price && file.price ? std::optional(*out.price + *file.price) : std::nullopt;
    }
    return out;
}

Head Joiner::head() const {
    Reader reader = this->reader();
    if (trees_.front().root) (void)read_top(reader, *trees_.front().root);
    return {.title = reader.job.title, .units = reader.job.units};
}

FileComplaint Joiner::located(job::Complaint complaint) const {
    if (complaint.at.line <= 0) return {.file = 0, .complaint = std::move(complaint)};
    const auto line =
        std::min(static_cast<std::size_t>(complaint.at.line) - 1, source_->lines() - 1);
    const std::size_t file = file_at(files_, source_->start_of(line));
    complaint.at.line -= source_->place(files_[file].begin).line - 1;
    return {.file = file, .complaint = std::move(complaint)};
}

Joiner::Text Joiner::text(const std::vector<std::size_t>& kits) const {
    Text out;
    Reader reader = this->reader();
    if (!read(reader, kits, out.complaints)) return out;
    std::vector<FileToJoin> files;
    std::vector<std::size_t> all{0};
    all.insert(all.end(), kits.begin(), kits.end());
    for (const std::size_t each : all) {
        const std::size_t begin = files_[each].begin;
        const std::size_t end =
            each + 1 < files_.size() ? files_[each + 1].begin : source_->text().size();
        FileToJoin& file = files.emplace_back();
        file.name = files_[each].name;
        file.text = source_->text().substr(begin, end - begin);
        for (SaidByFile said : reader.said)
            if (said.at >= begin && said.at < end) {
                said.at -= begin;
                file.said.push_back(std::move(said));
            }
    }
    out.text = reader.said_lost ? std::nullopt : join_texts(std::move(files), reader.job);
    if (!out.text)
        out.complaints.push_back(
            {.file = kits.empty() ? 0 : kits.front(),
             .complaint = {.fault = "the layout of these files cannot be followed",
                           .mend = "write each key of the file, and each item of its lists, on a "
                                   "line of its own"}});
    return out;
}

}  // namespace trialfit::reading
