// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <trialfit/plan/demand/marked.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/states.hpp>
#include <variant>

namespace trialfit::plan {

namespace {

using stack::at;

job::Given mark(double nominal, const char* what, std::size_t i) {
    return {.size = quantity::toleranced(nominal, -1.0, 1.0),
            .written = fmt::format("\x01{} {}", what, i),
            .at = {},
            .gauge = -1};
}

}  // namespace

Marked::Marked(const stack::Model& model, const Demands& decided) : decided_(decided) {
    stack::Changes changes;
    for (std::size_t w = 0; w < decided.works.size(); ++w) {
        const auto* face = std::get_if<FaceCut>(&decided.works[w]);
        if (face == nullptr) continue;
        changes.cuts.push_back({.part = face->part,
                                .face = face->cut->face,
                                .measure = face->cut->measure,
                                .size = mark(face->sign * face->now, "work", w)});
    }
    for (std::size_t q = 0; q < decided.seats.size(); ++q) {
        const ShimSeat& seat = decided.seats[q];
        double height = 0.0;
        for (const job::Given& piece : seat.shims->fitted)
            height += piece.size.nominal;
        changes.stacks.push_back(
            {.part = seat.part, .seat = seat.seat, .shims = {mark(height, "seat", q)}});
    }
    first_new_face_.reserve(model.job().parts.size());
    for (const job::Part& part : model.job().parts)
        first_new_face_.push_back(static_cast<int>(part.faces.size()));
    job_ = stack::carried_out(model, changes);
    states_ = stack::in_states(std::get<stack::Model>(stack::Model::of(job_)));
    find_columns();
}

stack::Station Marked::station(int part, const job::RingEnd& end) const {
    int face = end.face;
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

void Marked::read(const stack::Form& form, Demand& into) const {
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
    const auto& sizes = states_.front().sizes();
    const auto column = [&](auto is) {
        const auto found = std::find_if(sizes.begin(), sizes.end(), is);
        return found == sizes.end() ? -1 : static_cast<int>(found - sizes.begin());
    };
    const auto marked = [&](const char* what, std::size_t i) {
        const std::string words = fmt::format("\x01{} {}", what, i);
        return column([&](const stack::Variable& size) { return size.written == words; });
    };
    for (std::size_t w = 0; w < decided_.works.size(); ++w) {
        if (const auto* lap = std::get_if<ConeLap>(&decided_.works[w])) {
            const job::FeatureRef cone{.part = lap->part, .index = lap->lap->cone};
            const std::string label = job::cone_name(job_, cone) + " diameter";
            const int dia =
                column([&](const stack::Variable& size) { return size.label == label; });
            columns_[dia].push_back(
                {.on_seat = false, .index = w, .times = stack::lap_sign(job_, cone)});
        } else if (std::holds_alternative<FaceCut>(decided_.works[w])) {
            columns_[marked("work", w)].push_back({.on_seat = false, .index = w});
        }
    }
    for (std::size_t q = 0; q < decided_.seats.size(); ++q)
        columns_[marked("seat", q)].push_back({.on_seat = true, .index = q});
    columns_.erase(-1);
}

}  // namespace trialfit::plan
