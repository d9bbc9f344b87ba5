// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/survey/suspect/judging.hpp>
#include <trialfit/survey/suspect/others.hpp>
#include <trialfit/survey/trial_fit/contacts.hpp>
#include <utility>

namespace trialfit::survey {

namespace {

using stack::at;
using stack::inboard_station;
using stack::outboard_station;

using stack::Clearance;
using stack::Form;
using stack::Jam;
using stack::Model;
using stack::TrialFit;

// Sets of contacts tried for one reading, at most.
constexpr std::size_t kMostSets = 512;
// A pair known better than this, in the file's unit, is weighed as if it were not.
constexpr double kLeastSd = 1e-6;
// Parts that would enter each other by more than this many sd cannot have lain so.
constexpr double kImpossible = 4.0;
// What such an impossibility costs: more than any misfit, so that it is taken only where nothing
// else is left, and then the least of them.
constexpr double kImpossibleCost = 1e9;

bool fitted(const job::Reading& reading, job::PartId part) {
    return reading.fitted.empty() || std::ranges::binary_search(reading.fitted, part);
}

// One way in which the parts may have lain for one reading.
struct Hypothesis {
    TrialFit fit;
    Form misfit;
    double penetration = 0.0;  // sum of squares, in sd
};

class Weigher {
public:
    explicit Weigher(const Model& model)
        : model_(model), pairs_(stack::clearances(model, stack::Judge::worst, 1.0).pairs) {}

    [[nodiscard]] std::vector<TrialFit> ways(int reading) const {
        const job::Reading& asked = model_.job().readings[at(reading)];
        std::vector<TrialFit> fits{{.reading = reading, .jams = {}}};
        std::vector<job::PartId> parts = model_.way(fits[0], asked.from, asked.to).seats;
        std::ranges::sort(parts);  // what a part rests on lies before it
        for (const job::PartId part : parts) {
            const std::vector<const Clearance*> pairs = pairs_of(asked, part);
            const std::vector<bool> met = met_in(fits[0], pairs);
            const std::size_t before = fits.size();
            for (std::size_t p = 0; p < pairs.size(); ++p) {
                for (std::size_t i = 0; i < before && fits.size() < kMostSets; ++i) {
                    if (!(raised(fits[i], *pairs[p]) ? meets(fits[i], *pairs[p]) : met[p]))
                        continue;
                    TrialFit more = fits[i];
                    more.jams.push_back({.part = part,
                                         .own = outboard_station(*pairs[p]),
                                         .against = inboard_station(*pairs[p])});
                    fits.push_back(std::move(more));
                }
            }
        }
        return fits;
    }

    [[nodiscard]] std::vector<Hypothesis> hypotheses(int reading) const {
        const job::Reading& asked = model_.job().readings[at(reading)];
        return weighed(reading,
                       asked.touching ? std::vector{stated(reading, asked)} : ways(reading));
    }

    [[nodiscard]] std::vector<Hypothesis> weighed(int reading,
                                                  const std::vector<TrialFit>& fits) const {
        const std::vector<const Clearance*> charged =
            charged_for(model_.job().readings[at(reading)], fits);
        std::vector<Hypothesis> all;
        all.reserve(fits.size());
        for (const TrialFit& fit : fits)
            all.push_back({.fit = fit,
                           .misfit = model_.misfit(fit),
                           .penetration = fits.size() > 1 ? penetration(fit, charged) : 0.0});
        return all;
    }

private:
    [[nodiscard]] static TrialFit stated(int reading, const job::Reading& asked) {
        return {.reading = reading,
                .jams = {{.part = asked.touching->outboard.part,
                          .own = {.face = asked.touching->outboard},
                          .against = {.face = asked.touching->inboard}}}};
    }

    // What may hold the part off.
    [[nodiscard]] std::vector<const Clearance*> pairs_of(const job::Reading& reading,
                                                         job::PartId part) const {
        std::vector<const Clearance*> pairs;
        for (const Clearance& pair : pairs_) {
            if (pair.outboard_of.part != part || !fitted(reading, pair.inboard_of.part)) continue;
            // What sits on the part comes along with it and cannot hold it off.
            if (!model_.carries(part, pair.inboard_of.part)) pairs.push_back(&pair);
        }
        return pairs;
    }

    // Whether the parts may meet there, floating ones pushed as they were for the reading: a part
    // that clears for certain reaches its seat first.
    [[nodiscard]] bool meets(const TrialFit& fit, const Clearance& pair) const {
        const Form gap = model_.gap(fit, inboard_station(pair), outboard_station(pair));
        if (model_.unmeasured().open(gap)) return true;
        const double sd = gap.sensitivities.cwiseProduct(model_.columns().sd).norm();
        return stack::value(gap, model_.columns().middle) <= kImpossible * std::max(sd, kLeastSd);
    }

