// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <trialfit/paper/document/html.hpp>

#include "every_block.hpp"

namespace paper = trialfit::paper;
using paper::Document;
using trialfit::testing::every_block;

namespace {

// What stands between the title and the foot of the page.
std::string body_of(const Document& document) {
    const std::string page = paper::html_of(document, "A4");
    const std::size_t from = page.find("</h1>\n") + 6;
    return page.substr(from, page.find("</main>") - from);
}

}  // namespace

TEST_CASE("a page has every block, each in its element") {
    const std::string body = body_of(every_block("gap", "trialfit why"));
    const std::string table = body.substr(body.find("<div class=\"wide\" "));
    CHECK(
        body.substr(0, body.size() - table.size()) ==
        "<p class=\"answer\">gap <span>gap</span></p>\n"
        "<div class=\"wide section\" id=\"picture-1\" tabindex=\"0\" role=\"region\" "
        "aria-label=\"gap\">\n<a class=\"smaller\" href=\"#whole\">Show it whole</a>\n"
        "<a class=\"larger\" href=\"#picture-1\" aria-label=\"gap, larger\">\n"
        "<svg>drawn</svg>\n</a>\n</div>\n"
        "<h2>gap</h2>\n"
        "<p>gap<br><code>trialfit why</code></p>\n"
        "<dl>\n<dt>nominal</dt><dd>gap</dd>\n<dt></dt><dd>gap</dd>\n</dl>\n"
        "<ul>\n<li>gap<br><code>trialfit why</code><dl>\n<dt>size</dt><dd>gap</dd>\n</dl>\n</li>\n"
        "<li>gap</li>\n</ul>\n"
        "<ol>\n<li>gap</li>\n<li>gap</li>\n</ol>\n"
        "<ol>\n<li>gap</li>\n</ol>\n");
    for (const char* part :
         {"<caption>gap; bars: thin</caption>", "<th scope=\"col\" class=\"figure\">is mm</th>",
          "aria-label=\"to tick\"", "<th scope=\"row\" class=\"name\"><bdi>gap</bdi></th>",
          "<bdi>1.00</bdi><br>(1.10)</td>", "<td class=\"bar\"><svg ", "<strong><bdi>FAILS</bdi>",
          "<tr><td colspan=\"5\">gap</td></tr>", "<bdi>0.0 to 0.1</bdi>", "<bdi>50 %</bdi>"}) {
        CAPTURE(part);
        CHECK(table.find(part) != std::string::npos);
    }
    CHECK(table.ends_with("<h2>gap</h2>\n<ul>\n<li>gap</li>\n</ul>\n"));
}

TEST_CASE("an empty document is a page without blocks, of the paper that was asked for") {
    CHECK(body_of({}).empty());
    CHECK(paper::html_of({}, "letter").find("@page{size:letter portrait") != std::string::npos);
}

TEST_CASE("what is small stands beside the block before it, once") {
    Document out;
    out.add(paper::Paragraph{"one"}).add(paper::Paragraph{"two"}).add(paper::Paragraph{"three"});
    out.blocks[1].beside = true;
    CHECK(body_of(out) == "<div class=\"pair\">\n<p>one</p>\n<p>two</p>\n</div>\n<p>three</p>\n");
}

TEST_CASE("what is of use only as text is not on a page") {
    Document out;
    out.add(paper::Paragraph{"--all lists the rest."}).for_text_only(false);
    CHECK(body_of(out).empty());
}

TEST_CASE("no word of a job is an element, an attribute or a mark that reorders on a page") {
    const std::string hostile =
        "<script>x</script> \"onclick='y'\" & \x1b[31m\xe2\x80\xae " + std::string(1000, 'x');
    const std::string page = paper::html_of(every_block(hostile, hostile), "A4");
    for (const char* bad : {"<script", "\"onclick", "'y'", "& ", "\x1b", "\xe2\x80\xae"}) {
        CAPTURE(bad);
        CHECK(page.find(bad) == std::string::npos);
    }
    CHECK(page.find("&lt;script&gt;x&lt;/script&gt; &quot;onclick=&#39;y&#39;&quot; &amp; ") !=
          std::string::npos);
}
