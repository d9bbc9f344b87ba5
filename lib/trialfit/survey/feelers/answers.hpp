// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/complaint.hpp>
#include <vector>

// What readings by feeler tell: plain data. Lengths in the file's unit, angles in degrees on the
// clock seen from outboard, clockwise from 12. The survey's Judgement is in answers.hpp.
namespace trialfit::survey {

enum class Judgement;

/// A figure and its standard uncertainty (JCGM 100:2008, 2.3.1).
struct FeelerFigure {
    double is = 0.0;
    double sd = 0.0;
};

/// What a radial gap may hold: `still_leans` is the still part's axis out of parallel with that of
/// turning, `turning_cocked` the turning part's.
enum class FeelerTerm { mean, offset, runout, taper, still_leans, turning_cocked };

/// Why a term cannot be told.
enum class NotTold {
    one_height,
    not_turned,          ///< the turning part always stood alike
    one_place,           ///< the feeler always went in at one place
    turned_with_feeler,  ///< the turning part always stood alike to the feeler
    too_few,             ///< fewer readings than unknowns, or all on one side
};
struct FeelerNotTold {
    FeelerTerm term = FeelerTerm::mean;
    NotTold why = NotTold::too_few;
    /// The terms that hold what there is of it.
    std::vector<FeelerTerm> shows_in;
};

struct FeelerVector {
    FeelerFigure amount;
    double towards_deg = 0.0;
    double towards_sd_deg = 0.0;
    /// Told along this line through the axis only (0 to 180); nothing is known across it.
    std::optional<double> along_deg;
    /// Chance alone would show as much in fewer than 1 of 20 such surveys.
    bool seen = false;
};

/// One gap read, against all the others.
struct FeelerReadingFound {
    job::Place at;
    double clock_deg = 0.0;
    double rotor_deg = 0.0;
    std::string height;  ///< "stator.out -5"; empty where the file does not say
    double is = 0.0;
    double sd = 0.0;
    double should_be = 0.0;
    double off_by = 0.0;
    double standardised = 0.0;
    double redundancy = 0.0;  ///< 0 where nothing checks it; the four figures above are then 0
    bool suspect = false;
    bool left_out = false;  ///< the figures are from the other readings
};

/// How to even the gap up.
struct EvenUp {
    std::string part;
    FeelerFigure by;
    double towards_deg = 0.0;
    /// All the room there is to move it in, on diameter, where the file says.
    std::optional<double> room;
    FeelerFigure least;  ///< the gap that this leaves
    FeelerFigure most;
};

/// An air gap's limits against what moving the still part can give.
enum class SettingReach { can, cannot, cannot_tell };
struct FeelerLimit {
    std::string check;
    std::optional<double> at_least;
    std::string at_least_written;
    SettingReach can_reach = SettingReach::can;  ///< that the gap is nowhere under at_least
    std::optional<double> at_most;
    std::string at_most_written;
    SettingReach can_keep = SettingReach::can;  ///< that it is nowhere over at_most
    /// Where both are asked and the offset is not told: by how much the gap varies at one place as
    /// the rotor turns, and whether that leaves room between the two.
    std::optional<FeelerFigure> varies_by;
    SettingReach can_stay = SettingReach::can;
};

/// Feelers and diameters that contradict each other: the leaves, or a bore or outside diameter, are
/// off.
struct AgainstDiameters {
    /// The mean gap less half the difference of the diameters; or, where the mean is not told, the
    /// widest gap read less the most that the diameters leave at one place (all of their
    /// difference).
    FeelerFigure by;
    bool widest = false;
};

struct FeelersFound {
    std::string name;
    job::Place at;
    std::string still;  ///< the rings: "stator.poles"
    std::string turning;
    std::string still_part;
    std::string turning_part;
    std::string gauge;
    double half_width = 0.0;
    Judgement judgement{};
    double chi_square = 0.0;
    int freedom = 0;
    double probability = 1.0;
    std::vector<FeelerReadingFound> readings;
    /// Between the lowest and the highest place read.
    double span = 0.0;
    FeelerFigure mean;
    bool mean_mixed = false;  ///< holds some of what could not be told
    /// Half the difference of the diameters, where both are known.
    std::optional<FeelerFigure> by_diameters;
    std::optional<AgainstDiameters> against_diameters;
    /// Of the still part's middle from the axis of turning.
    std::optional<FeelerVector> offset;
    bool offset_mixed = false;
    /// Of the turning part's middle from its axis, the mark being at 12; half an indicator reading.
    std::optional<FeelerVector> runout;
    /// Gap at the outboard end of the heights less that at the inboard end.
    std::optional<FeelerFigure> taper;
    /// How far the outboard end lies from where it would, straight over the inboard one.
    std::optional<FeelerVector> still_leans;
    std::optional<FeelerVector> turning_cocked;
    std::vector<FeelerNotTold> not_told;
    /// What the gap is now, and the best that moving the still part could give; where the offset
    /// and the mean are told.
    std::optional<FeelerFigure> least_now;
    std::optional<FeelerFigure> most_now;
    std::optional<FeelerFigure> best_least;
    std::optional<FeelerFigure> best_most;
    std::optional<FeelerFigure> eccentricity;
    /// Neither where the readings do not agree and none could be left out.
    std::optional<EvenUp> even_up;
    std::vector<FeelerLimit> limits;
    /// What the file's own limits on centring, and on runout, allow at most; where it gives them.
    std::optional<double> offset_stated;
    std::optional<double> runout_stated;
};

}  // namespace trialfit::survey