    [[nodiscard]] std::vector<bool> met_in(const TrialFit& fit,
                                           const std::vector<const Clearance*>& pairs) const {
        std::vector<bool> met(pairs.size());
        std::transform(pairs.begin(), pairs.end(), met.begin(),
                       [&](const Clearance* pair) { return meets(fit, *pair); });
        return met;
    }

    // Whether a part that stands off in this set brings the pair's inner face along.
    [[nodiscard]] bool raised(const TrialFit& fit, const Clearance& pair) const {
        return std::ranges::any_of(fit.jams, [&](const Jam& jam) {
            return model_.carries(jam.part, pair.inboard_of.part);
        });
    }

    // The fitted pairs with a part that one of the sets moves, on its own or with what it carries.
    [[nodiscard]] std::vector<const Clearance*> charged_for(
        const job::Reading& reading, const std::vector<TrialFit>& fits) const {
        std::vector<bool> moves(model_.job().parts.size(), false);
        for (const TrialFit& fit : fits) {
            for (const Jam& jam : fit.jams)
                moves[at(jam.part)] = true;
        }
        const std::vector<bool> lifted = moves;
        for (int each = 0; each < static_cast<int>(moves.size()); ++each) {
            for (int under = 0; under < static_cast<int>(moves.size()); ++under)
                if (lifted[at(under)] && model_.carries(under, each)) moves[at(each)] = true;
        }
        std::vector<const Clearance*> charged;
        for (const Clearance& pair : pairs_) {
            const bool there =
                fitted(reading, pair.inboard_of.part) && fitted(reading, pair.outboard_of.part);
            if (there && (moves[at(pair.inboard_of.part)] || moves[at(pair.outboard_of.part)]))
                charged.push_back(&pair);
        }
        return charged;
    }

    // How far parts would enter each other if they lay so, summed as squares of sd.
    [[nodiscard]] double penetration(const TrialFit& fit,
                                     const std::vector<const Clearance*>& charged) const {
        double sum = 0.0;
        for (const Clearance* pair : charged)
            if (!pair->may_miss)
                sum += entering(model_.gap(fit, inboard_station(*pair), outboard_station(*pair)));
        for (std::size_t i = 0; i < fit.jams.size(); ++i) {
            const Jam& jam = fit.jams[i];
            TrialFit home = fit;  // this part on its seat, the others as they are
            home.jams.erase(home.jams.begin() + static_cast<std::ptrdiff_t>(i));
            sum += entering(
                stack::difference(model_.gap(fit, jam.against, {.face = own_zero(jam.part)}),
                                  model_.gap(home, jam.against, {.face = own_zero(jam.part)})));
        }
        return sum;
    }

    [[nodiscard]] job::FaceRef own_zero(job::PartId part) const {
        const auto& faces = model_.job().parts[at(part)].faces;
        const auto zero = std::ranges::find_if(faces, &job::Face::zero);
        return {.part = part, .face = static_cast<int>(zero - faces.begin())};
    }

    // Nobody knows of an open gap that they would.
    [[nodiscard]] double entering(const Form& gap) const {
        if (model_.unmeasured().open(gap)) return 0.0;
        const double by = -stack::value(gap, model_.columns().middle);
        if (by <= 0.0) return 0.0;
        const double sd = gap.sensitivities.cwiseProduct(model_.columns().sd).norm();
        const double in_sd = by / std::max(sd, kLeastSd);
        return in_sd * in_sd + (in_sd > kImpossible ? kImpossibleCost : 0.0);
    }

    const Model& model_;
    std::vector<Clearance> pairs_;
};

// Readings are listed in the order of the states in which they were taken.
int first_own(const job::Job& job) {
    const auto own = std::ranges::find(job.readings, job.in_force, &job::Reading::entries);
    return static_cast<int>(own - job.readings.begin());
}

job::Complaints absent(const Model& model) {
    job::Complaints complaints;
    const job::Job& job = model.job();
    for (int r = first_own(job); r < static_cast<int>(job.readings.size()); ++r) {
        const job::Reading& reading = job.readings[at(r)];
        if (reading.touching) continue;
        for (const job::PartId part :
             model.way({.reading = r, .jams = {}}, reading.from, reading.to).parts) {
            if (fitted(reading, part)) continue;
            complaints.push_back(
                {.at = reading.at,
                 .fault =
                     fmt::format("reading '{}' leads from {} to {} over '{}', which was not fitted",
                                 reading.name, job::name(job, reading.from),
                                 job::name(job, reading.to), job.parts[at(part)].name),
                 .mend = "add it to 'fitted', or correct the faces"});
        }
    }
    return complaints;
}

Contacts::Found settled(const Model& model, const std::vector<Hypothesis>& all,
                        const std::vector<double>& costs, bool stated) {
    const auto best = static_cast<std::size_t>(std::ranges::min_element(costs) - costs.begin());
    Contacts::Found found{.fit = all[best].fit, .stated = stated};
    double next = std::numeric_limits<double>::infinity();
    const Form* other = nullptr;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (i == best || costs[i] >= next) continue;
        next = costs[i];
        found.next = all[i].fit;
        other = &all[i].misfit;
    }
    if (other == nullptr) return found;
    found.odds_to_next = std::exp(std::min(700.0, (next - costs[best]) / 2.0));
    const auto open = [&](const Form& misfit) { return model.unmeasured().open(misfit); };
    found.undecided = next - costs[best] < kTold && (open(all[best].misfit) || open(*other));
    return found;
}

}  // namespace

