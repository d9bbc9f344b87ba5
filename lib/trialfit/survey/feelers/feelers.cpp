// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/numerics/distribution/chi_square.hpp>
#include <trialfit/quantity/characters.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <trialfit/survey/answers.hpp>
#include <trialfit/survey/feelers/feelers.hpp>
#include <trialfit/survey/feelers/fit.hpp>
#include <trialfit/survey/suspect/judging.hpp>
#include <utility>

namespace trialfit::survey {

namespace {

using stack::at;

bool still_is_outer(const job::Job& job, const job::Feelers& set) {
    return job::at(job, set.still).lies_round(job::at(job, set.turning));
}

std::string height_name(const job::Job& job, const job::FeelerRound& round) {
    if (!round.height) return {};
    std::string name = job::name(job, *round.height);
    if (round.below > 0.0) name += " -" + quantity::six_digits(round.below);
    return name;
}

// The readings, heights counted from the face of the first round.
std::vector<FeelerObservation> observations(const stack::Model& model, const job::Feelers& set) {
    const double gauge = model.job().gauges.at(at(set.gauge)).half_width;
    std::vector<FeelerObservation> all;
    for (const job::FeelerRound& round : set.rounds) {
        double height = 0.0;
        if (round.height)
            height = value(model.gap({.face = set.rounds.front().height.value()},
                                     {.face = *round.height}),
                           model.columns().nominal) -
                     round.below;
        for (const job::FeelerGap& gap : round.gaps) {
            const double open = gap.most - gap.least;
            all.push_back({.clock_deg = gap.clock_deg,
                           .rotor_deg = round.rotor_deg,
                           .height = height,
                           .gap = gap.least + open / 2.0,
                           .sd = std::sqrt(gauge * gauge / 3.0 + open * open / 12.0)});
        }
    }
    return all;
}

// Each reading against the rest by `fit`, which was made of those that `used` names.
void hold_against(FeelersFound& found, const FeelerFit& fit, const std::vector<std::size_t>& used) {
    for (std::size_t i = 0; i < used.size(); ++i) {
        FeelerReadingFound& each = found.readings[used[i]];
        const auto row = static_cast<Eigen::Index>(i);
        each.redundancy = fit.redundancy[row] > kChecked ? fit.redundancy[row] : 0.0;
        if (each.redundancy == 0.0) continue;
        each.off_by = fit.residual[row] / each.redundancy;
        each.should_be = each.is - each.off_by;
        each.standardised = fit.residual[row] / (each.sd * std::sqrt(each.redundancy));
    }
}

// Names what alone, or like others, explains a disagreement; leaving it out takes the square of its
// standardised residual off the chi-square. The one to leave out, where there is just one.
std::optional<std::size_t> judge_feelers(FeelersFound& found) {
    if (found.freedom == 0) return std::nullopt;
    found.judgement = Judgement::agree;
    if (found.probability >= kByChance) return std::nullopt;
    found.judgement = Judgement::cannot_tell;
    const auto drop = [](const FeelerReadingFound& each) {
        return each.standardised * each.standardised;
    };
    const auto first = std::ranges::max_element(
        found.readings, [&](const FeelerReadingFound& a, const FeelerReadingFound& b) {
            return drop(a) < drop(b);
        });
    const double most = drop(*first);
    const double left = std::max(0.0, found.chi_square - most);
    // With nothing left to spare, the rest agrees whichever is left out.
    const bool explains =
        found.freedom == 1 || numerics::chi_square_survival(left, found.freedom - 1) >= kByChance;
    int like_it = 0;
    for (FeelerReadingFound& each : found.readings) {
        each.suspect = most - drop(each) < kTold && each.redundancy > 0.0;
        if (each.suspect) ++like_it;
    }
    if (!explains) {
        for (FeelerReadingFound& each : found.readings)
            each.suspect = false;
        found.judgement = Judgement::contradict;
        return std::nullopt;
    }
    if (like_it > 1) return std::nullopt;
    found.judgement = Judgement::suspect;
    return static_cast<std::size_t>(first - found.readings.begin());
}

std::vector<FeelerReadingFound> readings_of(const job::Job& job, const job::Feelers& set,
                                            const std::vector<FeelerObservation>& all) {
    std::vector<FeelerReadingFound> list;
    list.reserve(all.size());
    for (const job::FeelerRound& round : set.rounds) {
        for (const job::FeelerGap& gap : round.gaps) {
            const FeelerObservation& each = all[list.size()];
            list.push_back({.at = gap.at,
                            .clock_deg = each.clock_deg,
                            .rotor_deg = each.rotor_deg,
                            .height = height_name(job, round),
                            .is = each.gap,
                            .sd = each.sd});
        }
    }
    return list;
}

// The part on the still ring's way to what it is centred on that bolts hold and so can be moved;
// failing that the first with some clearance, failing that the ring's own.
job::PartId part_to_move(const job::Job& job, job::PartId own) {
    std::optional<job::PartId> with_clearance;
    job::PartId part = own;
    for (std::size_t steps = 0; part >= 0 && steps < job.parts.size(); ++steps) {
        const auto& centred = job.parts.at(at(part)).centred;
        if (!centred) break;
        if (centred->by == job::CentredBy::bolts) return part;
        if (!with_clearance && centred->clearance.size.upper > 0.0) with_clearance = part;
        part = centred->on;
    }
    return with_clearance.value_or(own);
}

EvenUp even_up(const job::Job& job, const job::Feelers& set, const FeelerFit& fit,
               const FeelerVector& offset) {
    constexpr double kOpposite_deg = 180.0;
    constexpr double kTurn = 360.0;
    const job::PartId part = part_to_move(job, set.still.part);
    const GapReach leaves = evened_up(fit.unknowns);
    EvenUp move{.part = job.parts.at(at(part)).name,
                .by = offset.amount,
                .towards_deg = std::fmod(offset.towards_deg + kOpposite_deg, kTurn),
                .least = leaves.least,
                .most = leaves.most};
    if (const auto& centred = job.parts.at(at(part)).centred)
        move.room = centred->clearance.size.upper;
    return move;
}

// Two sd either way: wrong once in some forty times on the side that matters.
SettingReach judged_setting(double margin, double sd) {
    constexpr double kSure = 2.0;
    if (margin < -kSure * sd) return SettingReach::cannot;
    return margin > kSure * sd ? SettingReach::can : SettingReach::cannot_tell;
}

std::vector<FeelerLimit> limits_of(const job::Job& job, const job::Feelers& set,
                                   const GapReach& best) {
    std::vector<FeelerLimit> limits;
    for (const job::AirGap& gap : job.air_gaps) {
        const bool these = (gap.one == set.still && gap.other == set.turning) ||
                           (gap.one == set.turning && gap.other == set.still);
        if (!these) continue;
        FeelerLimit limit{.check = gap.name};
        if (gap.at_least) {
            limit.at_least = gap.at_least->value;
            limit.at_least_written = gap.at_least->written;
            limit.can_reach = judged_setting(best.least.is - *limit.at_least, best.least.sd);
        }
        if (gap.at_most) {
            limit.at_most = gap.at_most->value;
            limit.at_most_written = gap.at_most->written;
            limit.can_keep = judged_setting(*limit.at_most - best.most.is, best.most.sd);
        }
        limits.push_back(std::move(limit));
    }
    return limits;
}

std::optional<FeelerFigure> by_diameters(const job::Job& job, const job::Feelers& set) {
    const bool still_outside = still_is_outer(job, set);
    const job::Ring& outer = job::at(job, still_outside ? set.still : set.turning);
    const job::Ring& inner = job::at(job, still_outside ? set.turning : set.still);
    if (outer.bore_bare || inner.outside_bare || !outer.measured() || !inner.measured())
        return std::nullopt;
    return FeelerFigure{.is = (outer.bore.size.middle() - inner.outside.size.middle()) / 2.0,
                        .sd = std::hypot(outer.bore.size.sd(), inner.outside.size.sd()) / 2.0};
}

// Whether a part's clearance on what centres it goes round with the turning parts.
bool goes_round(const job::Job& job, std::size_t index) {
    const job::Part& part = job.parts[index];
    return part.turns && part.centred && job.parts.at(at(part.centred->on)).turns;
}

// What the limits of the file let the two axes lie apart by, and the turning ring run out by.
void as_stated(const stack::Model& model, const job::Feelers& set, FeelersFound& found) {
    if (!stack::asks_radial(model.job())) return;
    const stack::RadialQuestion asked = radial_question(model, set.still, set.turning);
    double offset = 0.0;
    double runout = 0.0;
    for (const stack::Form& form : asked.least) {
        const auto most = [&](int size) {
            return size < 0
                       ? 0.0
                       : std::abs(form.sensitivities.coeff(size)) * model.columns().upper[size];
        };
        double offset_here = 0.0;
        double runout_here = 0.0;
        for (std::size_t part = 0; part < model.job().parts.size(); ++part) {
            const double loose = most(model.radial().centring[part]);
            (goes_round(model.job(), part) ? runout_here : offset_here) += loose;
            for (const int size : model.radial().runout[part])
                runout_here += most(size);
        }
        offset = std::max(offset, offset_here);
        runout = std::max(runout, runout_here);
    }
    using What = stack::NotGiven::What;
    const auto lacks = [&](What what) {
        return std::ranges::any_of(asked.not_given,
                                   [&](const stack::NotGiven& each) { return each.what == what; });
    };
    if (!lacks(What::centring)) found.offset_stated = offset;
    if (!lacks(What::runout)) found.runout_stated = runout;
}

// Feelers that went in at one place say nothing of the best setting, but by how much the gap varies
// there as the rotor turns, twice the eccentricity, no setting changes.
std::vector<FeelerLimit> limits_by_turning(const job::Job& job, const job::Feelers& set,
                                           const FeelersFound& found) {
    if (!found.runout || !found.runout->seen) return {};
    const FeelerFigure varies{.is = 2.0 * found.runout->amount.is,
                              .sd = 2.0 * found.runout->amount.sd};
    std::vector<FeelerLimit> limits;
    for (FeelerLimit& limit : limits_of(job, set, {})) {
        if (!limit.at_least || !limit.at_most) continue;
        limit.can_reach = limit.can_keep = SettingReach::cannot_tell;
        limit.varies_by = varies;
        limit.can_stay = judged_setting(*limit.at_most - *limit.at_least - varies.is, varies.sd);
        if (limit.can_stay == SettingReach::can) limit.can_stay = SettingReach::cannot_tell;
        limits.push_back(std::move(limit));
    }
    return limits;
}

// Whether what the feelers read can be had between those diameters at all.
std::optional<AgainstDiameters> against_diameters(const FeelersFound& found) {
    if (!found.by_diameters) return std::nullopt;
    const FeelerFigure& bare = *found.by_diameters;
    AgainstDiameters off{
        .by = {.is = found.mean.is - bare.is, .sd = std::hypot(found.mean.sd, bare.sd)},
        .widest = found.mean_mixed};
    if (found.mean_mixed) {
        const auto most = std::ranges::max_element(found.readings, {}, &FeelerReadingFound::is);
        off.by = {.is = most->is - 2.0 * bare.is, .sd = std::hypot(most->sd, 2.0 * bare.sd)};
    }
    // As the survey of readings: by chance in fewer than 1 of 1,000.
    constexpr double kBeyondChance = 3.29;
    const double by = found.mean_mixed ? off.by.is : std::abs(off.by.is);
    if (by <= kBeyondChance * off.by.sd) return std::nullopt;
    return off;
}

void tell(FeelersFound& found, const stack::Model& model, const job::Feelers& set,
          const FeelerFit& fit) {
    const auto vector = [&](FeelerTerm term, double times) -> std::optional<FeelerVector> {
        if (!fit.told(term)) return std::nullopt;
        return vector_of(fit, term, times);
    };
    // Terms of height are told at its ends, and so are half of what they are from end to end.
    constexpr double kEndToEnd = 2.0;
    found.mean = figure_of(fit, FeelerTerm::mean, 1.0);
    found.mean_mixed = fit.mixed(FeelerTerm::mean);
    found.offset = vector(FeelerTerm::offset, 1.0);
    found.offset_mixed = fit.mixed(FeelerTerm::offset);
    found.runout = vector(FeelerTerm::runout, 1.0);
    if (fit.told(FeelerTerm::taper)) found.taper = figure_of(fit, FeelerTerm::taper, kEndToEnd);
    found.still_leans = vector(FeelerTerm::still_leans, kEndToEnd);
    found.turning_cocked = vector(FeelerTerm::turning_cocked, kEndToEnd);
    found.not_told = fit.not_told;
    if (found.mean_mixed || !found.offset) {
        if (figures_stand(found)) found.limits = limits_by_turning(model.job(), set, found);
        return;
    }
    const GapReach now = as_it_lies(fit.unknowns);
    const GapReach best = best_setting(fit.unknowns);
    found.least_now = now.least;
    found.most_now = now.most;
    found.best_least = best.least;
    found.best_most = best.most;
    found.eccentricity = eccentricity(fit.unknowns);
    if (!figures_stand(found)) return;
    found.limits = limits_of(model.job(), set, best);
    // What the turning part takes off the best setting is not known then.
    for (FeelerLimit& limit : found.limits) {
        if (!found.offset_mixed) break;
        limit.can_reach =
            limit.can_reach == SettingReach::can ? SettingReach::cannot_tell : limit.can_reach;
        limit.can_keep =
            limit.can_keep == SettingReach::can ? SettingReach::cannot_tell : limit.can_keep;
    }
    // What all else stands on is not moved.
    const bool moves = !model.job().parts.at(at(set.still.part)).seats.empty();
    if (found.offset->seen && moves) found.even_up = even_up(model.job(), set, fit, *found.offset);
}

FeelersFound found_by(const stack::Model& model, const job::Feelers& set) {
    const job::Job& job = model.job();
    const std::vector<FeelerObservation> all = observations(model, set);
    const bool still_outside = still_is_outer(job, set);
    FeelersFound found{.name = set.name,
                       .at = set.at,
                       .still = job::ring_name(job, set.still),
                       .turning = job::ring_name(job, set.turning),
                       .still_part = job.parts.at(at(set.still.part)).name,
                       .turning_part = job.parts.at(at(set.turning.part)).name,
                       .gauge = job.gauges.at(at(set.gauge)).name,
                       .half_width = job.gauges.at(at(set.gauge)).half_width};
    found.readings = readings_of(job, set, all);
    const auto [low, high] = std::ranges::minmax_element(all, {}, &FeelerObservation::height);
    found.span = high->height - low->height;
    FeelerFit fit = fit_feelers(all, still_outside);
    found.chi_square = fit.chi_square;
    found.freedom = fit.freedom;
    found.probability = numerics::chi_square_survival(fit.chi_square, fit.freedom);
    std::vector<std::size_t> used(all.size());
    for (std::size_t i = 0; i < used.size(); ++i)
        used[i] = i;
    hold_against(found, fit, used);
    if (const auto suspect = judge_feelers(found)) {
        std::vector<FeelerObservation> rest = all;
        rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(*suspect));
        FeelerFit without = fit_feelers(rest, still_outside);
        if (without.not_told.size() == fit.not_told.size()) {
            used.erase(used.begin() + static_cast<std::ptrdiff_t>(*suspect));
            hold_against(found, without, used);
            found.readings[*suspect].left_out = true;
            fit = std::move(without);
        }
    }
    tell(found, model, set, fit);
    found.by_diameters = by_diameters(job, set);
    found.against_diameters = against_diameters(found);
    as_stated(model, set, found);
    return found;
}

}  // namespace

std::vector<FeelersFound> feelers_found(const stack::Model& model) {
    std::vector<FeelersFound> all;
    all.reserve(model.job().feelers.size());
    for (const job::Feelers& set : model.job().feelers)
        all.push_back(found_by(model, set));
    return all;
}

}  // namespace trialfit::survey
