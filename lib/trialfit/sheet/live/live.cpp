// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <memory>
#include <trialfit/job/former.hpp>
#include <trialfit/quantity/figures.hpp>
#include <trialfit/sheet/live/live.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/check/requirements.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>
#include <variant>

namespace trialfit::sheet {

namespace {

using stack::at;
using stack::Form;
using stack::Model;

// A new size has a column of its own even where it is good to nothing at all; less than any
// rounding (stack::kRounding).
constexpr double kHair = 1e-12;
// A field takes no less than this share of what must remain: so far, figures are held to move
// evenly.
constexpr double kLeastOfKeep = 0.5;

// A field and what it stands for in the job.
struct Place {
    LiveField field;
    job::PartId part;
    const job::Cut* cut = nullptr;
    job::SeatId seat;
};

std::string planned_cut(const plan::PlanMade* plan, const std::string& face) {
    if (plan == nullptr) return {};
    for (const plan::CutMade& made : plan->cuts)
        if (made.face == face && !made.by_amount) return quantity::plain(made.finish);
    return {};
}

class Places {
public:
    Places(const job::Job& job, const plan::PlanMade* plan) : job_(job), plan_(plan) {
        for (const job::PartId p : job::indices(job.parts)) {
            const job::Part& part = job.parts[at(p)];
            for (const job::Cut& cut : part.cuts)
                add_cut(p, cut);
            for (const job::SeatId s : job::indices(part.seats))
                if (part.seats[at(s)].shims && !part.seats[at(s)].shims->stock.empty())
                    add_shims(p, s);
            other_work_ = other_work_ || !part.laps.empty() || !part.skims.empty() ||
                          (part.centred && part.centred->centre_to);
        }
    }

    [[nodiscard]] const std::vector<Place>& all() const { return all_; }
    [[nodiscard]] bool other_work() const { return other_work_; }
    [[nodiscard]] bool more() const { return more_; }

private:
    void add_cut(job::PartId p, const job::Cut& cut) {
        const job::Part& part = job_.parts[at(p)];
        const double now = job::thickness(part, cut);
        if (!std::isfinite(now) || !std::isfinite(job::greatest_thickness(part, cut))) {
            other_work_ = true;
            return;
        }
        const std::optional<job::GaugeId> gauge = job::gauge_of(part, cut);
        const std::string face = job::name(job_, job::FaceRef{p, cut.face});
        add({.field = {.kind = LiveField::Kind::cut,
                       .what = face,
                       .from = job::name(job_, job::FaceRef{p, cut.measure}),
                       .read_by = gauge ? job_.gauges[at(*gauge)].name : "",
                       .half_width = gauge ? job_.gauges[at(*gauge)].half_width : cut.holds,
                       .most = job::greatest_thickness(part, cut),
                       .keep = cut.keep,
                       .least = kLeastOfKeep * cut.keep,
                       .reference = now,
                       .planned = planned_cut(plan_, face)},
             .part = p,
             .cut = &cut});
    }

    static double thickest(const job::Shims& shims) {
        double most = 0.0;
        for (const job::ShimStock& each : shims.stock)
            most = std::max(most, each.thickness.size.nominal);
        return most;
    }

    void add_shims(job::PartId p, job::SeatId s) {
        const job::Shims& shims = *job_.parts[at(p)].seats[at(s)].shims;
        add({.field = {.kind = LiveField::Kind::shims,
                       .what = job_.parts[at(p)].name,
                       .half_width = shims.holds,
                       .most = thickest(shims),
                       .reference = shims.stock.front().thickness.size.nominal,
                       .planned = planned_shims(job_.parts[at(p)].name)},
             .part = p,
             .seat = s});
    }

    [[nodiscard]] std::string planned_shims(const std::string& part) const {
        std::string told;
        if (plan_ == nullptr) return told;
        for (const plan::StackMade& made : plan_->shims) {
            if (made.part != part) continue;
            for (const plan::Piece& piece : made.stack)
                told += (told.empty() ? "" : " + ") + quantity::plain(piece.thickness);
            if (told.empty()) told = "none";
        }
        return told;
    }

    void add(Place place) {
        if (all_.size() < kMostLiveFields) return all_.push_back(std::move(place));
        more_ = true;
    }

    const job::Job& job_;
    const plan::PlanMade* plan_;
    std::vector<Place> all_;
    bool other_work_ = false;
    bool more_ = false;
};

job::Given given_of(double value, double half_width) {
    const double half = std::max(half_width, kHair);
    return {.size = quantity::reading(value, half), .written = quantity::plain(value), .at = {}};
}

// The job with the work of some fields done, at their references, and its model.
struct Done {
    std::unique_ptr<job::Job> job;
    std::optional<Model> model;
    std::vector<int> columns;  // of each field filled in: its size
    std::vector<double> signs;
    std::vector<double> less;  // than the references
};

class Working {
public:
    Working(const Model& before, const std::vector<Place>& places)
        : before_(before), places_(places), base_(std::make_shared<job::Job>(before.job())) {}

