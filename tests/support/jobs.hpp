// SPDX-License-Identifier: MIT
// Jobs made in memory, for tests that need no file.
#pragma once

#include <cstddef>
#include <string>
#include <trialfit/job/job.hpp>
#include <utility>
#include <vector>

namespace trialfit::testing {

inline job::Given given(double nominal, double half_width = 0.0) {
    return {.size = quantity::toleranced(nominal, -half_width, half_width), .written = "as tested"};
}

/// A part with its zero face, to which faces, rings and a seat are added by name.
class PartOf {
public:
    explicit PartOf(std::string name, std::string zero) {
        part_.name = std::move(name);
        part_.faces.push_back({.name = std::move(zero), .zero = true});
    }
    PartOf& turns() {
        part_.turns = true;
        return *this;
    }
    PartOf& face(const std::string& name, const job::Given& distance, const std::string& from) {
        const int at = index_of(name);
        const job::Dimension dimension{.distance = distance, .from = index_of(from)};
        if (at >= 0) {
            part_.faces[static_cast<std::size_t>(at)].dimensions.push_back(dimension);
        } else {
            part_.faces.push_back({.name = name, .dimensions = {dimension}});
        }
        return *this;
    }
    PartOf& ring(const std::string& name, const std::string& from, const std::string& to,
                 double bore, double od) {
        part_.rings.push_back({.name = name,
                               .inboard = {.face = index_of(from)},
                               .outboard = {.face = index_of(to)},
                               .bore = given(bore),
                               .outside = given(od)});
        return *this;
    }
    PartOf& cone(const std::string& name, const std::string& at, const job::Given& dia,
                 double taper, double length) {
        part_.cones.push_back({.name = name,
                               .at_face = index_of(at),
                               .dia = dia,
                               .taper = taper,
                               .length = given(length)});
        return *this;
    }
    PartOf& thread(const std::string& from, const std::string& to, const job::Given& lead_in,
                   const job::Given& run_out) {
        job::Thread thread{.name = "thread",
                           .from = index_of(from),
                           .to = index_of(to),
                           .lead_in = lead_in,
                           .run_out = run_out};
        thread.form.d_mm = 10.0;
        thread.form.pitch_mm = 1.25;
        part_.threads.push_back(thread);
        return *this;
    }
    PartOf& seat(job::Seat seat) {
        part_.seats.push_back(std::move(seat));
        return *this;
    }
    [[nodiscard]] operator job::Part() const { return part_; }  // NOLINT(*-explicit-*)

private:
    [[nodiscard]] int index_of(const std::string& name) const {
        for (std::size_t i = 0; i < part_.faces.size(); ++i) {
            if (part_.faces[i].name == name) return static_cast<int>(i);
        }
        return -1;
    }
    job::Part part_;
};

inline job::Seat on_face(job::FaceId own, job::FaceRef against) {
    return {.kind = job::SeatKind::face_on_face, .own = own, .against = against};
}

inline job::Seat on_cone(job::ConeId own, job::ConeRef on) {
    return {.kind = job::SeatKind::cone_on_cone, .own_cone = own, .on_cone = on};
}

/// `washers` washers, 1 +-0.01 thick, one on another on a floor.
inline job::Job pile(int washers) {
    job::Job job;
    job.parts.reserve(static_cast<std::size_t>(washers) + 1);
    job.parts.push_back(PartOf("floor", "top"));
    for (int i = 0; i < washers; ++i) {
        PartOf washer("washer" + std::to_string(i), "under");
        washer.face("top", given(1.0, 0.01), "under").ring("ring", "under", "top", 10.0, 20.0);
        washer.seat(on_face(0, {.part = i, .face = i == 0 ? 0 : 1}));
        job.parts.push_back(washer);
    }
    return job;
}

}  // namespace trialfit::testing
