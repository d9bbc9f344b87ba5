// SPDX-License-Identifier: MIT
// Makes a job in memory by names, sets its shims, and writes it as a job file. Invented data: a
// layshaft whose end float is set by shims under its thrust washer.
#include <iostream>
#include <trialfit/trialfit.hpp>

namespace {

trialfit::Expected<trialfit::job::Job> layshaft() {
    trialfit::JobBuilder job("Layshaft end float");
    job.gauge("depth_gauge", 0.02).gauge("micrometer", 0.005);
    job.part("case").zero("case.floor");
    job.face("case.joint", "80.00 by depth_gauge", "floor");
    job.ring("case.boss", {.from = "floor", .below = 6, .bore = "12", .od = "30"});
    job.part("layshaft", {.turns = true}).zero("layshaft.thrust_in");
    job.face("layshaft.thrust_out", "[76.415, 76.420, 76.425] by micrometer", "thrust_in");
    job.sits("layshaft.thrust_in", "case.floor");
    job.part("washer", {.turns = true}).zero("washer.under");
    job.face("washer.top", "1.50 +-0.02", "under");
    job.sits("washer.under", "layshaft.thrust_out",
             {.shim_stock = {"0.1", "0.2", "0.3", "0.5"}, .shims_hold = 0.01});
    job.part("cover").zero("cover.joint");
    job.face("cover.thrust", "-1.20 by depth_gauge", "joint");
    job.sits("cover.joint", "case.joint", {.shims_fitted = {"0.40 +-0.02"}});
    job.gap("end float", "washer.top", "cover.thrust",
            {.at_least = "0.05", .at_most = "0.35", .aim = "0.20"});
    return job.build();
}

// Every fault on a line of its own; none has a place, since the job has no text.
int refuse(const trialfit::job::Complaints& complaints) {
    for (const auto& each : complaints)
        std::cerr << each.fault << "; " << each.mend << '\n';
    return 2;
}

}  // namespace

int main() {
    const auto job = layshaft();
    if (!job) return refuse(job.complaints());
    const auto study = trialfit::Study::of(*job);
    if (!study) return refuse(study.complaints());
    const auto plan = study->plan({});
    if (!plan || plan->plans.empty()) return 1;
    std::string shims;
    for (const auto& stack : plan->plans.front().shims)
        for (const auto& piece :
             stack.part == "washer" ? stack.stack : std::vector<trialfit::plan::Piece>{})
            shims += (shims.empty() ? "" : " + ") + piece.written;
    const auto shimmed = study->with("washer.shims", shims);
    if (!shimmed) return refuse(shimmed.complaints());
    const auto why = shimmed->why("end float");
    const auto text = shimmed->yaml();
    if (!why || !text) return 1;
    std::cout << "# shims " << shims << ", end float " << why->value.worst.lo << " to "
              << why->value.worst.hi << '\n'
              << *text;
}
