// SPDX-License-Identifier: MIT
#include <algorithm>
#include <limits>
#include <optional>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/model/general_tolerance.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>

namespace trialfit::stack {

namespace {

const job::Part& part_of(const Model& model, job::PartId part) {
    return model.job().parts.at(at(part));
}

const job::Seat* first_seat(const job::Part& part) {
    return part.seats.empty() ? nullptr : &part.seats.front();
}

// Gathers the forms of one gap at one end of the length that the rings share.
class Gatherer {
public:
    Gatherer(const Model& model, job::RingRef inner, job::RingRef outer)
        : model_(model), inner_(inner), outer_(outer) {}

    RadialQuestion gather() {
        RadialQuestion question{.inner = job::ring_name(model_.job(), inner_),
                                .outer = job::ring_name(model_.job(), outer_)};
        const auto n = model_.columns().nominal.size();
        question.width = width().build(n);
        FormBuilder roams;
        bool differ = false;
        question.ends.push_back(eccentricities(false, differ, roams));
        question.roams = std::move(roams).build(n);
        FormBuilder again;
        if (differ) question.ends.push_back(eccentricities(true, differ, again));
        for (const Vectors& end : question.ends) {
            for (const double sign : {-1.0, 1.0}) {
                FormBuilder gap;
                gap.add(question.width, 1.0);
                gap.add(question.roams, sign);
                add_worst(end, sign, gap);
                (sign < 0.0 ? question.least : question.greatest)
                    .push_back(std::move(gap).build(n));
            }
        }
        question.not_given = not_given();
        return question;
    }

private:
    // Height of the end of the shared length over a face: its extreme over all sizes, away from the
    // middle, so that nothing that the bounds allow is left out. Not a number where unmeasured
    // sizes leave it open.
    [[nodiscard]] double height(job::FaceRef over, bool outboard) const {
        std::optional<double> end;
        for (const job::RingRef ref : {inner_, outer_}) {
            const job::Ring& ring = job::at(model_.job(), ref);
            const job::RingEnd& at_end = outboard ? ring.outboard : ring.inboard;
            const Form gap = model_.gap({.face = over},
                                        {.face = {ref.part, at_end.face}, .beyond = at_end.beyond});
            // The other ring's end bounds the shared length, too.
            if (model_.unmeasured().open(gap)) continue;
            const Range range = model_.ties().extremes(
                outboard ? model_.greatest_end(gap) : model_.least_end(gap), model_.columns());
            if (!end)
                end = outboard ? range.hi : range.lo;
            else
                end = outboard ? std::min(*end, range.hi) : std::max(*end, range.lo);
        }
        return end.value_or(std::numeric_limits<double>::quiet_NaN());
    }

    [[nodiscard]] FormBuilder width() const {
        const RadialSizes& sizes = model_.radial();
        FormBuilder width;
        width.add(sizes.bore[at(outer_.part)][at(outer_.index)], 0.5 * model_.growth(outer_.part));
        width.add(sizes.outside[at(inner_.part)][at(inner_.index)],
                  -0.5 * model_.growth(inner_.part));
        return width;
    }

    [[nodiscard]] std::vector<Vector>& side(Vectors& all, job::PartId part) const {
        return part_of(model_, part).turns ? all.turning : all.still;
    }

    Vectors eccentricities(bool outboard, bool& differ, FormBuilder& roams) const {
        Vectors all;
        const RadialSizes& sizes = model_.radial();
        std::vector<job::PartId> way = way_by_centring(model_, inner_.part, outer_.part);
        for (const job::PartId part : way)
            if (sizes.centring[at(part)] >= 0) centring(part, all, roams);
        // A ring's own part may be the one where the ways meet; its rings run out all the same.
        for (const job::PartId part : {inner_.part, outer_.part})
            if (std::ranges::find(way, part) == way.end()) way.push_back(part);
        for (const job::PartId part : way)
            runouts(part, outboard, side(all, part), differ);
        for (const job::PartId part : way_by_seats(model_, inner_.part, outer_.part)) {
            if (sizes.face_runout[at(part)] < 0) continue;
            differ = true;
            const double lever =
                height(pivot(part), outboard) / part_of(model_, part).face_runout->dia;
            side(all, part).push_back({.size = sizes.face_runout[at(part)], .share = lever});
        }
        return all;
    }

    // A part in its register lies to one side of it and stays there; a shaft in its bearing does
    // not stay.
    void centring(job::PartId index, Vectors& all, FormBuilder& roams) const {
        const job::Part& part = part_of(model_, index);
        const int size = model_.radial().centring[at(index)];
        const WarmRegister warm = warm_register(model_, index);
        const double share = 0.5 * warm.times;
        if (part.turns != part_of(model_, part.centred->on).turns) {
            roams.add(size, share);
            roams.add(share * warm.adds);
        } else {
            side(all, index).push_back({.size = size, .share = share, .beyond = warm.adds});
        }
    }

    // Known at two heights, an axis is a straight line through both.
    void runouts(job::PartId part, bool outboard, std::vector<Vector>& into, bool& differ) const {
        const std::vector<job::Runout>& given = part_of(model_, part).runout;
        const std::vector<int>& sizes = model_.radial().runout[at(part)];
        if (given.size() < 2) {
            for (const int size : sizes)
                into.push_back({.size = size, .share = 0.5});
            return;
        }
        differ = true;
        const job::FaceRef low{part, given[0].face.value()};
        const Form between = model_.gap({.face = low}, {.face = {part, given[1].face.value()}});
        const double apart = value(model_.ties().adjusted(between), model_.columns().nominal);
        const double along = height(low, outboard) / apart;
        into.push_back({.size = sizes[0], .share = 0.5 * (1.0 - along)});
        into.push_back({.size = sizes[1], .share = 0.5 * along});
    }

