// SPDX-License-Identifier: MIT
// Jobs with cuts, laps, skims, centring and shims at random, in which one kind of work changes what
// is asked of the others: skims that let rings pass one another, laps and cuts that take rings out
// of each other, overlaps that are negative as things stand, seats at an offset from a cut face.
#pragma once

#include <random>
#include <string>
#include <support/jobs.hpp>
#include <trialfit/job/job.hpp>
#include <utility>

namespace trialfit::testing {

class WorkedJob {
public:
    explicit WorkedJob(unsigned seed) : random_(seed) {}

    job::Job make() {
        job::Job job;
        job.running_clearance = 0.2;
        job.radial_clearance = 0.3;
        job.shim_cost = tenths(1, 4);
        job.parts.push_back(block());
        job.parts.push_back(plate());
        job.parts.push_back(stator());
        job.parts.push_back(rotor());
        add_checks(job);
        add_states(job);
        return job;
    }

private:
    static constexpr int kMostWorks = 4;

    double tenths(int least, int most) {
        return std::uniform_int_distribution<int>(least, most)(random_) / 10.0;
    }
    bool perhaps(double chance) { return std::bernoulli_distribution(chance)(random_); }
    bool may_work(double chance) {
        if (works_ == kMostWorks || !perhaps(chance)) return false;
        ++works_;
        return true;
    }

    job::Cut cut(int face, int measure, double now, double most) {
        return {.face = face,
                .measure = measure,
                .keep = now - 0.1 - most,
                .holds = 0.1 * std::uniform_int_distribution<int>(0, 1)(random_),
                .cost = tenths(3, 30),
                .cost_per_mm = tenths(0, 10)};
    }

    // Until less or more than it takes.
    job::Skim skim(int ring, bool bore, double until) {
        return {.ring = ring,
                .bore = bore,
                .until = until,
                .holds = 0.02,
                .cost = tenths(3, 30),
                .cost_per_mm = tenths(0, 5)};
    }

    // A post that stands higher than the plate's back; it may have a collar that ends there too.
    job::Part block() {
        PartOf made("block", "face");
        made.face("top", given(5.0, 0.1), "face")
            .face("nose", given(14.0 + tenths(-5, 25), 0.1), "face");
        post_ = 54.0 + tenths(0, 9);
        made.ring("post", "face", "top", 30, post_);
        if (perhaps(0.3)) made.ring("collar", "face", "top", 30, post_ + 1.0);
        made.cone("taper", "nose", given(25.0, 0.01), 0.2, 10);
        return made;
    }

    job::Part plate() {
        PartOf made("plate", "back");
        const bool past = perhaps(0.5);
        made.face("front", given(8.0, tenths(0, 1)), "back");
        const double bore = past ? 50.0 : 60.0;
        made.ring("disc", "back", "front", bore, 110);
        if (past && perhaps(0.3)) made.ring("lip", "back", "front", bore - 1.0, bore);
        made.seat(on_face(0, {.part = 0, .face = 0}));
        job::Part part = made;
        if (past) {
            ++works_;
            part.skims.push_back(skim(0, true, post_ + tenths(-3, 60)));
            if (part.rings.size() > 1) part.skims.push_back(skim(1, true, post_ + tenths(-3, 60)));
        }
        if (may_work(0.6)) part.cuts.push_back(cut(1, 0, 8.0, tenths(3, 20)));
        if (perhaps(0.3)) part.face_runout = job::FaceRunout{.is = given(0.1, 0.05), .dia = 100.0};
        return part;
    }

    job::Part stator() {
        PartOf made("stator", "base");
        made.face("out", given(6.0, tenths(0, 1)), "base");
        made.ring("core", "base", "out", 66, 80);
        job::Seat seat = on_face(0, {.part = 1, .face = 1});
        if (perhaps(0.6)) {
            job::Shims shims;
            shims.stock = {{.thickness = given(0.3)}, {.thickness = given(0.5, 0.05)}};
            shims.at_most = 2;
            if (perhaps(0.3)) shims.fitted = {given(0.2, 0.05)};
            seat.shims = shims;
        }
        made.seat(seat);
        job::Part part = made;
        if (may_work(0.3)) part.skims.push_back(skim(0, false, 80.0 - tenths(2, 12)));
        job::Centring centring{.by = job::CentredBy::bolts, .on = 0, .on_written = "block"};
        centring.clearance.size = quantity::toleranced(0.1, -0.1, tenths(0, 3));
        if (may_work(0.3)) {
            centring.centre_to = 0.04;
            centring.centre_cost = tenths(1, 10);
        }
        part.centred = centring;
        return part;
    }

