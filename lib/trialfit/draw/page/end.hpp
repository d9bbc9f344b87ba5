// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/draw/drawing.hpp>
#include <trialfit/draw/page/layout.hpp>
#include <vector>

// The end view: a turning and a still ring as seen from outboard, the clock round them.
namespace trialfit::draw {

/// A way off the axis. The clock is that seen from outboard: degrees from 12, clockwise.
struct ClockVector {
    double amount = 0.0;  ///< in the file's unit, >= 0
    double towards_deg = 0.0;
};

/// What is drawn. The gap between the rings is drawn many times as wide as it is, and so are the
/// ways off the axis; the radii are to no scale.
struct EndView {
    bool still_outside = true;
    double gap = 0.0;  ///< between the two rings if both were on the axis, in the file's unit
    std::optional<ClockVector> still_off;    ///< of the still ring's middle from the axis
    std::optional<ClockVector> turning_off;  ///< of the turning one's, its mark being at 12
    /// How to move the still ring.
    std::optional<ClockVector> move;
    /// No direction is known: how near the rings may come anywhere round the clock, worst case.
    std::optional<double> nearest;
    /// Where figures were read, in degrees on the clock.
    std::vector<double> read_deg;
};

/// The words of the page.
struct EndWords {
    std::string title;
    std::vector<std::string> lines;
    /// At each place of EndView::read_deg, the figures that were read there.
    std::vector<std::vector<std::string>> read;
    std::string still;  ///< what the two tints are
    std::string turning;
    /// Beside the arrow of EndView::move.
    std::string move;
    /// In a column beside the picture: each a paragraph of lines. Those of `numbered` stand first
    /// and go by a number in the picture: EndView::turning_off, the narrowest place (still_off),
    /// in this order; empty where there is none.
    std::vector<std::vector<std::string>> numbered;
    std::vector<std::vector<std::string>> paragraphs;
    /// Under the picture, round the figure that says how many times too large the gap is drawn.
    std::string before_times;
    std::string after_times;
    /// The last line where not all paragraphs have room.
    std::string more;
    TitleBlock block;
};

/// Columns beside the picture that a paragraph's lines may take, mm.
[[nodiscard]] double end_column(const PageSize& page);

/// The page. No two texts meet: a figure that has no room at its place on the clock is left out.
[[nodiscard]] Drawing end_drawing(const EndView& view, const EndWords& words, const PageSize& page);

}  // namespace trialfit::draw
