// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <trialfit/plan/demand/marked.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/states.hpp>
#include <variant>

namespace trialfit::plan {

namespace {

using stack::at;

// A size for what is not decided yet: any length with limits apart.
job::Given mark(double nominal) {
    return {.size = quantity::toleranced(nominal, -1.0, 1.0)};
}

}  // namespace

Marked::Marked(const stack::Model& model, const Demands& decided) : decided_(decided) {
    stack::Changes changes;
    for (const Work& work : decided.works) {
        const auto* face = std::get_if<FaceCut>(&work);
        if (face == nullptr) continue;
        changes.cuts.push_back({.part = face->part,
                                .face = face->cut->face,
                                .measure = face->cut->measure,
                                .size = mark(face->sign * face->now),
                                .by_amount = face->by_amount});
    }
    for (const ShimSeat& seat : decided.seats) {
        double height = 0.0;
        for (const job::Given& piece : seat.shims->fitted)
            height += piece.size.nominal;
        changes.stacks.push_back(
            {.part = seat.part, .seat = seat.seat, .shims = {{.shim = mark(height)}}});
    }
    first_new_face_.reserve(model.job().parts.size());
    for (const job::Part& part : model.job().parts)
        first_new_face_.push_back(static_cast<int>(part.faces.size()));
    job_ = stack::carried_out(model, changes);
    states_ = stack::in_states(std::get<stack::Model>(stack::Model::of(job_)));
    find_columns();
}

stack::Station Marked::station(job::PartId part, const job::RingEnd& end) const {
    job::FaceId face = end.face;
    if (end.beyond != 0.0) {
        int old = first_new_face_[at(part)];
        for (const Work& work : decided_.works) {
            const auto* cut = std::get_if<FaceCut>(&work);
            if (cut == nullptr || cut->part != part) continue;
            if (cut->cut->face == face) {
                face = old;
                break;
            }
            ++old;
        }
    }
    return {.face = {.part = part, .face = face}, .beyond = end.beyond};
}

void Marked::read(const stack::Form& form, PlanDemand& into) const {
    into.by_work.assign(decided_.works.size(), 0.0);
    into.by_stack.assign(decided_.seats.size(), 0.0);
    for (Eigen::SparseVector<double>::InnerIterator it(form.sensitivities); it; ++it) {
        const auto found = columns_.find(static_cast<int>(it.index()));
        if (found == columns_.end()) continue;
        for (const Effect& effect : found->second) {
            auto& list = effect.on_seat ? into.by_stack : into.by_work;
            list[effect.index] += effect.times * it.value();
        }
    }
}

void Marked::find_columns() {
    const stack::Model& model = states_.front();
    const auto add = [&](job::SizeId id, const Effect& effect) {
        if (const std::optional<int> column = model.column_of(id))
            columns_[*column].push_back(effect);
    };
    for (std::size_t w = 0; w < decided_.works.size(); ++w) {
        if (const auto* lap = std::get_if<ConeLap>(&decided_.works[w])) {
            const job::ConeRef cone{.part = lap->part, .index = lap->lap->cone};
            add({job::SizeRole::cone_diameter, cone.part, cone.index},
                {.on_seat = false, .index = w, .times = stack::lap_sign(job_, cone)});
        } else if (const auto* face = std::get_if<FaceCut>(&decided_.works[w])) {
            add({job::SizeRole::dimension, face->part, face->cut->face},
                {.on_seat = false, .index = w});
        }
    }
    for (std::size_t q = 0; q < decided_.seats.size(); ++q) {
        // A part with several seats keeps the holding one only.
        const ShimSeat& seat = decided_.seats[q];
        const std::size_t seats = job_.parts[at(seat.part)].seats.size();
        const job::SeatId index = seats == 1 ? job::SeatId{0} : seat.seat;
        add({job::SizeRole::shim, seat.part, index}, {.on_seat = true, .index = q});
    }
}

}  // namespace trialfit::plan
