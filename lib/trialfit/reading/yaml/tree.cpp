// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <istream>
#include <streambuf>
#include <string_view>
#include <trialfit/reading/yaml/tree.hpp>
#include <trialfit/reading/yaml/yaml_fault.hpp>
#include <unordered_map>
#include <utility>

namespace trialfit::reading {

namespace {

// A job of a hundred parts has some five thousand entries, eight deep.
constexpr std::size_t kMostEntries = 300'000;
constexpr std::size_t kDeepest = 50;
constexpr std::size_t kMostLines = 300'000;
// Marks of YAML that may stand before an entry comes of them; what is read so far lies in memory.
constexpr std::size_t kMostPending = 150'000;

// Ends the parsing with a complaint; never leaves this file.
struct Refused {
    job::Complaint complaint;
};

job::Complaint fault(const Source& source, std::size_t at, std::string what, std::string mend) {
    return {.severity = job::Severity::error,
            .at = source.place(at),
            .fault = std::move(what),
            .mend = std::move(mend)};
}

job::Complaint too_many(const Source& source, std::size_t at) {
    return fault(source, at, fmt::format("the file has more than {} entries", kMostEntries),
                 "a job has a few hundred; is this the right file?");
}

job::Complaint too_long(const Source& source, std::size_t at) {
    return fault(source, at,
                 fmt::format("one entry runs on over more than {} commas, brackets and the like",
                             kMostPending),
                 "is a bracket or a quote not closed, or is this the wrong file?");
}

// Feeds the text to the YAML reader, and stops where that has swallowed many marks without handing
// on a single entry: of a list that might yet turn out to be a key it keeps all in memory.
class Feed : public std::streambuf {
public:
    explicit Feed(const std::string& text) : text_(text) {}

    [[nodiscard]] bool stopped() const { return stopped_; }
    [[nodiscard]] std::size_t fed() const { return at_; }
    void entry_seen() { marks_ = 0; }

protected:
    std::streamsize xsgetn(char* into, std::streamsize most) override {
        const std::string_view rest = std::string_view(text_).substr(at_);
        const std::string_view next = rest.substr(0, static_cast<std::size_t>(most));
        constexpr std::string_view kMarks = "[]{},:?-\"'&*!";
        marks_ += static_cast<std::size_t>(std::ranges::count_if(
            next, [&](char c) { return kMarks.find(c) != std::string_view::npos; }));
        stopped_ = stopped_ || marks_ > kMostPending;
        if (stopped_) return 0;
        std::ranges::copy(next, into);
        at_ += next.size();
        return static_cast<std::streamsize>(next.size());
    }
    // Asked for single characters only while the reader looks for a byte order mark.
    int_type underflow() override {
        return at_ < text_.size() ? traits_type::to_int_type(text_[at_]) : traits_type::eof();
    }
    int_type uflow() override {
        const int_type next = underflow();
        if (next != traits_type::eof()) ++at_;
        return next;
    }
    int_type pbackfail(int_type c) override {
        if (at_ == 0) return traits_type::eof();
        --at_;
        return c == traits_type::eof() ? traits_type::not_eof(c) : c;
    }

private:
    const std::string& text_;
    std::size_t at_ = 0;
    std::size_t marks_ = 0;
    bool stopped_ = false;
};

class Builder : public YAML::EventHandler {
public:
    Builder(const Source& source, Feed& feed) : source_(source), feed_(feed) {}

    [[nodiscard]] std::optional<Node> take_root() { return std::move(root_); }
    [[nodiscard]] job::Complaints take_complaints() { return std::move(complaints_); }

