// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <trialfit/stack/tightened/joint.hpp>
#include <vector>

namespace trialfit::stack {

namespace {

using NutPair = std::pair<job::ThreadRef, job::ThreadRef>;  // the nut's thread, the shaft's

const job::Seat* cone_seat(const job::Part& part) {
    const auto found = std::ranges::find(part.seats, job::SeatKind::cone_on_cone, &job::Seat::kind);
    return found == part.seats.end() ? nullptr : &*found;
}

job::Complaint complaint(job::Place at, std::string fault, std::string mend) {
    return {.at = at, .fault = std::move(fault), .mend = std::move(mend)};
}

// What keeps two threads from screwing together; empty where nothing does.
std::string mismatch(const trade::ThreadForm& one, const trade::ThreadForm& other) {
    if (one.d_mm != other.d_mm)
        return fmt::format("their diameters are {:.6g} and {:.6g} mm", one.d_mm, other.d_mm);
    if (one.pitch_mm != other.pitch_mm)
        return fmt::format("their pitches are {:.6g} and {:.6g} mm", one.pitch_mm, other.pitch_mm);
    if (one.left_hand != other.left_hand) return "one is left-handed";
    if (one.tolerance && other.tolerance && one.tolerance->internal == other.tolerance->internal)
        return one.tolerance->internal ? "both are internal" : "both are external";
    return {};
}

class MemberFinder {
public:
    explicit MemberFinder(const job::Job& job) : job_(job), service_(*job.seat) {}

    std::variant<Members, job::Complaints> run() {
        find_hub();
        if (complaints_.empty()) find_threads();
        if (!complaints_.empty()) return complaints_;
        return found_;
    }

private:
    [[nodiscard]] const job::Part& part(job::PartId index) const {
        return job_.parts.at(index.at());
    }

    void find_hub() {
        std::vector<job::PartId> on_cones;
        for (const job::PartId i : job::indices(job_.parts))
            if (cone_seat(part(i)) != nullptr) on_cones.push_back(i);
        if (service_.hub) {
            if (cone_seat(part(*service_.hub)) == nullptr) {
                complaints_.push_back(complaint(
                    service_.at,
                    fmt::format("the hub '{}' does not sit on a cone", part(*service_.hub).name),
                    "name the part whose 'sits' has a cone"));
                return;
            }
            on_cones = {*service_.hub};
        }
        if (on_cones.empty()) {
            complaints_.push_back(complaint(service_.at,
                                            "'seat' asks about a cone, but no part sits on one",
                                            "write 'sits: {cone: CONE, against: part.cone}' for "
                                            "the hub"));
            return;
        }
        if (on_cones.size() > 1) {
            complaints_.push_back(
                complaint(service_.at,
                          fmt::format("parts '{}' and '{}' both sit on cones",
                                      part(on_cones[0]).name, part(on_cones[1]).name),
                          "say which one 'seat' is about with 'hub: PART'"));
            return;
        }
        found_.hub = on_cones.front();
        found_.seat = cone_seat(part(found_.hub));
        found_.shaft = found_.seat->on_cone.part;
    }

    [[nodiscard]] bool may_be_nut(job::PartId index) const {
        if (service_.nut) return index == service_.nut->part;
        return index > found_.hub && index != found_.shaft;
    }

    [[nodiscard]] std::vector<NutPair> pairs() const {
        std::vector<NutPair> all;
        for (const job::PartId p : job::indices(job_.parts)) {
            if (!may_be_nut(p)) continue;
            for (const job::ThreadId t : job::indices(part(p).threads)) {
                const job::ThreadRef own{p, t};
                if (service_.nut && own != *service_.nut) continue;
                for (const job::ThreadId s : job::indices(part(found_.shaft).threads))
                    all.emplace_back(own, job::ThreadRef{found_.shaft, s});
            }
        }
        return all;
    }

    [[nodiscard]] std::string mismatch_of(const NutPair& pair) const {
        return mismatch(job::at(job_, pair.first).form, job::at(job_, pair.second).form);
    }

    // An engagement that the job asks for says which threads belong together.
    [[nodiscard]] bool asked_for(const NutPair& pair) const {
        return std::ranges::any_of(job_.checks, [&](const job::Check& check) {
            const auto* engagement = std::get_if<job::EngagementOf>(&check.of);
            return engagement != nullptr &&
                   ((engagement->one == pair.first && engagement->other == pair.second) ||
                    (engagement->one == pair.second && engagement->other == pair.first));
        });
    }

    void find_threads() {
        const std::vector<NutPair> all = pairs();
        std::vector<NutPair> fit;
        std::ranges::copy_if(all, std::back_inserter(fit),
                             [&](const NutPair& pair) { return mismatch_of(pair).empty(); });
        if (fit.size() > 1) {
            const auto asked =
                std::ranges::find_if(fit, [&](const NutPair& pair) { return asked_for(pair); });
            if (asked != fit.end()) fit = {*asked};
        }
        if (fit.size() == 1) return take(fit.front());
        if (fit.size() > 1) {
            complaints_.push_back(complaint(
                service_.at,
                fmt::format("'{}' and '{}' could both draw '{}' home",
                            job::thread_name(job_, fit[0].first),
                            job::thread_name(job_, fit[1].first), part(found_.hub).name),
                "say which with 'nut: part.thread', or ask for its engagement in a check"));
            return;
        }
        complain_none(all);
    }

    void complain_none(const std::vector<NutPair>& all) {
        if (!all.empty()) {
            const NutPair& pair = all.front();
            complaints_.push_back(
                complaint(job::at(job_, pair.first).at,
                          fmt::format("'{}' ({}) does not screw on to '{}' ({}): {}",
                                      job::thread_name(job_, pair.first),
                                      job::at(job_, pair.first).form.written,
                                      job::thread_name(job_, pair.second),
                                      job::at(job_, pair.second).form.written, mismatch_of(pair)),
                          "mend the form of one of them"));
            return;
        }
        const bool shaft_has = !part(found_.shaft).threads.empty();
        complaints_.push_back(complaint(
            service_.at,
            shaft_has ? fmt::format("no part that goes on after '{}' has a thread to draw it home",
                                    part(found_.hub).name)
                      : fmt::format("'{}' has no thread to draw '{}' home by",
                                    part(found_.shaft).name, part(found_.hub).name),
            "write 'thread: {form: M10x1.25, from: FACE, to: FACE}' for nut and shaft"));
    }

    void take(const NutPair& pair) {
        found_.own = pair.first;
        found_.shafts = pair.second;
        found_.nut = pair.first.part;
        found_.threads = thread_pair(job_, {.one = pair.first, .other = pair.second});
    }

    const job::Job& job_;
    const job::SeatService& service_;
    Members found_;
    job::Complaints complaints_;
};

}  // namespace

std::variant<Members, job::Complaints> members_of(const job::Job& job) {
    return MemberFinder(job).run();
}

}  // namespace trialfit::stack
