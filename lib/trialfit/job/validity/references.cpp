// SPDX-License-Identifier: MIT
#include <cstddef>
#include <string>
#include <trialfit/job/validity/references.hpp>
#include <utility>

namespace trialfit::job {

namespace {

template <typename List>
bool has(const List& list, int index) {
    return index >= 0 && static_cast<std::size_t>(index) < list.size();
}

class References {
public:
    explicit References(const Job& job) : job_(job) {}

    Complaints look() {
        for (const Part& part : job_.parts) {
            for (const Cut& cut : part.cuts)
                read_by(cut.read_by, cut.at, "a cut of part '" + part.name + "'");
            for (const Skim& skim : part.skims)
                read_by(skim.read_by, skim.at, "a skim of part '" + part.name + "'");
        }
        for (const RecordEntry& entry : job_.record)
            record(entry);
        return std::move(complaints_);
    }

private:
    void hold(bool sound, Place at, const std::string& what) {
        if (!sound)
            complaints_.push_back({.at = at,
                                   .fault = what + " is none that the job has",
                                   .mend = "give it the index of one that the job has"});
    }

    void read_by(std::optional<GaugeId> gauge, Place at, const std::string& work) {
        hold(!gauge || has(job_.gauges, *gauge), at, "the gauge that reads " + work);
    }

    void record(const RecordEntry& entry) {
        const auto part = [&](PartId index) {
            return has(job_.parts, index) ? &job_.parts[static_cast<std::size_t>(index)] : nullptr;
        };
        for (const RecordEntry::AsSkimmed& each : entry.as_skimmed) {
            const Part* const of = part(each.ring.part);
            hold(of != nullptr && has(of->rings, each.ring.index), entry.at,
                 "a ring skimmed by the record");
        }
        for (const RecordEntry::Lapped& each : entry.lapped) {
            const Part* const of = part(each.cone.part);
            hold(of != nullptr && has(of->cones, each.cone.index), entry.at,
                 "a cone lapped by the record");
        }
        for (const RecordEntry::Centred& each : entry.centred)
            hold(part(each.part) != nullptr, entry.at, "a part centred by the record");
    }

    const Job& job_;
    Complaints complaints_;
};

}  // namespace

Complaints lost_references(const Job& job) {
    return References(job).look();
}

}  // namespace trialfit::job
