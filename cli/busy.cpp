// SPDX-License-Identifier: MIT
#include "busy.hpp"

#include <unistd.h>

#include <chrono>
#include <csignal>
#include <string>
#include <system_error>

#include "terminal.hpp"

namespace trialfit::cli {

Busy::Busy() {
    if (isatty(STDERR_FILENO) == 0) return;
    // Signals are for the thread that works: it knows when one has to wait.
    sigset_t all;
    sigset_t before;
    sigfillset(&all);
    pthread_sigmask(SIG_SETMASK, &all, &before);
    try {
        teller_ = std::thread([this] { tell_each_second(); });
    } catch (const std::system_error&) {  // no threads to be had: it works on untold
    }
    pthread_sigmask(SIG_SETMASK, &before, nullptr);
}

Busy::~Busy() {
    if (!teller_.joinable()) return;
    {
        const std::lock_guard lock(guard_);
        done_ = true;
    }
    changed_.notify_one();
    teller_.join();
}

void Busy::tell_each_second() {
    std::unique_lock lock(guard_);
    int seconds = 0;
    while (!changed_.wait_for(lock, std::chrono::seconds(1), [this] { return done_; }))
        tell("\r\x1b[K" + std::to_string(++seconds) + " s at work; Ctrl-C ends it");
    if (seconds > 0) tell("\r\x1b[K");
}

}  // namespace trialfit::cli
