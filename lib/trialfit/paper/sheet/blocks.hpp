// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/sheet/sheet.hpp>
#include <vector>

// What the sheet says, block by block, before it is set in HTML or Markdown. Text is as the job
// file has it: escape it.
namespace trialfit::paper {

struct SheetCell {
    enum class Kind { text, strong, bar, tick, blank } kind = Kind::text;
    std::string text{};
    /// bar: what it shows, and the scale that the table's bars share.
    const Finding* finding = nullptr;
};

struct SheetTable {
    std::string caption;
    struct Column {
        std::string heading;
        bool figures = false;
        /// Of no use without a pen or a picture: left out of Markdown.
        bool paper_only = false;
    };
    std::vector<Column> columns;
    std::vector<std::vector<SheetCell>> rows;
};

struct SheetBlock {
    std::string heading;
    std::vector<std::string> paragraphs;
    std::optional<SheetTable> table;
    std::vector<std::string> bullets;
    /// The bullets are few words each and may run on one line.
    bool run_on = false;
    /// Small enough to stand beside the block before it where there is room.
    bool beside = false;
};

/// Lengths as the sheet prints them.
struct Lengths {
    quantity::Unit units = quantity::Unit::mm;
    int decimals = 2;
    bool inches = false;

    [[nodiscard]] std::string operator()(double length) const;
    [[nodiscard]] std::string range(stack::Range range) const;
    /// Sizes that pass: its ends rounded inwards.
    [[nodiscard]] std::string window(stack::Range range) const;
    /// What must remain, rounded up; what must not be passed, rounded down.
    [[nodiscard]] std::string least(double length) const;
    [[nodiscard]] std::string most(double length) const;
    /// A length that was told otherwise, and its inches.
    [[nodiscard]] std::string beside(std::string told, double length) const;
    [[nodiscard]] std::string with_unit(double length) const;
};

/// The job's title, as the sheet's first line.
[[nodiscard]] std::string sheet_title(const sheet::SheetAnswer& answer);

/// `all`: findings(answer.check), which the bars point into; it must outlive the blocks.
[[nodiscard]] std::vector<SheetBlock> sheet_blocks(const sheet::SheetAnswer& answer,
                                                   const std::vector<Finding>& all,
                                                   const Lengths& lengths);

/// The cut sheet, or why there is none; nothing where the answer has no plan.
[[nodiscard]] std::vector<SheetBlock> plan_blocks(const sheet::SheetAnswer& answer,
                                                  const Lengths& lengths);

/// Trial-fit readings beside what they should be, and what the feelers tell.
[[nodiscard]] std::vector<SheetBlock> survey_blocks(const survey::SurveyAnswer& survey,
                                                    const Lengths& lengths);

/// Tightening, and the timing.
[[nodiscard]] std::vector<SheetBlock> seat_blocks(const seat::SeatAnswer& seat);
[[nodiscard]] std::vector<SheetBlock> timing_blocks(const timing::TimingAnswer& answer,
                                                    const Lengths& lengths);

}  // namespace trialfit::paper
