// SPDX-License-Identifier: MIT
#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <trialfit/sheet/live/choices.hpp>
#include <trialfit/sheet/live/live.hpp>
#include <trialfit/sheet/live/moved.hpp>
#include <trialfit/sheet/live/place.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/model/model.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>

namespace trialfit::sheet {

namespace {

using stack::Model;

// Sets of several fields at which sums are held to the answer, beside those of all and of all but
// one.
constexpr LiveMask kSpotChecks[] = {0x555U, 0xAAAU, 0x333U, 0xC71U};

std::size_t rings_of(const job::Job& job) {
    std::size_t count = 0;
    for (const job::Part& part : job.parts)
        count += part.rings.size();
    return count;
}

LiveReading told(const job::Job& job, const job::Reading& reading) {
    LiveReading out{.name = reading.name,
                    .from = job::name(job, reading.from),
                    .to = job::name(job, reading.to),
                    .read_by = {},
                    .half_width = reading.is.size.half_width()};
    if (!reading.is.gauge) return out;
    const job::Gauge& gauge = job.gauges[reading.is.gauge->at()];
    out.read_by = gauge.name;
    out.half_width = gauge.half_width;
    return out;
}

// The fields that stand for themselves: the size that each makes is tied to none, and its work
// leaves the same findings to be judged.
LiveMask sound_fields(LiveChoices& choices) {
    LiveMask sound = 0;
    const LiveFound* const blank = choices.at(0);
    for (std::size_t f = 0; f < choices.fields(); ++f) {
        const LiveFound* const found = choices.at(only(f));
        if (found == nullptr || !same_findings(*blank, *found)) continue;
        const auto whole = choices.at(only(f), LiveDepth::whole);
        if (whole && same_findings(*blank, *whole)) sound |= only(f);
    }
    return sound;
}

// Fields that hang together in a figure.
class Together {
public:
    explicit Together(std::size_t fields) : of_(fields), moves_(fields) {
        std::iota(of_.begin(), of_.end(), std::size_t{0});
    }

    void moves(std::size_t field) { moves_[field] = true; }
    void unite(std::size_t one, std::size_t other) {
        moves(one);
        moves(other);
        const std::size_t from = of_[one];
        const std::size_t to = of_[other];
        std::ranges::replace(of_, from, to);
    }
    void unite_all() { std::ranges::fill(of_, std::size_t{0}); }

    [[nodiscard]] std::vector<LiveGroup> groups() const {
        std::map<std::size_t, LiveGroup> all;
        for (std::size_t f = 0; f < of_.size(); ++f)
            if (moves_[f]) all[of_[f]].fields.push_back(f);
        std::vector<LiveGroup> out;
        out.reserve(all.size());
        for (auto& [id, group] : all)
            out.push_back(std::move(group));
        return out;
    }

private:
    std::vector<std::size_t> of_;
    std::vector<bool> moves_;
};

// The choice of a group's fields as one of all fields.
LiveMask mask_of(const std::vector<std::size_t>& fields, std::size_t choice) {
    LiveMask mask = 0;
    for (std::size_t g = 0; g < fields.size(); ++g)
        if (((choice >> g) & 1U) != 0) mask |= only(fields[g]);
    return mask;
}

// Makes the findings of an answer. What does not come out as sums of groups, or does not move
// evenly with what is typed, is left out by name.
class Maker {
public:
    Maker(LiveChoices& choices, LiveAnswer& into, bool rss)
        : choices_(choices), into_(into), rss_(rss) {}

    // False where the choices differ in more than figures.
    [[nodiscard]] bool make() {
        if (!all_alike() || !make_apart()) return false;
        made_ = choices_.at(0)->findings;
        sound_.assign(made_.size(), true);
        for (std::size_t x = 0; x < made_.size(); ++x)
            group(x, joined(x));
        for (const LiveMask mask : spot_checks())
            hold(mask);
        for (const LiveMask mask : looked_at()) {
            hold(mask, LiveDepth::whole);
            if ((mask & (mask - 1)) == 0) hold(mask, LiveDepth::half);
        }
        return hand_over();
    }

private:
    [[nodiscard]] LiveMask every() const { return only(choices_.fields()) - 1; }

    // Each field alone, and every two.
    [[nodiscard]] std::vector<LiveMask> small_sets() const {
        std::set<LiveMask> all;
        for (std::size_t f = 0; f < choices_.fields(); ++f)
            for (std::size_t g = 0; g <= f; ++g)
                all.insert(only(f) | only(g));
        return {all.begin(), all.end()};
    }

