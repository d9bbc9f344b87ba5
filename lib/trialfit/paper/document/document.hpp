// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <trialfit/paper/text/style.hpp>
#include <trialfit/stack/answers.hpp>
#include <utility>
#include <variant>
#include <vector>

// What an answer says, before it is set as text, HTML or Markdown. Its words are as the job file
// has them: each renderer makes them harmless in its own medium.
namespace trialfit::paper {

/// The answer in a few sentences; stands first. `aside`: in smaller print behind it.
struct Headline {
    std::string text{};
    Ink ink = Ink::strong;
    std::string aside{};
};

/// What the blocks after it are about.
struct Heading {
    std::string text{};
};

/// Sentences, and what to type under them, which is never wrapped; either may be empty. `indented`
/// under its heading, in text.
struct Paragraph {
    std::string text{};
    std::string command{};
    bool indented = false;
};

/// A figure with its name; without one it is more about the figure before it.
struct Fact {
    std::string label{};
    std::string text{};
};

/// Figures with their names, a line each; in text the names take `label_columns`.
struct Facts {
    std::vector<Fact> lines{};
    std::size_t label_columns = 12;
};

/// A sentence of a list, with what to type and with figures under it, where it has any.
struct Item {
    std::string text{};
    std::string command{};
    std::vector<Fact> facts{};
};

/// Sentences, each behind a dash, its number, or its number as a source that is pointed to. Those
/// of few words may `run_on` in one line. `nested`: set in by one more step, in text.
struct List {
    enum class Mark { dash, number, source };
    std::vector<Item> items{};
    Mark mark = Mark::dash;
    bool run_on = false;
    bool nested = false;
};

/// A column: figures to the right, short words to the left, or the names that take what width is
/// left. `below`: second line of its heading.
struct Column {
    enum class Set { right, left, names };
    std::string heading{};
    std::string below{};
    Set set = Set::right;
    /// Of no use without a pen or a picture: left out of text and Markdown.
    bool paper_only = false;

    /// A line end in `figures` parts the lines of the heading.
    Column(const char* figures);
    Column(std::string figures) : heading(std::move(figures)) {}
    Column(std::string heads, Set how, bool on_paper = false)
        : heading(std::move(heads)), set(how), paper_only(on_paper) {}

    static Column names(std::string heads) { return {std::move(heads), Set::names}; }
    static Column words(std::string heads) { return {std::move(heads), Set::left}; }
    static Column for_paper(std::string heads) { return {std::move(heads), Set::left, true}; }
};

/// A range to be drawn as a bar beside its limits.
struct RangeBar {
    stack::Bounds value{};
    std::optional<double> at_least{};
    std::optional<double> at_most{};
};

/// What stands in a table; bold in HTML and Markdown where it is strong or bad. On paper it may be
/// a box to tick, a place to write or a bar instead. `below`: set under `text`.
struct Cell {
    enum class Kind { text, tick, blank, bar };
    std::string text{};
    Ink ink = Ink::plain;
    std::string below{};
    Kind kind = Kind::text;
    RangeBar bar{};

    Cell() = default;
    Cell(std::string words, Ink how = Ink::plain, std::string under = {})
        : text(std::move(words)), ink(how), below(std::move(under)) {}
    Cell(std::string_view words, Ink how = Ink::plain) : text(words), ink(how) {}
    Cell(const char* words, Ink how = Ink::plain) : text(words), ink(how) {}
    Cell(Kind on_paper) : kind(on_paper) {}
    Cell(const RangeBar& of) : kind(Kind::bar), bar(of) {}

    static Cell strong(std::string words) { return {std::move(words), Ink::strong}; }
    [[nodiscard]] bool bold() const { return ink == Ink::strong || ink == Ink::bad; }
};

/// As many cells as there are columns; `remark`: runs under them over the whole width.
struct Row {
    std::vector<Cell> cells{};
    std::string remark{};
};

/// Figures side by side; not set without rows. At most one column is of names, else the first is.
/// `caption_of_bars`: what the caption says further where bars are drawn.
struct Table {
    std::vector<Column> columns{};
    std::vector<Row> rows{};
    std::string caption{};
    std::string caption_of_bars{};
    /// A form to be filled in by hand: its words wrap, so that it fits any width.
    bool form = false;

    void add(std::vector<Cell> cells, std::string remark = {});
};

/// How often a figure comes out where: bars of equal width, their heights as shares of the tallest.
/// What lies in a `bad` one breaks a limit; the least that is `needed` lies in one.
struct Histogram {
    struct Bar {
        std::string range{};
        double height = 0.0;
        bool bad = false;
        bool needed = false;
    };
    std::vector<Bar> bars{};
};

/// What can hurt someone, each whole.
struct Cautions {
    std::string heading{};
    std::vector<std::string> items{};
};

/// A picture, where there is paper for it: SVG, harmless, without an XML declaration. `label`: what
/// it is, for those who cannot see it. `width`: in mm, as large as its letters are to be; 0 for as
/// wide as the page; a tap on a phone opens it in its own size.
struct Picture {
    std::string label{};
    std::string svg{};
    double width = 0.0;
};

/// What only a page on a screen has: HTML of our own making, harmless; not in a text.
struct OnScreen {
    std::string html{};
};

/// One piece of a document.
struct Block {
    std::variant<Headline, Heading, Paragraph, Facts, List, Table, Histogram, Cautions, Picture,
                 OnScreen>
        content{};
    /// An empty line before it, in text.
    bool apart = false;
    /// Left out of a brief text.
    bool detail = false;
    /// Only of use to those who read it as text.
    bool text_only = false;
    /// Small enough to stand beside the block before it where there is room.
    bool beside = false;
};

/// What an answer says, piece by piece.
struct Document {
    /// Of a page; a text has none.
    std::string title{};
    /// A page to be read at arm's length.
    bool large = false;
    std::vector<Block> blocks{};

    /// The next block, apart from the one before it or directly under it. One without content is
    /// not added.
    Document& add(decltype(Block::content) content);
    Document& under(decltype(Block::content) content);
    /// The last block is of use only as text, and `detail` or not.
    Document& for_text_only(bool detail);
    Document& add(Document other);
    /// All blocks of `other` as details.
    Document& add_details(Document other);
    /// `items` under a heading of their own; nothing without items.
    Document& add_list(std::string heading, std::vector<std::string> items,
                       List::Mark mark = List::Mark::dash);
};

/// A list of sentences.
[[nodiscard]] List list_of(std::vector<std::string> items, List::Mark mark = List::Mark::dash);

/// The caption as a line before the table: it ends with a full stop or a colon.
[[nodiscard]] std::string lead_in(const Table& table);

/// The same figures as a table, for where no bars of letters are drawn.
[[nodiscard]] Table table_of(const Histogram& histogram);

/// The table without the columns that are of use on paper only.
[[nodiscard]] Table without_paper(Table table);

}  // namespace trialfit::paper
