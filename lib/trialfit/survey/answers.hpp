// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <trialfit/job/check.hpp>
#include <trialfit/job/size_id.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/survey/feelers/answers.hpp>
#include <trialfit/survey/messages.hpp>
#include <vector>

// What the survey answers: plain data. Lengths in the file's unit.
namespace trialfit::survey {

/// What the readings and sizes say of each other, all in all.
enum class Judgement {
    nothing_to_compare,  ///< no size is known in two ways
    agree,
    suspect,      ///< they do not, and one explanation is likelier than any other by 7 to 1
    cannot_tell,  ///< they do not, and several figures explain it as well, or none alone does
    contradict,   ///< no sizes within their limits give these readings
};

/// Whether readings and sizes were compared and do not agree.
[[nodiscard]] constexpr bool disagrees(Judgement judgement) {
    return judgement != Judgement::agree && judgement != Judgement::nothing_to_compare;
}

/// Whether the figures are of readings that agree, one being left out perhaps; where they are not,
/// they advise nothing.
[[nodiscard]] inline bool figures_stand(const FeelersFound& found) {
    return !disagrees(found.judgement) ||
           std::ranges::any_of(found.readings, &FeelerReadingFound::left_out);
}

/// One reading against all the rest.
struct ReadingFound {
    std::string name;
    std::string from;
    std::string to;
    job::Place at;
    std::string written;
    double is = 0.0;
    double half_width = 0.0;
    /// What the sizes and the other readings say it should be, and the standard deviation of that.
    double should_be = 0.0;
    double should_be_sd = 0.0;
    /// is - should_be, and in standard deviations of that difference (the standardised residual).
    double off_by = 0.0;
    double standardised = 0.0;
    /// Share of an error in it that shows in its residual, 0 (nothing checks it) to 1.
    double redundancy = 0.0;
    /// The smallest error that would be noticed, 4 sd of the difference (odds of a false alarm 1 in
    /// 1,000, of a miss 1 in 4); nothing where nothing checks the reading.
    std::optional<double> smallest_noticed;
    /// Jammed: the faces that touched, as found or as stated; empty where it was seated.
    std::string touching_inboard;
    std::string touching_outboard;
    std::string jammed_part;
    bool touching_stated = false;
    /// Further parts on its way that were jammed, too.
    struct Jammed {
        std::string part;
        std::string inboard;
        std::string outboard;
    };
    std::vector<Jammed> also_jammed;
    /// How many times likelier this is than the next-best way of lying; nothing where there is no
    /// other.
    std::optional<double> odds_to_next;
    std::string next_best;  ///< "seated", "plate.front and rotor.magnet_in"
    bool pushed_matters = false;
    bool pushed_stated = true;
};

/// One size before and after the adjustment.
struct SizeFound {
    std::string label;
    std::string written;
    job::Place at;
    double as_written = 0.0;  ///< middle of its limits
    double adjusted = 0.0;
    double sd_before = 0.0;
    double sd_after = 0.0;
    double standardised = 0.0;
    double redundancy = 0.0;
};

/// What the rest says of a size that nobody has measured.
struct UnmeasuredFound {
    std::string label;
    job::Place at;
    /// Nothing where the rest leaves it open.
    std::optional<double> value;
    stack::Range worst;  ///< of a found one
};

/// What an explanation takes to be wrong.
enum class SuspectKind {
    reading,   ///< a trial-fit reading's figure
    size,      ///< a written size
    gauge,     ///< all that one gauge read, by the same amount
    touching,  ///< which faces touched, as a reading states them
};

/// One figure (or one statement) that would explain the disagreement if it alone were wrong.
struct Suspect {
    std::string name;
    SuspectKind kind = SuspectKind::reading;
    job::Place at;
    std::string written;  ///< "9.50 by caliper"; empty of a gauge
    double is = 0.0;      ///< its figure; 0 of a gauge and of what touched
    double off_by = 0.0;  ///< as written less what it would have to be
    double should_be = 0.0;
    double should_be_sd = 0.0;
    double chi_square_drop = 0.0;  ///< what leaving it out takes off the chi-square
    std::optional<Slip> slip{};
    /// What it is, where it is a reading or a size, and where it is a gauge (index into
    /// Job::gauges).
    std::optional<job::SizeId> size{};
    std::optional<job::GaugeId> gauge{};
    /// The reading would also be explained if this part had stood off its seat by `stood_off` (>
    /// 0).
    std::string not_home;
    double stood_off = 0.0;
    /// What would have touched instead: "seated", "rotor.rim on plate.front".
    std::string lay;
};

/// One measurement that tells suspects apart: of a figure once more, or between two faces.
struct SplitBy {
    std::string what;  ///< a size's or reading's name, or empty where it is between two faces
    std::string from;
    std::string to;
    std::string gauge;  ///< the finest that reads such a distance; empty where the file has none
    /// What it would read, and which suspects (their places in the list) are then left.
    struct Outcome {
        double is = 0.0;
        std::vector<std::size_t> left;
    };
    std::vector<Outcome> outcomes;
};

/// A part found to stand off its seat at a trial fit after work was done.
struct StandsOffFound {
    std::string reading;
    std::string part;
    double by = 0.0;     ///< outboard of its seat
    double doubt = 0.0;  ///< the standard deviation of that
    /// The pair that holds it: as stated, or the tightest of the fitted ones; empty where none is.
    std::string inboard;
    std::string outboard;
    bool stated = false;
    double clears = 0.0;  ///< by how much that pair should clear with the part seated
};

/// What to measure next for the check that decides the job.
struct MeasureNext {
    std::string check;
    std::string size;
    double by_half_width = 0.0;  ///< of the gauge assumed
    std::string gauge;
    double sd_now = 0.0;
    double sd_then = 0.0;
};

struct SurveyAnswer {
    std::string file;
    std::string title;
    quantity::Unit units = quantity::Unit::mm;
    /// What changes the answer and so stands before it, see job::warnings.
    std::vector<job::Warning> warnings{};
    Judgement judgement = Judgement::nothing_to_compare;
    /// Sum of squared standardised misfits, how many were to spare, and the odds of as much or more
    /// by chance alone.
    double chi_square = 0.0;
    int freedom = 0;
    double probability = 1.0;
    double reference_variance = 0.0;  ///< chi_square / freedom, 0 where there is no freedom
    std::vector<ReadingFound> readings;
    std::vector<SizeFound> sizes;  ///< those that the adjustment moves or checks
    std::vector<UnmeasuredFound> unmeasured;
    /// All that explain the disagreement about as well as the best does (within kTold of its
    /// chi-square): these data cannot tell them apart. Those with a known slip first.
    std::vector<Suspect> suspects;
    /// Whether one of them alone would explain it; where not, at least two figures are wrong.
    bool one_explains = false;
    /// How many times likelier the one suspect is than the next explanation, where there is one.
    std::optional<double> odds_to_next;
    std::optional<SplitBy> split;
    std::vector<StandsOffFound> stands_off;
    std::vector<MeasureNext> measure_next;
    std::vector<FeelersFound> feelers;
    std::vector<Note> notes;
};

}  // namespace trialfit::survey
