// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

namespace trialfit::paper {

/// What a letter asks for, and so what may be answered.
enum class LetterAsks {
    face,           ///< a dimension of a face, never negative
    signed_face,    ///< the same, on either side of its face
    offset,         ///< of a seat, never negative
    signed_offset,  ///< the same, on either side
    reading,        ///< with parts trial-fitted, on either side
    length,         ///< a length that must be known
    diameter,
    cone,    ///< the diameter of a cone
    keep,    ///< a length without limits: what must remain
    shims,   ///< a pile: "0.5+0.2", "none"
    play,    ///< how far a part moves
    taper,   ///< "1 in 5"
    thread,  ///< "M12x1.25-6g"
    height,  ///< of the piston before top dead centre, or an angle
};

/// Whether `unmeasured` may stand in its place. The one place that says so.
[[nodiscard]] constexpr bool may_stay_open(LetterAsks asked) {
    return asked == LetterAsks::face || asked == LetterAsks::signed_face ||
           asked == LetterAsks::offset || asked == LetterAsks::signed_offset ||
           asked == LetterAsks::cone || asked == LetterAsks::diameter || asked == LetterAsks::play;
}

/// One size of a kind of job.
struct StartLetter {
    /// "A" for a length along the axis; with a number behind it what is none: "D1" a diameter, "K1"
    /// a taper or what is to be kept, "P1" a play, "R1" a reading, "T1" a thread or the timing.
    std::string_view letter;
    /// The part that is in hand.
    std::string_view part;
    /// What is measured, to follow "the".
    std::string_view what;
    LetterAsks asked = LetterAsks::face;
    /// What stands in the template, in mm.
    std::string_view invented;
    /// Of the file's gauges, that which a figure alone was read by; empty: the figure stands as it
    /// is.
    std::string_view gauge;
    /// How to measure it, in one to three sentences.
    std::string_view how;
    /// Where it is on the drawing, as draw::LetterAt has it; empty where it is not drawn.
    std::string_view from{};
    std::string_view to{};
    /// A letter that it must be more than.
    std::string_view above{};
    /// The section of the file that is left out where it is not answered.
    std::string_view section{};
};

/// Whether an answer is needed for the file to be one.
[[nodiscard]] constexpr bool is_needed(const StartLetter& letter) {
    return !may_stay_open(letter.asked) && letter.section.empty();
}

}  // namespace trialfit::paper
