// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/document.hpp>

namespace trialfit::testing {

/// A document with a block of each kind, `word` wherever a job's text may stand and `command`
/// wherever something may be typed.
inline paper::Document every_block(const std::string& word, const std::string& command) {
    using namespace paper;
    Document out{.title = word};
    out.under(Headline{.text = word, .ink = Ink::bad, .aside = word});
    out.add(Picture{.label = word, .svg = "<svg>drawn</svg>\n"});
    out.add(Heading{word}).under(Paragraph{word, command, true});
    out.add(Facts{.lines = {{"nominal", word}, {"", word}}});
    out.add(List{.items = {{word, command, {{"size", word}}}, {.text = word}}});
    out.add(list_of({word, word}, List::Mark::number));
    out.add(list_of({word}, List::Mark::source));
    Table table{.columns = {Column::for_paper("Done"), Column::names(word), "is\nmm",
                            Column::for_paper("Bar"), Column::words("Verdict")},
                .caption = word,
                .caption_of_bars = "; bars: thin"};
    RangeBar bar{.at_least = 0.6};
    bar.value.nominal = 1.0;
    bar.value.worst = {.lo = 0.5, .hi = 1.5};
    bar.value.rss = {.lo = 0.8, .hi = 1.2};
    table.add({Cell::Kind::tick, word, {"1.00", Ink::plain, "(1.10)"}, bar, {"FAILS", Ink::bad}},
              word);
    out.add(std::move(table));
    out.add(Histogram{.bars = {{"0.0 to 0.1", 0.5, true}, {"0.1 to 0.2", 1.0, false, true}}});
    out.add(Cautions{.heading = word, .items = {word}});
    return out;
}

}  // namespace trialfit::testing