    // Nothing where a field is tied to others, so that figures do not move evenly with it. `share`:
    // how deep the faces are cut, 1 being the least that a field takes.
    [[nodiscard]] std::optional<Done> done(const std::vector<bool>& filled, double share) const {
        stack::Changes changes;
        Done out;
        if (std::none_of(filled.begin(), filled.end(), [](bool each) { return each; })) {
            out.model.emplace(before_);
            return out;
        }
        for (std::size_t f = 0; f < places_.size(); ++f)
            if (filled[f]) work(places_[f], share, changes, out);
        out.job = std::make_unique<job::Job>(stack::carried_out(before_, changes));
        out.job->before = base_;
        auto after = stack::model_after(before_, *out.job);
        if (after.index() != 0) return std::nullopt;
        out.model.emplace(std::move(std::get<Model>(after)));
        for (std::size_t f = 0; f < places_.size(); ++f)
            if (filled[f] && !find(places_[f], out)) return std::nullopt;
        return out;
    }

private:
    void work(const Place& place, double share, stack::Changes& changes, Done& out) const {
        const LiveField& field = place.field;
        const double less = place.cut == nullptr ? 0.0 : share * (field.reference - field.least);
        out.less.push_back(less);
        if (place.cut == nullptr) {
            changes.stacks.push_back(
                {.part = place.part,
                 .seat = place.seat,
                 .shims = {{.shim = given_of(field.reference, field.half_width)}}});
            out.signs.push_back(1.0);
            return;
        }
        const double sign = job::outboard_sign(before_.job().parts[at(place.part)], *place.cut);
        changes.cuts.push_back(
            {.part = place.part,
             .face = place.cut->face,
             .measure = place.cut->measure,
             .size = given_of(sign * (field.reference - less), field.half_width)});
        out.signs.push_back(sign);
    }

    static bool find(const Place& place, Done& out) {
        const job::SizeId id =
            place.cut == nullptr
                ? job::SizeId{job::SizeRole::shim, place.part, place.seat, 0}
                : job::SizeId{job::SizeRole::dimension, place.part, place.cut->face, 0};
        const std::optional<int> column = out.model->column_of(id);
        if (!column || out.model->ties().tied(*column)) return false;
        out.columns.push_back(*column);
        return true;
    }

    const Model& before_;
    const std::vector<Place>& places_;
    std::shared_ptr<const job::Job> base_;
};

// The findings of one set of fields.
class Finding {
public:
    Finding(const Done& done, const stack::Options& options) : done_(done), options_(options) {}

    // State by state.
    [[nodiscard]] std::vector<LiveFinding> all() const {
        std::vector<LiveFinding> found;
        for (const Model& state : stack::in_states(*done_.model))
            add_state(state, found);
        return found;
    }

    // Cold. A face that was cut is where it is now: `readings` are of the job before.
    [[nodiscard]] std::vector<LiveFigure> of(const std::vector<job::Reading>& readings) const {
        std::vector<LiveFigure> found;
        found.reserve(readings.size());
        for (const job::Reading& each : readings)
            found.push_back(
                figure(*done_.model, done_.model->gap({.face = each.from}, {.face = each.to})));
        return found;
    }

private:
    void add_state(const Model& model, std::vector<LiveFinding>& to) const {
        for (const stack::Clearance& pair :
             stack::clearances(model, options_.judge, options_.inflate).pairs)
            to.push_back(clearance(model, pair));
        for (const auto* checks : {&model.job().checks, &model.automatic_checks()})
            for (const job::Check& check : *checks)
                to.push_back(check_of(model, check));
    }

    [[nodiscard]] std::vector<double> by(const Model& model, const Form& form) const {
        const Form adjusted = model.ties().adjusted(form);
        std::vector<double> all;
        for (std::size_t f = 0; f < done_.columns.size(); ++f)
            all.push_back(done_.signs[f] * adjusted.sensitivities.coeff(done_.columns[f]));
        return all;
    }

    [[nodiscard]] LiveFigure figure(const Model& model, const Form& form) const {
        return {.at = stack::bounds(model, form, options_.inflate), .by = by(model, form)};
    }

    [[nodiscard]] LiveFinding clearance(const Model& model, const stack::Clearance& pair) const {
        LiveFinding out{
            .name = pair.inboard + " to " + pair.outboard,
            .state = model.state(),
            .value = {{.at = pair.gap, .by = by(model, stack::tilted_gap(model, pair))}}};
        out.at_least = LiveLimit{.limit = pair.at_least, .more_than = pair.more_than};
        out.may_miss = pair.may_miss;
        out.not_judged = pair.not_judged_for.has_value() && !pair.may_miss;
        return out;
    }