    // Sets at which figures are held to what is found with more done: each field alone, those of
    // each group, and all but a few.
    [[nodiscard]] std::vector<LiveMask> looked_at() const {
        const std::vector<LiveMask> large = spot_checks();
        std::set<LiveMask> all(large.begin(), large.end());
        for (std::size_t f = 0; f < choices_.fields(); ++f)
            all.insert(only(f));
        for (std::size_t x = 0; x < made_.size(); ++x)
            if (sound_[x])
                for (const LiveGroup& group : made_[x].groups)
                    all.insert(mask_of(group.fields, (std::size_t{1} << group.fields.size()) - 1));
        return {all.begin(), all.end()};
    }

    [[nodiscard]] std::vector<LiveMask> spot_checks() const {
        std::set<LiveMask> all{every()};
        for (std::size_t f = 0; f < choices_.fields(); ++f)
            all.insert(every() & ~only(f));
        for (const LiveMask mask : kSpotChecks)
            all.insert(every() & mask);
        return {all.begin(), all.end()};
    }

    [[nodiscard]] bool all_alike() {
        const LiveFound* const blank = choices_.at(0);
        std::vector<LiveMask> all = spot_checks();
        const std::vector<LiveMask> pairs = small_sets();
        all.insert(all.end(), pairs.begin(), pairs.end());
        return std::ranges::all_of(all, [&](LiveMask mask) {
            const LiveFound* const found = choices_.at(mask);
            return found != nullptr && same_findings(*blank, *found);
        });
    }

    [[nodiscard]] const LiveFigures& figures(LiveMask mask, std::size_t x) {
        return choices_.at(mask)->findings[x].blank;
    }

    // Which fields move the finding, and which of them hang together.
    [[nodiscard]] Together joined(std::size_t x) {
        Together together(choices_.fields());
        const LiveFigures blank = figures(0, x);
        for (std::size_t f = 0; f < choices_.fields(); ++f)
            if (!stand_alike(blank, figures(only(f), x), rss_)) together.moves(f);
        for (std::size_t f = 0; f < choices_.fields(); ++f)
            for (std::size_t g = 0; g < f; ++g) {
                LiveFinding sum;
                sum.blank = blank;
                sum.groups = {{.fields = {g}, .of = {blank, figures(only(g), x)}},
                              {.fields = {f}, .of = {blank, figures(only(f), x)}}};
                const LiveMask both = only(f) | only(g);
                const LiveSizes typed = choices_.typed(both, LiveDepth::reference);
                if (!stand_alike(at_typed(sum, into_.fields, typed, into_.inflate),
                                 figures(both, x), rss_))
                    together.unite(f, g);
            }
        return together;
    }

    // Gives the finding its groups; it is left out where one is too large.
    void group(std::size_t x, const Together& together) {
        made_[x].groups = together.groups();
        for (LiveGroup& group : made_[x].groups) {
            if (group.fields.size() > kMostLiveTogether) {
                sound_[x] = false;
                return;
            }
            const std::size_t choices = std::size_t{1} << group.fields.size();
            for (std::size_t choice = 0; choice < choices; ++choice) {
                const LiveFound* const found = choices_.at(mask_of(group.fields, choice));
                if (found == nullptr || !same_findings(*found, *choices_.at(0))) {
                    sound_[x] = false;
                    return;
                }
                group.of.push_back(found->findings[x].blank);
            }
        }
    }

    [[nodiscard]] bool holds(std::size_t x, const LiveFigures& found, LiveMask mask,
                             LiveDepth depth) const {
        const LiveSizes typed = choices_.typed(mask, depth);
        return alike(at_typed(made_[x], into_.fields, typed, into_.inflate), found, rss_);
    }

    // Holds the sums to the answer at the references; what differs becomes one group.
    void hold(LiveMask mask) {
        for (std::size_t x = 0; x < made_.size(); ++x) {
            if (!sound_[x] || holds(x, figures(mask, x), mask, LiveDepth::reference)) continue;
            Together all = joined(x);
            all.unite_all();
            group(x, all);
            sound_[x] = sound_[x] && holds(x, figures(mask, x), mask, LiveDepth::reference);
        }
    }

    void hold(LiveMask mask, LiveDepth depth) {
        const auto found = choices_.at(mask, depth);
        const bool same = found && same_findings(*found, *choices_.at(0));
        if (found && !draws_up_alike(*found, *choices_.at(mask))) tightened_alike_ = false;
        for (std::size_t x = 0; x < made_.size(); ++x)
            if (sound_[x] && !(same && holds(x, found->findings[x].blank, mask, depth)))
                sound_[x] = false;
    }

