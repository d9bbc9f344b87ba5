// SPDX-License-Identifier: MIT
// What every harness stands on: how it is called, and what any printed answer is held to.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

// A harness is libFuzzer's entry where it is built with libFuzzer, else a function of that name,
// which replay_main.cpp calls.
#ifdef TRIALFIT_LIBFUZZER
#define TRIALFIT_HARNESS(name) \
    extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size)
#else
#define TRIALFIT_HARNESS(name) int name(const std::uint8_t* bytes, std::size_t size)
#endif

namespace trialfit::fuzz {

[[nodiscard]] inline std::string text_of(const std::uint8_t* bytes, std::size_t size) {
    return {bytes, bytes + size};
}

/// Ends the process, and says `what` should hold, where that is not so.
void hold(bool is_so, std::string_view what, std::string_view shown = {});

/// A printed answer: UTF-8, nothing that moves a cursor, and none of the words "nan" and "inf"
/// that the job itself does not use.
void hold_printed(std::string_view printed, std::string_view job);

/// Complaints and answers as JSON texts say the same: numbers to a billionth, places aside.
[[nodiscard]] bool same_json(std::string_view one, std::string_view other);

/// The pieces of `text` between lines that are `mark` and nothing else; at most `most`.
[[nodiscard]] std::vector<std::string> pieces(std::string_view text, std::string_view mark,
                                              std::size_t most);

}  // namespace trialfit::fuzz
