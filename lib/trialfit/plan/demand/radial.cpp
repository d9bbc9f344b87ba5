// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <limits>
#include <optional>
#include <trialfit/plan/demand/more_demands.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>
#include <variant>

namespace trialfit::plan {

namespace {

using stack::at;

constexpr double kUnbounded = std::numeric_limits<double>::infinity();

class Nested {
public:
    Nested(const stack::Model& model, const Marked& marked, Demands& into)
        : job_(model.job()), marked_(marked), states_(stack::in_states(model)), into_(into) {}

    void gap(const Nesting& nesting) {
        const stack::RadialGap& asked = nesting.gap;
        const job::RingRef inner = asked.inner_ring;
        const job::RingRef outer = asked.outer_ring;
        if (!has(inner) || !has(outer)) return;
        for (std::size_t s = 0; s < states_.size(); ++s) {
            Either either{.radial = true};
            const stack::RadialQuestion question = stack::radial_question(states_[s], inner, outer);
            std::vector<PlanDemand>& wide = either.ways.emplace_back();
            for (const stack::Form& form : question.least) {
                PlanDemand demand = blank(s, form, question.least.size());
                demand.of = stack::id_of(asked);
                demand.name = asked.inner + " to " + asked.outer;
                demand.lower = asked.at_least;
                demand.more_than = asked.more_than;
                demand.over_asks = nesting.wide;
                wide.push_back(std::move(demand));
            }
            if (!nesting.wide) {
                either.ways.push_back({apart(s, inner, outer)});
                either.ways.push_back({apart(s, outer, inner)});
            }
            into_.either.push_back(std::move(either));
        }
    }

    void air_gap(std::size_t which) {
        const job::AirGap& check = job_.air_gaps[which];
        for (std::size_t s = 0; s < states_.size(); ++s) {
            const stack::RadialQuestion question =
                stack::radial_question(states_[s], check.one, check.other);
            const auto ask = [&](const std::vector<stack::Form>& forms, double lower,
                                 double upper) {
                for (const stack::Form& form : forms) {
                    PlanDemand demand = blank(s, form, forms.size());
                    demand.name = check.name;
                    demand.of = stack::AirGapId{which};
                    demand.lower = lower;
                    demand.upper = upper;
                    into_.all.push_back(std::move(demand));
                }
            };
            if (check.at_least) ask(question.least, check.at_least->value, kUnbounded);
            if (check.at_most) ask(question.greatest, -kUnbounded, check.at_most->value);
        }
    }

private:
    // A radial gap meets what is skimmed and centred, and nothing along the axis.
    [[nodiscard]] PlanDemand blank(std::size_t s, const stack::Form& form,
                                   std::size_t forms) const {
        PlanDemand demand;
        demand.state = states_[s].state();
        demand.lower = -kUnbounded;
        demand.upper = kUnbounded;
        demand.together = forms > 1;
        demand.leans = forms > 1 && moves_along_the_axis();
        demand.drawn = true;
        demand.now = form;
        demand.by_work.assign(into_.works.size(), 0.0);
        demand.by_stack.assign(into_.seats.size(), 0.0);
        for (std::size_t w = 0; w < into_.works.size(); ++w) {
            const NewLength* const length = new_length(into_.works[w]);
            if (length == nullptr || std::holds_alternative<FaceCut>(into_.works[w])) continue;
            for (Eigen::SparseVector<double>::InnerIterator it(length->old.sensitivities); it; ++it)
                demand.by_work[w] = form.sensitivities.coeff(it.index());
        }
        return demand;
    }

    [[nodiscard]] bool moves_along_the_axis() const {
        return !into_.seats.empty() ||
               std::any_of(into_.works.begin(), into_.works.end(), [](const Work& work) {
                   return std::holds_alternative<FaceCut>(work) ||
                          std::holds_alternative<ConeLap>(work);
               });
    }

    // One ring ends before the other begins.
    [[nodiscard]] PlanDemand apart(std::size_t s, job::RingRef begins, job::RingRef ends) const {
        const job::RingEnd& begin = ring(begins).inboard;
        const job::RingEnd& end = ring(ends).outboard;
        const auto station = [](job::PartId part, const job::RingEnd& of) {
            return stack::Station{.face = {.part = part, .face = of.face}, .beyond = of.beyond};
        };
        PlanDemand demand;
        demand.name =
            job::ring_name(job_, begins) + " lying clear of " + job::ring_name(job_, ends);
        demand.state = states_[s].state();
        demand.lower = -kUnbounded;
        demand.upper = 0.0;
        const stack::Model& then = marked_.states()[s];
        demand.now = states_[s].greatest_end(
            states_[s].gap(station(begins.part, begin), station(ends.part, end)));
        marked_.read(then.greatest_end(then.gap(marked_.station(begins.part, begin),
                                                marked_.station(ends.part, end))),
                     demand);
        return demand;
    }

    [[nodiscard]] bool has(job::RingRef ref) const {
        return at(ref.part) < job_.parts.size() &&
               at(ref.index) < job_.parts[at(ref.part)].rings.size();
    }

    [[nodiscard]] const job::Ring& ring(job::RingRef ref) const { return job::at(job_, ref); }

    const job::Job& job_;
    const Marked& marked_;
    std::vector<stack::Model> states_;
    Demands& into_;
};

}  // namespace

void ask_radial(const stack::Model& model, const Marked& marked, const std::vector<Nesting>& nested,
                Demands& into) {
    if (!stack::asks_radial(model.job())) return;
    Nested asking(model, marked, into);
    for (const Nesting& each : nested)
        asking.gap(each);
    for (std::size_t i = 0; i < model.job().air_gaps.size(); ++i)
        asking.air_gap(i);
}

}  // namespace trialfit::plan
