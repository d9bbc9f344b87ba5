// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/timing/parts.hpp>
#include <trialfit/paper/timing/text.hpp>
#include <trialfit/paper/timing/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using timing::TimingAnswer;

std::string about(const TimingAnswer& answer) {
    const int decimals = length_decimals(answer);
    std::string text = titled(answer.title, answer.file) +
                       fmt::format(". Stroke {}, rod {}", fixed(answer.stroke, decimals),
                                   fixed(answer.rod, decimals));
    if (answer.pin_offset != 0.0)
        text += fmt::format(", pin offset {}", fixed(answer.pin_offset, decimals));
    if (answer.plug_tilt_deg != 0.0)
        text += fmt::format(", plug hole tilted {} deg", brief(answer.plug_tilt_deg));
    if (!answer.gauge.empty())
        text += fmt::format(", gauge '{}' good to ±{}", listed(answer.gauge),
                            brief(answer.gauge_half_width));
    if (answer.turns)
        text += fmt::format("; the shaft turns {}, seen from outboard", word(*answer.turns));
    return text + fmt::format(". Lengths in {}, angles in degrees of crank.",
                              quantity::name(answer.units));
}

std::vector<std::string> setting_rules(const TimingAnswer& answer) {
    std::vector<std::string> out{
        "Come to every setting from the running direction; if it was passed, go back a quarter "
        "turn and come again.",
        "Check with a strobe on the running engine: nothing here knows what the ignition itself "
        "delays."};
    if (answer.slot)
        out.emplace_back(
            "Turning the stator changes the timing only where the trigger sits on it, and only by "
            "what the crank turns.");
    if (!answer.marks.found.empty())
        out.emplace_back(
            "Which of several marks is valid also depends on the trigger and on which key is "
            "fitted; a wrong key moves them all.");
    return out;
}

}  // namespace

Document document_of(const TimingAnswer& answer) {
    const bool judged = answer.slot || answer.verdict != stack::Verdict::holds;
    Document out;
    out.under(Headline{.text = warned(words(answer.warnings), timing_headline(answer)),
                       .ink = judged ? ink(answer.verdict) : Ink::strong});
    out.add_details(Document{}.add(Paragraph{about(answer)}));
    out.add_list("Not judged", words(answer.not_judged));
    if (answer.firing) out.add(Heading{"The firing point"}).add(firing_section(answer));
    out.add_details(Document{}.add(Heading{"Finding the top"}).add(top_section(answer)));
    if (Document marks = marks_section(answer); !marks.blocks.empty())
        out.add(Heading{"Marks"}).add(std::move(marks));
    if (answer.slot) out.add(Heading{"The slot"}).add(slot_section(answer));
    if (!answer.settings.empty())
        out.add(Heading{"Advance with speed"}).add(advance_section(answer));
    Document last;
    last.add_list("Notes", words(answer.notes)).add_list("When you set it", setting_rules(answer));
    last.add(cautions_block(answer.cautions, NextWork::time));
    return out.add_details(std::move(last));
}

}  // namespace trialfit::paper
