// SPDX-License-Identifier: MIT
// Reads a job, gives one size another value, and prints a gap, its odds and the cheapest plan.
//   change_a_size examples/pump-engine.yaml stator.coil_out "11.2 +-0.1" "rotor clear of coils"
#include <iostream>
#include <trialfit/trialfit.hpp>

int main(int count, char** words) {
    if (count != 5) return 2;
    const auto refuse = [](const trialfit::job::Complaints& faults) {
        for (const auto& each : faults)
            std::cerr << each.at.line << ": " << each.fault << "; " << each.mend << '\n';
        return 2;
    };
    //! [use]
    const auto job = trialfit::Study::read_file(words[1]);
    if (!job) return refuse(job.complaints());
    const auto changed = job->with(words[2], words[3]);
    if (!changed) return refuse(changed.complaints());
    const auto why = changed->why(words[4]);
    const auto plan = changed->plan({.top = 1});
    if (!why || !plan) return refuse((why ? plan.complaints() : why.complaints()));
    std::cout << "gap " << why->value.nominal << ", odds " << why->odds.value_or(1.0) << '\n';
    for (const auto& cheapest : plan->plans)
        for (const auto& cut : cheapest.cuts)
            std::cout << cheapest.cost << ": cut " << cut.face << " to " << cut.finish << '\n';
    //! [use]
}