    void OnDocumentStart(const YAML::Mark& mark) override {
        if (begun_) refuse_second(offset(mark));
        begun_ = true;
    }
    void OnDocumentEnd() override {}
    void OnNull(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
        add({.kind = Node::Kind::empty,
             .style = {},
             .at = place_of_nothing(offset(mark)),
             .scalar = {},
             .children = {}});
    }
    void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
        refuse_anchor(offset(mark));
    }
    void OnAnchor(const YAML::Mark& mark, const std::string& /*name*/) override {
        refuse_anchor(offset(mark));
    }
    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                  const std::string& value) override {
        const std::uint32_t at = offset(mark);
        refuse_tag(tag, at);
        add({.kind = Node::Kind::scalar,
             .style = style(tag, at),
             .at = at,
             .scalar = value,
             .children = {}});
    }
    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                         YAML::EmitterStyle::value /*style*/) override {
        open(Node::Kind::list, tag, offset(mark));
    }
    void OnSequenceEnd() override { close(); }
    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t /*anchor*/,
                    YAML::EmitterStyle::value /*style*/) override {
        open(Node::Kind::map, tag, offset(mark));
    }
    void OnMapEnd() override {
        keep_first_of_each_key(open_.back());
        close();
    }

private:
    [[nodiscard]] std::uint32_t offset(const YAML::Mark& mark) const {
        const auto at = static_cast<std::size_t>(std::max(mark.pos, 0));
        return static_cast<std::uint32_t>(std::min(at, source_.text().size()));
    }
    // A value that is not there stands, to the YAML reader, where the next one begins; to a person,
    // at its key or its dash.
    [[nodiscard]] std::uint32_t place_of_nothing(std::uint32_t at) const {
        if (open_.empty()) return at;
        const Node& parent = open_.back();
        if (parent.is_map() && parent.children.size() % 2 == 1) return parent.children.back().at;
        if (!parent.is_list() || at == 0) return at;
        const std::size_t mark = source_.text().find_last_of("-,[", at - 1);
        return mark == std::string::npos ? at : static_cast<std::uint32_t>(mark);
    }
    [[noreturn]] void refuse(std::size_t at, std::string what, std::string mend) const {
        throw Refused{fault(source_, at, std::move(what), std::move(mend))};
    }
    [[noreturn]] void refuse_anchor(std::size_t at) const {
        throw Refused{yaml_fault(source_, at, YAML::ErrorMsg::UNKNOWN_ANCHOR)};
    }
    [[noreturn]] void refuse_second(std::size_t at) const {
        if (std::string_view(source_.text()).substr(at, 3) == "---")
            refuse(at, "a second document begins here", "keep each job in a file of its own");
        refuse(at, "this line does not go on with what stands above it",
               "a job file is made of lines like 'key: value'");
    }
    void refuse_tag(const std::string& tag, std::size_t at) const {
        const bool written = at < source_.text().size() && source_.text()[at] == '!';
        if (written || !(tag.empty() || tag == "?" || tag == "!"))
            refuse(at, "a value cannot begin with '!'", "put it in quotes, or leave the mark out");
    }

    // The YAML reader takes a quoted value to end with the file where its quote is never closed.
    [[nodiscard]] Node::Style style(const std::string& tag, std::size_t at) const {
        if (tag != "!" || at >= source_.text().size()) return Node::Style::plain;
        const char mark = source_.text()[at];
        if (mark != '"' && mark != '\'') return Node::Style::block;
        if (end_of_quote(source_.text(), at) == std::string::npos)
            throw Refused{open_quote(source_, at)};
        return Node::Style::quoted;
    }

    void count(std::size_t at) {
        feed_.entry_seen();
        if (++entries_ > kMostEntries) throw Refused{too_many(source_, at)};
    }
    void refuse_key(const Node& node) const {
        if (open_.empty()) return;
        const Node& parent = open_.back();
        if (!parent.is_map() || parent.children.size() % 2 != 0 || node.is_scalar()) return;
        // A list that is never closed comes as a key, too.
        if (auto open = open_bracket(source_)) throw Refused{std::move(*open)};
        if (node.is_empty())
            refuse(node.at, "a key is missing before the colon", "write 'key: value'");
        refuse(node.at, "a list or a map cannot be a key", "write 'key: value'");
    }
    void add(Node node) {
        count(node.at);
        refuse_key(node);
        if (open_.empty())
            root_ = std::move(node);
        else
            open_.back().children.push_back(std::move(node));
    }
    void open(Node::Kind kind, const std::string& tag, std::uint32_t at) {
        refuse_tag(tag, at);
        Node node{.kind = kind, .style = {}, .at = at, .scalar = {}, .children = {}};
        count(at);
        refuse_key(node);
        if (open_.size() >= kDeepest)
            refuse(at, fmt::format("lists and maps are nested more than {} deep here", kDeepest),
                   "a job file needs no more than ten; is a bracket or some indentation amiss?");
        open_.push_back(std::move(node));
    }
    void close() {
        Node node = std::move(open_.back());
        open_.pop_back();
        if (open_.empty())
            root_ = std::move(node);
        else
            open_.back().children.push_back(std::move(node));
    }

    void keep_first_of_each_key(Node& map) {
        std::unordered_map<std::string_view, std::uint32_t> seen;
        std::vector<bool> doubled(map.children.size(), false);
        bool any = false;
        for (std::size_t i = 0; i + 1 < map.children.size(); i += 2) {
            const Node& key = map.children[i];
            const auto [first, fresh] = seen.emplace(key.scalar, key.at);
            if (fresh) continue;
            any = doubled[i] = true;
            complaints_.push_back(
                fault(source_, key.at,
                      fmt::format("{} is written twice; it stands first in line {}",
                                  quoted(key.scalar), source_.place(first->second).line),
                      "keep one of the two"));
        }
        if (!any) return;
        std::vector<Node> kept;
        for (std::size_t i = 0; i + 1 < map.children.size(); i += 2) {
            if (doubled[i]) continue;
            kept.push_back(std::move(map.children[i]));
            kept.push_back(std::move(map.children[i + 1]));
        }
        map.children = std::move(kept);
    }

    const Source& source_;
    Feed& feed_;
    std::vector<Node> open_;
    std::optional<Node> root_;
    job::Complaints complaints_;
    std::size_t entries_ = 0;
    bool begun_ = false;
};