    [[nodiscard]] bool make_apart() {
        LiveApart& apart = into_.apart;
        const auto blank = choices_.apart(0);
        for (std::size_t f = 0; f < choices_.fields(); ++f)
            if (choices_.apart(only(f)) != blank) apart.fields.push_back(f);
        if (apart.fields.size() > kMostLiveTogether) return false;
        std::map<LiveMask, stack::Verdict> known;
        for (std::size_t choice = 0; choice < std::size_t{1} << apart.fields.size(); ++choice) {
            const LiveMask mask = mask_of(apart.fields, choice);
            const auto found = choices_.apart(mask);
            if (!found) return false;
            known[mask] = *found;
            apart.of.push_back(*found);
        }
        const LiveMask all = mask_of(apart.fields, ~std::size_t{0});
        const std::vector<LiveMask> checks = spot_checks();
        return std::ranges::all_of(
            checks, [&](LiveMask mask) { return choices_.apart(mask) == known.at(mask & all); });
    }

    // False where nothing is left.
    [[nodiscard]] bool hand_over() {
        LiveLeftOut radial{.kind = LiveLeftOut::Kind::radial_gaps};
        LiveLeftOut uneven{.kind = LiveLeftOut::Kind::uneven};
        const auto add = [](LiveLeftOut& to, const std::string& name) {
            if (std::ranges::find(to.names, name) == to.names.end()) to.names.push_back(name);
        };
        for (std::size_t x = 0; x < made_.size(); ++x) {
            LiveFinding& each = made_[x];
            if (!tightened_alike_ && each.state == stack::kTightened) continue;
            if (each.kind == LiveFinding::Kind::reading)
                reading(each, sound_[x]);
            else if (!sound_[x])
                add(each.kind == LiveFinding::Kind::radial ? radial : uneven, each.name);
            else
                into_.findings.push_back(std::move(each));
        }
        for (const LiveLeftOut* left : {&radial, &uneven})
            if (!left->names.empty()) into_.left_out.push_back(*left);
        if (!tightened_alike_) into_.left_out.push_back({LiveLeftOut::Kind::tightened});
        return !into_.findings.empty();
    }

    void reading(LiveFinding& should, bool sound) {
        const job::Reading& of = choices_.readings()[into_.readings.size()];
        into_.readings.push_back(told(choices_.job(), of));
        if (sound) into_.readings.back().should = std::move(should);
    }

    LiveChoices& choices_;
    LiveAnswer& into_;
    bool rss_;
    bool tightened_alike_ = true;
    std::vector<LiveFinding> made_;
    std::vector<bool> sound_;
};

// Takes the places that `keep` does not name out of `from`, and names them.
LiveLeftOut take_out(LiveMask keep, LiveLeftOut::Kind why, std::vector<LivePlace>& from) {
    LiveLeftOut out{.kind = why};
    std::vector<LivePlace> kept;
    for (std::size_t f = 0; f < from.size(); ++f) {
        if (has(keep, f))
            kept.push_back(std::move(from[f]));
        else
            out.names.push_back(from[f].field.what);
    }
    from = std::move(kept);
    return out;
}

void add_left_out(LiveLeftOut left, LiveAnswer& to) {
    if (!left.names.empty()) to.left_out.push_back(std::move(left));
}

}  // namespace

std::vector<std::string> warm_of_unknown_growth(const Model& model) {
    std::vector<std::string> names;
    for (const Model& state : stack::in_states(model))
        for (const job::PartId part : state.growth_unknown()) {
            const std::string& name = model.job().parts.at(part.at()).name;
            if (std::ranges::find(names, name) == names.end()) names.push_back(name);
        }
    return names;
}

std::variant<LiveAnswer, NotLive> live(const Model& model, const stack::Options& options,
                                       const plan::PlanMade* plan) {
    LivePlaces places = live_places(model.job(), plan);
    if (places.all.empty()) return NotLive::no_place;
    if (rings_of(model.job()) > kMostLiveRings) return NotLive::many_rings;
    // What stands on growth that nobody knows is not judged, and other work leaves other things of
    // it.
    if (!warm_of_unknown_growth(model).empty()) return NotLive::growth_unknown;
    LiveAnswer out{.judge = options.judge, .inflate = options.inflate};
    add_left_out({LiveLeftOut::Kind::open_work, std::move(places.open_work)}, out);
    add_left_out(take_out(only(kMostLiveFields) - 1, LiveLeftOut::Kind::more_fields, places.all),
                 out);
    {
        LiveChoices each(model, options, places.all);
        add_left_out(take_out(sound_fields(each), LiveLeftOut::Kind::tied, places.all), out);
    }
    if (places.all.empty()) return NotLive::uneven;
    for (const LivePlace& each : places.all)
        out.fields.push_back(each.field);
    LiveChoices choices(model, options, places.all);
    if (!Maker(choices, out, options.judge == stack::Judge::rss).make()) return NotLive::uneven;
    return out;
}

}  // namespace trialfit::sheet
