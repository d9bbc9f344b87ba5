// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <trialfit/paper/document/markdown.hpp>

#include "every_block.hpp"

namespace paper = trialfit::paper;
using paper::Document;
using paper::markdown_of;
using trialfit::testing::every_block;

namespace {

// `mark` where no backslash takes its meaning from it.
bool has_bare(std::string_view text, char mark) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\\')
            ++i;
        else if (text[i] == mark)
            return true;
    }
    return false;
}

std::string paragraph_of(const std::string& text) {
    Document out;
    out.add(paper::Paragraph{text});
    return markdown_of(out);
}

}  // namespace

TEST_CASE("Markdown has every block but the drawing, and no columns for pen and picture") {
    CHECK(markdown_of(every_block("gap", "trialfit why")) ==
          "# gap\n"
          "\n"
          "**gap**\n"
          "\n"
          "gap\n"
          "\n"
          "## gap\n"
          "\n"
          "gap\n"
          "\n"
          "`trialfit why`\n"
          "\n"
          "- nominal: gap\n"
          "- gap\n"
          "\n"
          "- gap `trialfit why`\n"
          "  - size: gap\n"
          "- gap\n"
          "\n"
          "1. gap\n"
          "2. gap\n"
          "\n"
          "1. gap\n"
          "\n"
          "gap:\n"
          "\n"
          "| gap | is mm | Verdict |\n"
          "|---|---:|---|\n"
          "| gap (gap) | 1.00 (1.10) | **FAILS** |\n"
          "\n"
          "| From, to | How often, beside the most often | Limits |\n"
          "|---|---:|---|\n"
          "| 0.0 to 0.1 | 50 % | fails |\n"
          "| 0.1 to 0.2 | 100 % | holds |\n"
          "\n"
          "## gap\n"
          "\n"
          "- gap\n");
}

TEST_CASE("an empty document is no Markdown") {
    CHECK(markdown_of({}).empty());
}

TEST_CASE("what is of use only as text is not in Markdown") {
    Document out;
    out.add(paper::Paragraph{"--all lists the rest."}).for_text_only(false);
    CHECK(markdown_of(out).empty());
}

TEST_CASE("no word of a job is markup, a link or HTML in Markdown") {
    const std::string hostile =
        "<script>x</script> | `c` **b** _i_ [a](http://e) #~! \\ &amp;\n# h";
    const std::string all = markdown_of(every_block(hostile, ""));
    CHECK(all.find('<') == std::string::npos);
    CHECK(all.find("\n# h") == std::string::npos);
    for (const char mark : {'`', '[', ']', '_', '~', '!'}) {
        CAPTURE(mark);
        CHECK_FALSE(has_bare(all, mark));
    }
    CHECK(paragraph_of(hostile) ==
          "&lt;script>x&lt;/script> \\| \\`c\\` \\*\\*b\\*\\* \\_i\\_ \\[a\\](http://e) \\#\\~\\! "
          "\\\\ &amp;amp; \\# h\n");
}

TEST_CASE("a line bar in a name starts no column") {
    paper::Table table{.columns = {paper::Column::names("a | b"), "is"}};
    table.add({"c | d", "1"});
    Document out;
    out.add(table);
    CHECK(markdown_of(out) ==
          "| a \\| b | is |\n"
          "|---|---:|\n"
          "| c \\| d | 1 |\n");
}

TEST_CASE("a sentence that begins like a quotation or a list is neither") {
    CHECK(paragraph_of("> quoted") == "\\> quoted\n");
    CHECK(paragraph_of("- listed") == "\\- listed\n");
    CHECK(paragraph_of("+ listed") == "\\+ listed\n");
    CHECK(paragraph_of("-4.16 to -3.84") == "-4.16 to -3.84\n");
}

TEST_CASE("grave accents in a command do not end it") {
    Document out;
    out.add(paper::Paragraph{.command = "a `b` ``c``"});
    CHECK(markdown_of(out) == "``` a `b` ``c`` ```\n");
}

TEST_CASE("a very long word of a cell loses its middle") {
    paper::Table table{.columns = {paper::Column::names("name")}};
    table.add({std::string(1000, 'x')});
    Document out;
    out.add(table);
    CHECK(markdown_of(out).size() < 300);
}