    [[nodiscard]] LiveFinding check_of(const Model& model, const job::Check& check) const {
        const stack::Question asked = stack::question(model, check);
        LiveFinding out{.name = check.name, .state = model.state(), .check = true};
        for (const stack::Question::Difference& each : asked.differences)
            out.value.push_back(figure(model, each.stated));
        const stack::CheckResult found =
            stack::answer(model, check, options_.judge, options_.inflate);
        out.not_judged = found.not_judged_for.has_value();
        if (out.not_judged) return out;
        if (check.at_least) out.at_least = limit(model, asked, check, *check.at_least);
        if (check.at_most) out.at_most = limit(model, asked, check, *check.at_most);
        return out;
    }

    [[nodiscard]] LiveLimit limit(const Model& model, const stack::Question& asked,
                                  const job::Check& check, const job::Limit& given) const {
        const stack::Threshold level = stack::threshold(model, check, given).value();
        LiveLimit out{
            .limit = level.length, .more_than = given.more_than, .share = level.share, .over = {}};
        if (level.share == 0.0) return out;
        for (const stack::Question::Difference& each : asked.differences) {
            stack::FormBuilder over;
            over.add(each.stated, 1.0);
            over.add(*asked.length, -level.share);
            out.over.push_back(
                figure(model, std::move(over).build(each.stated.sensitivities.size())));
        }
        return out;
    }

    const Done& done_;
    const stack::Options& options_;
};

// Whether figures are, cut deeper by `less`, what they are at the references moved evenly: a hub
// that comes to bear at another end of its cone makes them bend.
class Even {
public:
    explicit Even(std::vector<double> less) : less_(std::move(less)) {}

    [[nodiscard]] bool operator()(const std::vector<LiveFinding>& at,
                                  const std::vector<LiveFinding>& deeper) const {
        return std::equal(at.begin(), at.end(), deeper.begin(), deeper.end(),
                          [this](const LiveFinding& one, const LiveFinding& other) {
                              return one.name == other.name && one.state == other.state &&
                                     one.not_judged == other.not_judged &&
                                     (*this)(one.value, other.value) &&
                                     limits(one.at_least, other.at_least) &&
                                     limits(one.at_most, other.at_most);
                          });
    }

    [[nodiscard]] bool operator()(const std::vector<LiveFigure>& at,
                                  const std::vector<LiveFigure>& deeper) const {
        return std::equal(
            at.begin(), at.end(), deeper.begin(), deeper.end(),
            [this](const LiveFigure& one, const LiveFigure& other) { return figure(one, other); });
    }

private:
    [[nodiscard]] bool limits(const std::optional<LiveLimit>& one,
                              const std::optional<LiveLimit>& other) const {
        if (!one || !other) return one.has_value() == other.has_value();
        return one->limit == other->limit && (*this)(one->over, other->over);
    }

    [[nodiscard]] bool figure(const LiveFigure& one, const LiveFigure& other) const {
        constexpr double kSame = 1e-9;
        if (one.at.open() || other.at.open()) return one.at.open() == other.at.open();
        double shift = 0.0;
        for (std::size_t f = 0; f < less_.size(); ++f)
            shift -= one.by[f] * less_[f];
        const auto same = [&](double at, double deeper) {
            return std::abs(at + shift - deeper) < kSame;
        };
        return same(one.at.nominal, other.at.nominal) && same(one.at.middle, other.at.middle) &&
               same(one.at.worst.lo, other.at.worst.lo) &&
               same(one.at.worst.hi, other.at.worst.hi) && same(one.at.rss.lo, other.at.rss.lo) &&
               same(one.at.rss.hi, other.at.rss.hi);
    }

