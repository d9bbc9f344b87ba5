// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <string>
#include <trialfit/stack/model/general_tolerance.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/model/radial_sizes.hpp>
#include <utility>

namespace trialfit::stack {

namespace {

using Role = job::SizeRole;

class Adding {
public:
    Adding(const job::Job& job, std::vector<Variable>& sizes) : job_(job), sizes_(sizes) {}

    RadialSizes run() {
        for (const job::PartId p : job::indices(job_.parts)) {
            add_centring(p);
            add_rings(p);
        }
        return std::move(radial_);
    }

private:
    int add(job::SizeId id, const job::Given& given, std::string label) {
        sizes_.push_back({.id = id,
                          .size = given.size,
                          .label = std::move(label),
                          .written = given.written,
                          .at = given.at,
                          .gauge = given.gauge});
        return static_cast<int>(sizes_.size()) - 1;
    }

    void add_centring(job::PartId p) {
        const job::Part& part = job_.parts[at(p)];
        const auto& centred = part.centred;
        const bool has_clearance = centred && centred->by != job::CentredBy::cone;
        radial_.centring.push_back(
            has_clearance ? add({Role::centring_clearance, p}, centred->clearance,
                                fmt::format("{} of {} on {}",
                                            centred->by == job::CentredBy::bearing ? "radial play"
                                                                                   : "clearance",
                                            part.name, centred->on_written))
                          : -1);
        auto& runouts = radial_.runout.emplace_back();
        for (const job::Runout& out : part.runout) {
            const std::string at_face =
                out.face ? " at " + job::name(job_, job::FaceRef{p, *out.face}) : "";
            const job::SizeId id{Role::runout, p, 0, static_cast<int>(runouts.size())};
            runouts.push_back(add(id, out.is, "runout of " + part.name + at_face));
        }
        radial_.face_runout.push_back(
            part.face_runout
                ? add({Role::face_runout, p}, part.face_runout->is, "face runout of " + part.name)
                : -1);
    }

    void add_rings(job::PartId p) {
        auto& bores = radial_.bore.emplace_back();
        auto& outsides = radial_.outside.emplace_back();
        const job::Part& part = job_.parts[at(p)];
        for (const job::RingId r : job::indices(part.rings)) {
            const job::Ring& ring = part.rings[at(r)];
            const std::string name = job::ring_name(job_, {p, r});
            bores.push_back(add_diameter(
                {Role::ring_bore, p, r},
                under_general_tolerance(job_, part, ring.bore, ring.bore_bare), name + " bore"));
            outsides.push_back(
                add_diameter({Role::ring_outside, p, r},
                             under_general_tolerance(job_, part, ring.outside, ring.outside_bare),
                             name + " od"));
        }
    }

    int add_diameter(job::SizeId id, const job::Given& given, std::string label) {
        const int size = add(id, given, std::move(label));
        sizes_.back().grows_with = id.part;
        sizes_.back().measured = Measured::diameter;
        return size;
    }

    const job::Job& job_;
    std::vector<Variable>& sizes_;
    RadialSizes radial_;
};

}  // namespace

RadialSizes radial_sizes(const job::Job& job, std::vector<Variable>& sizes) {
    return Adding(job, sizes).run();
}

}  // namespace trialfit::stack
