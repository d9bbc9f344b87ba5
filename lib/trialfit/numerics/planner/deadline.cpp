// SPDX-License-Identifier: MIT
#include <trialfit/numerics/planner/deadline.hpp>

#include <algorithm>

namespace trialfit::numerics {

double Deadline::seconds() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
}

bool Deadline::stopped() {
    if (watch_.stop != nullptr && watch_.stop->load()) stopped_ = true;
    if (watch_.seconds && seconds() > *watch_.seconds) stopped_ = true;
    return stopped_;
}

bool Deadline::stopped(const Progress& progress) {
    if (watch_.progress) {
        Progress timed = progress;
        timed.seconds = seconds();
        if (!watch_.progress(timed)) stopped_ = true;
    }
    return stopped();
}

Deadline Deadline::at_least(double seconds) const {
    SearchControl rest = watch_;
    if (rest.seconds) rest.seconds = std::max(*rest.seconds - this->seconds(), seconds);
    return Deadline(std::move(rest));
}

}  // namespace trialfit::numerics