std::variant<Contacts, job::Complaints> contacts(const Model& model) {
    if (job::Complaints complaints = absent(model); !complaints.empty()) return complaints;
    const std::vector<job::Reading>& readings = model.job().readings;
    if (readings.size() > kMostReadings) {
        return job::Complaints{
            {.at = readings[kMostReadings].at,
             .fault = fmt::format("there are {} readings, more than the {} that can be weighed "
                                  "against each other",
                                  readings.size(), kMostReadings),
             .mend = "keep those that matter; write what was read again and again as one list"}};
    }
    const Weigher weigher(model);
    const int first = first_own(model.job());
    std::vector<std::vector<Hypothesis>> all;
    for (int r = first; r < static_cast<int>(readings.size()); ++r)
        all.push_back(weigher.hypotheses(r));
    // What a reading says can be held against another only once it is known how its parts lay.
    std::vector<bool> decided(all.size(), false);
    const auto costs_of = [&](std::size_t r, const std::vector<std::size_t>* chosen) {
        std::vector<double> costs(all[r].size(), 0.0);
        if (costs.size() < 2) return costs;
        std::vector<const Form*> forms;
        for (const Form& closure : model.closures())
            forms.push_back(&closure);
        for (std::size_t other = 0; chosen != nullptr && other < all.size(); ++other)
            if (other != r && decided[other]) forms.push_back(&all[other][(*chosen)[other]].misfit);
        const Others others(model, forms);
        for (std::size_t h = 0; h < costs.size(); ++h)
            costs[h] = all[r][h].penetration + others.cost(all[r][h].misfit);
        return costs;
    };
    const auto least = [](const std::vector<double>& costs) {
        return static_cast<std::size_t>(std::ranges::min_element(costs) - costs.begin());
    };
    // Each reading by itself first; readings share sizes, so each is then weighed again with the
    // best of all others in force, until nothing changes.
    std::vector<std::size_t> chosen;
    for (std::size_t r = 0; r < all.size(); ++r) {
        const std::vector<double> costs = costs_of(r, nullptr);
        chosen.push_back(least(costs));
        decided[r] = !settled(model, all[r], costs, false).undecided;
    }
    Contacts answer;
    constexpr int kRounds = 5;
    for (int round = 0; round < kRounds; ++round) {
        bool changed = false;
        answer.readings.clear();
        for (std::size_t r = 0; r < all.size(); ++r) {
            const std::vector<double> costs = costs_of(r, &chosen);
            answer.readings.push_back(
                settled(model, all[r], costs, readings[at(first) + r].touching.has_value()));
            const bool now = !answer.readings.back().undecided;
            changed = changed || least(costs) != chosen[r] || decided[r] != now;
            chosen[r] = least(costs);
            decided[r] = now;
        }
        if (!changed) break;
    }
    return answer;
}

std::string station_name(const job::Job& job, const stack::Station& station) {
    return job::name(job, station.face.part,
                     job::RingEnd{.face = station.face.face, .beyond = station.beyond});
}

std::string lying(const job::Job& job, const TrialFit& fit) {
    if (fit.jams.empty()) return "seated";
    std::string words;
    for (const Jam& jam : fit.jams) {
        words += fmt::format("{}{} on {}", words.empty() ? "" : ", ", station_name(job, jam.own),
                             station_name(job, jam.against));
    }
    return words;
}

std::vector<TrialFit> ways_to_lie(const Model& model, int reading) {
    const Weigher weigher(model);
    std::vector<TrialFit> ways;
    for (Hypothesis& each : weigher.weighed(reading, weigher.ways(reading)))
        if (each.penetration < kImpossibleCost) ways.push_back(std::move(each.fit));
    return ways;
}

}  // namespace trialfit::survey
