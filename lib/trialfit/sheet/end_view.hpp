// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <trialfit/draw/page/end.hpp>
#include <trialfit/job/complaint.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/survey/feelers/answers.hpp>
#include <variant>
#include <vector>

namespace trialfit::stack {
struct Options;
}
namespace trialfit::job {
struct Job;
}

namespace trialfit::sheet {

/// What the job states of a part's axis without a direction.
struct AxisStated {
    std::string part;
    /// What it is centred on; empty where this is its runout.
    std::string centred_on;
    /// The indicator's whole reading, or the clearance on diameter: least and most.
    stack::Range size;
};

/// What the end view shows: the gap between a turning and a still ring.
struct EndAnswer {
    std::string title;
    std::string file;
    quantity::Unit units = quantity::Unit::mm;
    bool planned = false;
    draw::EndView view;
    std::string still;  ///< the rings: "stator.poles"
    std::string turning;
    /// What the feelers tell, where the job has such readings; and how many more sets it has.
    std::optional<survey::FeelersFound> feelers;
    std::size_t more_sets = 0;
    /// Where it has none: the least gap round the turn as `check` judges it.
    std::optional<stack::Bounds> least;
    std::optional<double> at_least;
    stack::Verdict verdict = stack::Verdict::holds;
    std::vector<AxisStated> stated;
};

/// The first set of feelers; without feelers the gap that the first air gap asks for, or the worst
/// radial gap. Complaints as stack::check, and one where the job gives neither feelers nor
/// centring nor runout, or no ring turns within another.
[[nodiscard]] std::variant<EndAnswer, job::Complaints> end_view(const job::Job& job,
                                                                const stack::Options& options);

}  // namespace trialfit::sheet
