// SPDX-License-Identifier: MIT
#include <trialfit/plan/search/clock.hpp>

#include <algorithm>

namespace trialfit::plan {

double Clock::seconds() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
}

bool Clock::stopped() {
    if (watch_.stop != nullptr && watch_.stop->load()) stopped_ = true;
    if (watch_.seconds && seconds() > *watch_.seconds) stopped_ = true;
    return stopped_;
}

bool Clock::stopped(const Progress& progress) {
    if (watch_.progress) {
        Progress timed = progress;
        timed.seconds = seconds();
        if (!watch_.progress(timed)) stopped_ = true;
    }
    return stopped();
}

Clock Clock::at_least(double seconds) const {
    Watch rest = watch_;
    if (rest.seconds) rest.seconds = std::max(*rest.seconds - this->seconds(), seconds);
    return Clock(std::move(rest));
}

}  // namespace trialfit::plan
