// SPDX-License-Identifier: MIT
// Small jobs with cuts and shims at random, every length a tenth of a millimetre's multiple, so
// that the best plan lies on the grid of tenths and can be found by trying them all.
#pragma once

#include <random>
#include <string>
#include <support/jobs.hpp>
#include <trialfit/job/job.hpp>
#include <utility>

namespace trialfit::testing {

class RandomJob {
public:
    explicit RandomJob(unsigned seed) : random_(seed) {}

    /// A case, a plate and a stator on it with shims between, and a rotor held by its own bearing.
    job::Job make() {
        job::Job job;
        job.running_clearance = 0.2;
        job.shim_cost = tenths(1, 4);
        PartOf house("case", "floor");
        house.face("joint", given(30.0, 0.1), "floor").ring("wall", "floor", "joint", 100, 110);
        job.parts.push_back(house);
        job.parts.push_back(plate());
        job.parts.push_back(stator());
        job.parts.push_back(rotor());
        add_checks(job);
        return job;
    }

private:
    double tenths(int least, int most) {
        return std::uniform_int_distribution<int>(least, most)(random_) / 10.0;
    }
    bool perhaps(double chance) { return std::bernoulli_distribution(chance)(random_); }

    job::Cut cut(int face, int measure, double now) {
        return {.face = face,
                .measure = measure,
                .keep = now - 0.1 - tenths(1, 5),
                .holds = 0.1,
                .cost = tenths(3, 30),
                .cost_per_mm = tenths(1, 10)};
    }

    job::Part plate() {
        PartOf made("plate", "back");
        made.face("front", given(4.0, tenths(0, 2)), "back").ring("disc", "back", "front", 20, 90);
        made.seat(on_face(0, {.part = 0, .face = 0}));
        job::Part part = made;
        part.cuts.push_back(cut(1, 0, 4.0));
        return part;
    }

    job::Part stator() {
        PartOf made("stator", "base");
        made.face("carrier", given(3.0, tenths(0, 1)), "base");
        const bool from_base = perhaps(0.5);
        made.face("coil", given(from_base ? 6.0 : 3.0, tenths(0, 2)),
                  from_base ? "base" : "carrier");
        made.ring("carrier", "base", "carrier", 30, 80).ring("coils", "carrier", "coil", 40, 70);
        job::Seat seat = on_face(0, {.part = 1, .face = 1});
        job::Shims shims;
        shims.stock = {{.thickness = given(0.2)}, {.thickness = given(0.3, 0.1)}};
        if (perhaps(0.5)) shims.stock[0].pieces = 1;
        shims.at_most = 2;
        if (perhaps(0.4)) shims.fitted = {given(0.1, 0.1)};
        seat.shims = shims;
        made.seat(seat);
        job::Part part = made;
        part.cuts.push_back(cut(0, 1, 3.0));
        return part;
    }

    job::Part rotor() {
        PartOf made("rotor", "seat");
        made.turns();
        made.face("cup", given(10.0, 0.1), "seat").face("rim", given(-5.0, tenths(0, 2)), "cup");
        made.face("magnet_in", given(1.0, 0.1), "rim").face("magnet_out", given(4.0, 0.1), "rim");
        job::Part part = made;
        part.rings.push_back(ring("skirt", 2, 1, 84, 92));
        part.rings.push_back(ring("magnets", 3, 4, 80, 84));
        part.rings.push_back({.name = "web",
                              .inboard = {.face = 1},
                              .outboard = {.face = 1, .beyond = 3.0},
                              .bore = given(10),
                              .outside = given(92)});
        job::Seat seat{.kind = job::SeatKind::face_at_offset,
                       .own = 0,
                       .against = {.part = 0, .face = 0},
                       .offset = given(tenths(-2, 9), 0.1)};
        part.seats.push_back(seat);
        part.cuts.push_back(cut(2, 1, 5.0));
        return part;
    }

    static job::Ring ring(const std::string& name, int from, int to, double bore, double od) {
        return {.name = name,
                .inboard = {.face = from},
                .outboard = {.face = to},
                .bore = given(bore),
                .outside = given(od)};
    }

    static job::Limit limit(double value) { return {.value = value, .written = "tested"}; }

    void add_checks(job::Job& job) {
        job::Check over_coils{.name = "over the coils"};
        over_coils.of =
            job::GapOf{.inboard = {.part = 2, .face = 2}, .outboard = {.part = 3, .face = 1}};
        over_coils.at_least = limit(tenths(2, 6));
        if (perhaps(0.5)) over_coils.at_most = limit(over_coils.at_least->value + tenths(10, 20));
        job.checks.push_back(over_coils);
        if (perhaps(0.6)) {
            job::Check spanned{.name = "carrier spanned"};
            spanned.of =
                job::OverlapOf{.of = {.part = 2, .index = 1}, .by = {.part = 3, .index = 1}};
            spanned.at_least = limit(tenths(0, 12));
            job.checks.push_back(spanned);
        }
        if (perhaps(0.3)) {
            job::Check low{.name = "stator low enough"};
            low.of =
                job::GapOf{.inboard = {.part = 0, .face = 0}, .outboard = {.part = 2, .face = 1}};
            low.at_most = limit(7.0 + tenths(0, 8));
            job.checks.push_back(low);
        }
    }

    std::mt19937 random_;
};

}  // namespace trialfit::testing