Tree no_tree(job::Complaint complaint) {
    Tree tree;
    tree.complaints.push_back(std::move(complaint));
    return tree;
}

}  // namespace

Tree parse(const Source& source) {
    if (source.lines() > kMostLines)
        return no_tree({.severity = job::Severity::error,
                        .at = {},
                        .fault = fmt::format("the file has more than {} lines", kMostLines),
                        .mend = "a job has a few hundred; is this the right file?"});
    Feed feed(source.text());
    Builder builder(source, feed);
    try {
        std::istream stream(&feed);
        YAML::Parser parser(stream);
        while (parser.HandleNextDocument(builder)) {
        }
    } catch (const Refused& stop) {
        // What the reader makes of a text that was cut off says nothing about the text.
        return no_tree(feed.stopped() ? too_long(source, feed.fed()) : stop.complaint);
    } catch (const YAML::Exception& stop) {
        if (feed.stopped()) return no_tree(too_long(source, feed.fed()));
        const int at = stop.mark.is_null() ? 0 : stop.mark.pos;
        return no_tree(yaml_fault(source, static_cast<std::size_t>(std::max(at, 0)), stop.msg));
    }
    if (feed.stopped()) return no_tree(too_long(source, feed.fed()));
    Tree tree;
    tree.root = builder.take_root();
    tree.complaints = builder.take_complaints();
    return tree;
}

bool alike(const Node& one, const Node& other) {
    return one.kind == other.kind && one.scalar == other.scalar &&
           std::equal(one.children.begin(), one.children.end(), other.children.begin(),
                      other.children.end(), alike);
}

const Node* value_of(const Node& map, std::string_view key) {
    for (std::size_t i = 0; map.is_map() && i + 1 < map.children.size(); i += 2)
        if (map.children[i].scalar == key) return &map.children[i + 1];
    return nullptr;
}

}  // namespace trialfit::reading
