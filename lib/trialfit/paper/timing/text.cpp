// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/timing/parts.hpp>
#include <trialfit/paper/timing/text.hpp>
#include <trialfit/paper/timing/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using timing::TimingAnswer;

std::string about(const TimingAnswer& answer, const Style& style) {
    const int decimals = length_decimals(answer);
    std::string text = answer.title.empty()
                           ? listed(answer.file)
                           : fmt::format("{} ({})", listed(answer.title, 200), listed(answer.file));
    text += fmt::format(". Stroke {}, rod {}", fixed(answer.stroke, decimals),
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
    text +=
        fmt::format(". Lengths in {}, angles in degrees of crank.", quantity::name(answer.units));
    return "\n" + paragraph(text, style.width);
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

std::string timing_text(const TimingAnswer& answer, const Style& style) {
    std::string out;
    for (const std::string& line :
         wrapped(warned(words(answer.warnings), timing_headline(answer)), style.width))
        out += painted(style,
                       answer.slot || answer.verdict != stack::Verdict::holds ? ink(answer.verdict)
                                                                              : Ink::strong,
                       line) +
               "\n";
    if (!style.brief) out += about(answer, style);
    out += bullets(style, "Not judged", words(answer.not_judged));
    if (answer.firing) out += heading(style, "The firing point") + firing_text(answer, style);
    if (!style.brief) out += heading(style, "Finding the top") + top_text(answer, style);
    if (const std::string marks = marks_text(answer, style); !marks.empty())
        out += heading(style, "Marks") + marks;
    if (answer.slot) out += heading(style, "The slot") + slot_text(answer, style);
    if (!answer.settings.empty())
        out += heading(style, "Advance with speed") + advance_text(answer, style);
    if (style.brief) return out;
    out += bullets(style, "Notes", words(answer.notes));
    out += bullets(style, "When you set it", setting_rules(answer));
    out += cautions_block(style, answer.cautions, Work::time);
    return out;
}

}  // namespace trialfit::paper
