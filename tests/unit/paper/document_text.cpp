// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <trialfit/paper/document/text.hpp>
#include <trialfit/paper/text/layout.hpp>

#include "every_block.hpp"

namespace paper = trialfit::paper;
using paper::Document;
using paper::text_of;
using trialfit::testing::every_block;

namespace {

std::size_t widest_set_line(const std::string& text) {
    std::size_t widest = 0;
    for (std::size_t from = 0; from < text.size();) {
        const std::size_t end = std::min(text.find('\n', from), text.size());
        widest = std::max(widest, paper::columns(text.substr(from, end - from)));
        from = end + 1;
    }
    return widest;
}

}  // namespace

TEST_CASE("a text has every block but the drawing, each in its form") {
    CHECK(text_of(every_block("gap", "trialfit why"), {.width = 48}) ==
          "gap\n"
          "\n"
          "gap\n"
          "\n"
          "gap\n"
          "  gap\n"
          "    trialfit why\n"
          "\n"
          "  nominal     gap\n"
          "              gap\n"
          "\n"
          "  - gap\n"
          "       trialfit why\n"
          "     size        gap\n"
          "  - gap\n"
          "\n"
          "  1. gap\n"
          "  2. gap\n"
          "\n"
          "  [1] gap\n"
          "\n"
          "gap:\n"
          "gap      is  Verdict\n"
          "         mm\n"
          "gap    1.00  FAILS\n"
          "     (1.10)\n"
          "    gap\n"
          "\n"
          "          0.0 to 0.1  xxxxxx\n"
          "          0.1 to 0.2  ############ <- needed\n"
          "  # holds, x fails\n"
          "\n"
          "gap\n"
          "  - gap\n");
}

TEST_CASE("an empty document, and blocks without content, are no text") {
    CHECK(text_of({}, {}).empty());
    Document out;
    out.add(paper::Paragraph{}).add(paper::List{}).add(paper::Table{.columns = {"is"}});
    out.add(paper::Cautions{.heading = "Cautions"}).add_list("Notes", {}).add(paper::Picture{});
    CHECK(out.blocks.empty());
}

TEST_CASE("only what is apart has an empty line before it, and never the first") {
    Document out;
    out.add(paper::Paragraph{"one"}).under(paper::Paragraph{"two"}).add(paper::Paragraph{"three"});
    CHECK(text_of(out, {}) == "one\ntwo\n\nthree\n");
}

TEST_CASE("a brief text leaves out the details and nothing else") {
    Document details;
    details.add(paper::Paragraph{"where it comes from"}).add_list("Notes", {"a note"});
    Document out;
    out.under(paper::Headline{.text = "It fits."}).add_details(details);
    out.add(paper::Paragraph{"last"});
    CHECK(text_of(out, {.brief = true}) == "It fits.\n\nlast\n");
    CHECK(text_of(out, {}) == "It fits.\n\nwhere it comes from\n\nNotes\n  - a note\n\nlast\n");
}

TEST_CASE("a text keeps within its width, and wraps under what leads a line in") {
    const std::string words = "many words that do not go into one line of a narrow page at all";
    for (const std::size_t width : {std::size_t{40}, std::size_t{80}}) {
        CAPTURE(width);
        CHECK(widest_set_line(text_of(every_block(words, ""), {.width = width})) <= width);
    }
    Document out;
    out.add(paper::list_of({"one two three four"}));
    out.add(paper::Facts{.lines = {{"RSS", "one  two"}, {"odds", "one  two three"}}});
    // What fits stays as it is, two spaces and all.
    CHECK(text_of(out, {.width = 22}) ==
          "  - one two three four\n\n"
          "  RSS         one  two\n"
          "  odds        one two\n"
          "              three\n");
}

TEST_CASE("a command is never wrapped") {
    const std::string command = "trialfit why job.yaml \"a check of very many words\"";
    Document out;
    out.add(paper::Paragraph{.text = "Then:", .command = command});
    CHECK(text_of(out, {.width = 20}) == "Then:\n  " + command + "\n");
}

TEST_CASE("without colour no escape; with it, what is strong and what fails has one") {
    const Document all = every_block("gap", "trialfit why");
    CHECK(text_of(all, {}).find('\x1b') == std::string::npos);
    const std::string coloured = text_of(all, {.colour = true});
    CHECK(coloured.starts_with("\x1b[1;31mgap\x1b[0m\n"));
    CHECK(coloured.find("\x1b[1;31mFAILS\x1b[0m") != std::string::npos);
    CHECK(coloured.find("\x1b[1mgap\x1b[0m\n  gap\n") != std::string::npos);
}

TEST_CASE("no word of a job moves the cursor, reorders letters or runs past the text's width") {
    const std::string hostile =
        "\x1b[31m<script>\xe2\x80\xae\nnew\tline \a" + std::string(300, 'x');
    const std::string text = text_of(every_block(hostile, ""), {.width = 60});
    for (const char* bad : {"\x1b", "\xe2\x80\xae", "\t", "\a", "\nnew"})
        CHECK(text.find(bad) == std::string::npos);
    CHECK(widest_set_line(text) <= 60);
    const std::string typed = text_of(every_block("gap", "rm\n-r \x1b[2J"), {});
    CHECK(typed.find('\x1b') == std::string::npos);
    CHECK(typed.find("    rm -r ") != std::string::npos);
}

TEST_CASE("what is of use only as text is in a text") {
    Document out;
    out.add(paper::Paragraph{"--all lists the rest."}).for_text_only(true);
    CHECK(text_of(out, {}) == "--all lists the rest.\n");
    CHECK(text_of(out, {.brief = true}).empty());
}
