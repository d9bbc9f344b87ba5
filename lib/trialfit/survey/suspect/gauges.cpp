// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/survey/suspect/gauges.hpp>

namespace trialfit::survey {

namespace {

using job::GaugeReads;
using stack::Measured;

bool says_so(const job::Gauge& gauge, Measured kind) {
    const auto says = [&](GaugeReads reads) {
        return std::ranges::find(gauge.reads, reads) != gauge.reads.end();
    };
    switch (kind) {
        case Measured::length:
            return says(GaugeReads::length) || says(GaugeReads::depth);
        case Measured::depth:
        case Measured::play:
            return says(GaugeReads::depth);
        case Measured::diameter:
            return says(GaugeReads::diameter);
        case Measured::lay:
        case Measured::other:
            break;
    }
    return false;
}

}  // namespace

const job::Gauge* finest_for(const stack::Model& model, Measured kind) {
    if (kind == Measured::lay || kind == Measured::other) return nullptr;
    const auto& gauges = model.job().gauges;
    const job::Gauge* finest = nullptr;
    for (std::size_t g = 0; g < gauges.size(); ++g) {
        const bool used = std::ranges::any_of(model.sizes(), [&](const stack::Variable& size) {
            return size.gauge == static_cast<int>(g) && size.measured == kind;
        });
        const bool reads = gauges[g].reads.empty() ? used : says_so(gauges[g], kind);
        if (reads && (finest == nullptr || gauges[g].half_width < finest->half_width))
            finest = &gauges[g];
    }
    return finest;
}

}  // namespace trialfit::survey
