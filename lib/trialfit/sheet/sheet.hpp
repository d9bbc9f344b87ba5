// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <trialfit/draw/section/section.hpp>
#include <trialfit/plan/answers.hpp>
#include <trialfit/seat/answers.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/survey/answers.hpp>
#include <trialfit/timing/answers.hpp>
#include <variant>
#include <vector>

namespace trialfit::stack {
struct Options;
}

namespace trialfit::sheet {

struct LiveAnswer;
enum class NotLive : int;

/// One piece of work of a record's entry, or one measurement.
struct WorkEntered {
    enum class Kind { cut, taken_off, skim, lap, centring, shims, measurement };
    Kind kind = Kind::cut;
    std::string what;  ///< the face, ring, cone or part, or the reading's name
    std::string size;  ///< as written; of a lap what came off; "0.5 + 0.3" or empty of shims
    bool planned = false;
};

/// One entry of the job's record.
struct EntrySummary {
    std::string date;
    std::string who;
    std::string note;
    std::vector<WorkEntered> work;
};

/// What the record block says: so that a sheet can be matched to its file.
struct Record {
    std::string date;  ///< as given; empty: to be filled in
    std::string who;
    std::string file;
    std::string sha256;
};

/// Everything that the page for the lathe and the shelf says, gathered from the other rooms.
struct SheetAnswer {
    std::string title;
    quantity::Unit units = quantity::Unit::mm;
    /// Whether work is planned; the rest is then of the parts as they are, and the plan as new.
    bool planned = false;
    stack::CheckAnswer check;
    /// Nothing where no part has a ring or a cone to draw.
    std::optional<draw::Section> section;
    /// What stands behind the worst checks, or behind the tightest where all hold.
    std::vector<stack::WhyAnswer> whys;
    /// Where something does not hold, or the job allows cuts, laps or shims.
    std::optional<plan::PlanAnswer> plan;
    /// What the page works out of what is typed into it, see live(); null where it works out
    /// nothing, for the reason beside it.
    std::shared_ptr<const LiveAnswer> live;
    NotLive not_live{};
    /// The parts that the cheapest plan turns, see turned_parts().
    std::vector<draw::Lettered> turned;
    /// Where the job has these sections.
    std::optional<seat::SeatAnswer> seat;
    std::optional<timing::TimingAnswer> timing;
    std::optional<survey::SurveyAnswer> survey;
    /// The entries in force, and how many came after the state that was asked for.
    std::vector<EntrySummary> history;
    std::size_t later_entries = 0;
    Record record;
    /// With NotLive::growth_unknown: the parts that are warm and do not say how far they grow.
    std::vector<std::string> growth_unknown;
};

/// `text`: the job file, for its checksum. `options` bind the check, the section, the chains and
/// the plan alike. Complaints as any of these rooms has them.
[[nodiscard]] std::variant<SheetAnswer, job::Complaints> sheet(const job::Job& given,
                                                               const stack::Options& options,
                                                               std::string_view text);

}  // namespace trialfit::sheet
