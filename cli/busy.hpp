// SPDX-License-Identifier: MIT
#pragma once

#include <condition_variable>
#include <mutex>
#include <thread>

namespace trialfit::cli {

/// While it lives, a line on a terminal's standard error tells from the second second on that the
/// program is at work and for how long; it is wiped at the end. Elsewhere it does nothing.
class Busy {
public:
    Busy();
    Busy(const Busy&) = delete;
    Busy(Busy&&) = delete;
    Busy& operator=(const Busy&) = delete;
    Busy& operator=(Busy&&) = delete;
    ~Busy();

private:
    void tell_each_second();

    std::mutex guard_;
    std::condition_variable changed_;
    bool done_ = false;
    std::thread teller_;
};

/// What `work` gives, told of where it takes long.
template <typename Work>
[[nodiscard]] auto while_busy(const Work& work) {
    const Busy busy;
    return work();
}

}  // namespace trialfit::cli