    std::vector<double> less_;
};

// Whether how far the nut draws the hub home is another once the faces are cut deeper.
bool draws_up_alike(const Model& one, const Model& other) {
    const quantity::Size* const a = one.known_draw_up();
    const quantity::Size* const b = other.known_draw_up();
    if (a == nullptr || b == nullptr) return a == b;
    return std::abs(a->lower - b->lower) < kHair && std::abs(a->upper - b->upper) < kHair;
}

// Whether the draw-up is the same is looked at apart.
std::vector<LiveFinding> cold(std::vector<LiveFinding> all) {
    std::erase_if(all, [](const LiveFinding& each) { return each.state == stack::kTightened; });
    return all;
}

std::size_t rings_of(const job::Job& job) {
    std::size_t count = 0;
    for (const job::Part& part : job.parts)
        count += part.rings.size();
    return count;
}

// What stands on growth that nobody knows is not judged, and other work leaves other things of it.
bool growth_unknown(const Model& model) {
    const std::vector<Model> states = stack::in_states(model);
    return std::any_of(states.begin(), states.end(),
                       [](const Model& state) { return !state.growth_unknown().empty(); });
}

std::vector<bool> choice_of(std::size_t which, std::size_t fields) {
    std::vector<bool> filled(fields);
    for (std::size_t f = 0; f < fields; ++f)
        filled[f] = ((which >> f) & 1U) != 0;
    return filled;
}

// The readings of the job that go by other faces than one before.
std::vector<job::Reading> taken_again(const job::Job& job) {
    std::vector<job::Reading> all;
    for (const job::Reading& each : job.readings) {
        const auto same = [&](const job::Reading& other) {
            return other.from == each.from && other.to == each.to;
        };
        if (std::none_of(all.begin(), all.end(), same) && all.size() < kMostLiveFields)
            all.push_back(each);
    }
    return all;
}

LiveReading told(const job::Job& job, const job::Reading& reading) {
    LiveReading out{.name = reading.name,
                    .from = job::name(job, reading.from),
                    .to = job::name(job, reading.to),
                    .read_by = {},
                    .half_width = reading.is.size.half_width()};
    if (!reading.is.gauge) return out;
    const job::Gauge& gauge = job.gauges[at(*reading.is.gauge)];
    out.read_by = gauge.name;
    out.half_width = gauge.half_width;
    return out;
}

// Goes through the choices of fields one by one.
class Sets {
public:
    Sets(const Model& model, const stack::Options& options, const std::vector<Place>& places)
        : working_(model, places),
          options_(options),
          readings_(taken_again(model.job())),
          radial_(!model.job().air_gaps.empty()) {}

    // Nothing where figures do not move evenly.
    [[nodiscard]] std::optional<LiveSet> of(std::vector<bool> filled) {
        const auto done = working_.done(filled, 0.0);
        if (!done) return std::nullopt;
        const stack::CheckAnswer checked = stack::check(*done->model, options_);
        radial_ = radial_ || !checked.radial.empty();
        const Finding finding(*done, options_);
        LiveSet set{.filled = std::move(filled),
                    .apart = checked.verdict_apart,
                    .findings = finding.all(),
                    .readings = finding.of(readings_)};
        for (const double share : {0.5, 1.0}) {
            const auto deeper = working_.done(set.filled, share);
            if (!deeper) return std::nullopt;
            tightened_alike_ = tightened_alike_ && draws_up_alike(*done->model, *deeper->model);
            const Finding there(*deeper, options_);
            const Even even(deeper->less);
            if (!even(cold(set.findings), cold(there.all())) ||
                !even(set.readings, there.of(readings_)))
                return std::nullopt;
        }
        return set;
    }

    [[nodiscard]] const std::vector<job::Reading>& readings() const { return readings_; }
    [[nodiscard]] bool radial() const { return radial_; }
    [[nodiscard]] bool tightened_alike() const { return tightened_alike_; }

private:
    Working working_;
    const stack::Options& options_;
    std::vector<job::Reading> readings_;
    bool radial_;
    bool tightened_alike_ = true;
};

}  // namespace

std::variant<LiveAnswer, NotLive> live(const Model& model, const stack::Options& options,
                                       const plan::PlanMade* plan) {
    const job::Job& job = model.job();
    const Places places(job, plan);
    if (places.all().empty()) return NotLive::no_place;
    if (rings_of(job) > kMostLiveRings) return NotLive::many_rings;
    if (growth_unknown(model)) return NotLive::growth_unknown;
    LiveAnswer out{.judge = options.judge, .inflate = options.inflate};
    for (const Place& each : places.all())
        out.fields.push_back(each.field);
    Sets sets(model, options, places.all());
    for (const job::Reading& each : sets.readings())
        out.readings.push_back(told(job, each));
    for (std::size_t which = 0; which < (std::size_t{1} << places.all().size()); ++which) {
        auto set = sets.of(choice_of(which, places.all().size()));
        if (!set) return NotLive::uneven;
        out.sets.push_back(std::move(*set));
    }
    if (!sets.tightened_alike()) {
        out.left_out.push_back(LiveLeftOut::tightened);
        for (LiveSet& set : out.sets)
            set.findings = cold(std::move(set.findings));
    }
    if (sets.radial()) out.left_out.push_back(LiveLeftOut::radial_gaps);
    if (places.other_work()) out.left_out.push_back(LiveLeftOut::other_work);
    if (places.more()) out.left_out.push_back(LiveLeftOut::more_fields);
    return out;
}

}  // namespace trialfit::sheet