    job::Part rotor() {
        const bool cone = perhaps(0.6);
        PartOf made("rotor", "hub");
        made.turns();
        made.face("web", given(4.0, 0.1), "hub").face("rim", given(-10.0, tenths(0, 1)), "web");
        made.ring("skirt", "rim", "web", 80.0 + tenths(4, 14), 100);
        if (cone) made.cone("bore", "hub", given(25.0 - tenths(-1, 1), 0.01), 0.2, 10);
        if (cone)
            made.seat(on_cone(0, {.part = 0, .index = 0}));
        else
            made.seat({.kind = job::SeatKind::face_at_offset,
                       .own = 0,
                       .against = {.part = perhaps(0.5) ? 1 : 0, .face = 1},
                       .offset = given(tenths(130, 200), 0.1)});
        job::Part part = made;
        part.rings[0].bore = given(part.rings[0].bore.size.nominal, 0.04);
        part.rings.push_back({.name = "plate",
                              .inboard = {.face = 1},
                              .outboard = {.face = 1, .beyond = 3.0},
                              .bore = given(26),
                              .outside = given(100)});
        if (cone && may_work(0.5))
            part.laps.push_back({.cone = 0, .at_most_on_diameter = 0.1, .cost = tenths(3, 20)});
        if (may_work(0.5)) part.cuts.push_back(cut(2, 1, 10.0, tenths(3, 25)));
        if (may_work(0.4))
            part.skims.push_back(skim(0, true, part.rings[0].bore.size.nominal + tenths(1, 12)));
        if (perhaps(0.5)) part.runout.push_back({.is = given(0.05, 0.05)});
        if (perhaps(0.3)) part.face_runout = job::FaceRunout{.is = given(0.1, 0.1), .dia = 90.0};
        return part;
    }

    static job::Limit limit(double value) { return {.value = value, .written = "tested"}; }

    void add_checks(job::Job& job) {
        job::Check over{.name = "rim over plate"};
        over.of = job::GapOf{.inboard = {.part = 1, .face = 1}, .outboard = {.part = 3, .face = 2}};
        over.at_least = limit(tenths(0, 6));
        if (perhaps(0.3)) over.at_most = limit(over.at_least->value + tenths(10, 60));
        job.checks.push_back(over);
        if (perhaps(0.6)) {
            job::Check spanned{.name = "core spanned"};
            spanned.of =
                job::OverlapOf{.of = {.part = 2, .index = 0}, .by = {.part = 3, .index = 0}};
            if (perhaps(0.7))
                spanned.at_least = limit(perhaps(0.5) ? 0.0 : tenths(0, 40));
            else
                spanned.at_most = limit(tenths(0, 60));
            job.checks.push_back(spanned);
        }
        if (perhaps(0.3)) {
            job::AirGap gap{.name = "air gap", .one = {2, 0}, .other = {3, 0}};
            gap.at_least = limit(tenths(1, 5));
            if (perhaps(0.5)) gap.at_most = limit(gap.at_least->value + tenths(3, 8));
            job.air_gaps.push_back(gap);
        }
        if (perhaps(0.4)) {
            job::AirGap gap{.name = "on the post", .one = {0, 0}, .other = {1, 0}};
            gap.at_least = limit(0.0);
            job.air_gaps.push_back(gap);
        }
    }

    // Aluminium is given by its expansion: 23e-6 per K.
    void add_states(job::Job& job) {
        if (!perhaps(0.2)) return;
        warm_ = true;
        job.parts[3].material = "aluminium";
        job.parts[0].material = "steel";
        job.parts[1].material = "aluminium";
        job.parts[2].material = "steel";
        job.states = {{.name = "fit", .all_c = 20.0}, {.name = "run", .all_c = 90.0}};
    }

    std::mt19937 random_;
    int works_ = 0;
    double post_ = 0.0;
    bool warm_ = false;
};

}  // namespace trialfit::testing