    [[nodiscard]] job::FaceRef pivot(job::PartId index) const {
        const job::Part& part = part_of(model_, index);
        const job::Seat* const seat = first_seat(part);
        if (seat == nullptr) return {index, 0};
        const bool cone = seat->kind == job::SeatKind::cone_on_cone;
        return {index, cone ? part.cones.at(at(seat->own_cone)).at_face : seat->own};
    }

    [[nodiscard]] std::vector<NotGiven> not_given() const {
        using What = NotGiven::What;
        std::vector<NotGiven> list;
        for (const job::PartId part : way_by_centring(model_, inner_.part, outer_.part)) {
            const job::Part& each = part_of(model_, part);
            const job::Seat* const seat = first_seat(each);
            const bool by_cone = seat != nullptr && seat->kind == job::SeatKind::cone_on_cone;
            if (!each.centred && !by_cone) list.push_back({What::centring, each.name});
            if (each.turns && each.runout.empty()) list.push_back({What::runout, each.name});
        }
        const auto general = [&](job::PartId part) {
            return general_tolerance_of(model_.job(), part_of(model_, part)) != 0;
        };
        if (!general(outer_.part) && job::at(model_.job(), outer_).bore_bare)
            list.push_back({What::bore_limits, job::ring_name(model_.job(), outer_)});
        if (!general(inner_.part) && job::at(model_.job(), inner_).outside_bare)
            list.push_back({What::outside_limits, job::ring_name(model_.job(), inner_)});
        return list;
    }

    const Model& model_;
    job::RingRef inner_;
    job::RingRef outer_;
};

CheckResult answer_in(const Model& model, const job::AirGap& check, Judge judge, double inflate) {
    const RadialQuestion asked = radial_question(model, check.one, check.other);
    CheckResult result;
    result.name = check.name;
    result.kind = CheckKind::air_gap;
    result.first = asked.inner;
    result.second = asked.outer;
    result.value = least_of(model, asked.least, inflate);
    result.state = model.state();
    constexpr double kInfinity = std::numeric_limits<double>::infinity();
    result.judged_margin = kInfinity;
    result.nominal_margin = kInfinity;
    if (check.at_least) {
        result.at_least = check.at_least->value;
        result.at_least_written = check.at_least->written;
        result.judged_margin = judged(result.value, judge).lo - *result.at_least;
        result.nominal_margin = result.value.nominal - *result.at_least;
        result.verdict =
            verdict(result.value, {.least = *result.at_least, .most = kInfinity}, judge);
    }
    if (check.at_most) {
        const Bounds widest = greatest_of(model, asked.greatest, inflate);
        result.greatest = widest;
        result.at_most = check.at_most->value;
        result.at_most_written = check.at_most->written;
        result.judged_margin =
            std::min(result.judged_margin, *result.at_most - judged(widest, judge).hi);
        result.nominal_margin = std::min(result.nominal_margin, *result.at_most - widest.nominal);
        result.verdict = worse(
            result.verdict, verdict(widest, {.least = -kInfinity, .most = *result.at_most}, judge));
    }
    result.not_judged_for = radial_not_judged_for(model, check.one, check.other);
    if (result.not_judged_for) result.verdict = Verdict::not_judged;
    return result;
}

}  // namespace

RadialQuestion radial_question(const Model& model, job::RingRef one, job::RingRef other) {
    const bool first_is_outer = job::at(model.job(), one).lies_round(job::at(model.job(), other));
    return first_is_outer ? Gatherer(model, other, one).gather()
                          : Gatherer(model, one, other).gather();
}

std::optional<NotJudgedFor> radial_not_judged_for(const Model& model, job::RingRef one,
                                                  job::RingRef other) {
    const std::vector<Form> forms = radial_question(model, one, other).least;
    const auto open = [&](const Form& form) { return model.unmeasured().open(form); };
    if (std::ranges::any_of(forms, open)) return LeftOpen{};
    return growth_not_known(
        model, unknown_growth_under(model, [&](const Model& of) {
            return least_of(of, radial_question(of, one, other).least, 1.0).middle;
        }));
}

Bounds least_of(const Model& model, const std::vector<Form>& forms, double inflate) {
    Fixed least = fixed_bounds(model.ties(), model.columns(), forms.front(), inflate);
    for (const Form& form : forms)
        least = least_of(least, fixed_bounds(model.ties(), model.columns(), form, inflate));
    return {least};
}

Bounds greatest_of(const Model& model, const std::vector<Form>& forms, double inflate) {
    Fixed greatest = fixed_bounds(model.ties(), model.columns(), forms.front(), inflate);
    for (const Form& form : forms)
        greatest =
            greatest_of(greatest, fixed_bounds(model.ties(), model.columns(), form, inflate));
    return {greatest};
}

CheckResult answer(const std::vector<Model>& states, const job::AirGap& check, Judge judge,
                   double inflate) {
    CheckResult deciding;
    std::vector<InState> all;
    for (const Model& model : states) {
        CheckResult here = answer_in(model, check, judge, inflate);
        all.push_back({.state = here.state, .value = here.value, .verdict = here.verdict});
        if (all.size() == 1 || std::pair{deciding.verdict, -deciding.judged_margin} <
                                   std::pair{here.verdict, -here.judged_margin})
            deciding = std::move(here);
    }
    if (!deciding.state.empty()) deciding.in_states = std::move(all);
    return deciding;
}

}  // namespace trialfit::stack
