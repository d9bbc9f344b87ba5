// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <atomic>
#include <cstdint>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace trialfit::numerics {

/// work(chunk) for first <= chunk < first + count on several threads; the results in the order of
/// the chunks, so that what is merged from them does not hang on the number of threads. What any
/// work throws is thrown on, once all threads are home.
template <typename Result, typename Work>
std::vector<Result> parallel_chunks(std::uint64_t first, std::uint64_t count, unsigned threads,
                                    const Work& work) {
    std::vector<Result> results(count);
    std::atomic<std::uint64_t> next = 0;
    std::exception_ptr failure;
    std::mutex failing;
    const auto run = [&] {
        try {
            for (std::uint64_t i = next++; i < count; i = next++)
                results[i] = work(first + i);
        } catch (...) {
            next = count;
            const std::scoped_lock lock(failing);
            failure = std::current_exception();
        }
    };
    const auto helpers = std::min<std::uint64_t>(threads, count);
    {
        std::vector<std::jthread> crew;
        for (std::uint64_t i = 1; i < helpers; ++i)
            crew.emplace_back(run);
        run();
    }
    if (failure) std::rethrow_exception(failure);
    return results;
}

}  // namespace trialfit::numerics
