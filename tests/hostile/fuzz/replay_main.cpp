// SPDX-License-Identifier: MIT
// Gives a harness each of the files, and all files of the folders, that are named: what libFuzzer
// found or begins with, under any compiler. What is not held ends the process.
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "harness.hpp"

namespace trialfit::fuzz {

int reading_harness(const std::uint8_t* bytes, std::size_t size);
int answers_harness(const std::uint8_t* bytes, std::size_t size);
int edits_harness(const std::uint8_t* bytes, std::size_t size);
int table_harness(const std::uint8_t* bytes, std::size_t size);
int joins_harness(const std::uint8_t* bytes, std::size_t size);

namespace {

using Harness = int (*)(const std::uint8_t*, std::size_t);

Harness harness_named(std::string_view name) {
    if (name == "reading") return reading_harness;
    if (name == "answers") return answers_harness;
    if (name == "edits") return edits_harness;
    if (name == "table") return table_harness;
    return name == "joins" ? joins_harness : nullptr;
}

std::vector<std::filesystem::path> files_of(const std::filesystem::path& path) {
    std::vector<std::filesystem::path> files;
    if (!std::filesystem::is_directory(path)) {
        if (std::filesystem::exists(path)) files.push_back(path);
        return files;
    }
    for (const auto& each : std::filesystem::recursive_directory_iterator(path))
        if (each.is_regular_file()) files.push_back(each.path());
    std::sort(files.begin(), files.end());
    return files;
}

// To be read in the last line where the process ends here.
void replay(Harness harness, const std::filesystem::path& file) {
    std::fprintf(stderr, "%s\n", file.c_str());
    std::ifstream stream(file, std::ios::binary);
    const std::string text(std::istreambuf_iterator<char>(stream), {});
    const std::vector<std::uint8_t> bytes(text.begin(), text.end());
    harness(bytes.data(), bytes.size());
}

}  // namespace

}  // namespace trialfit::fuzz

int main(int count, char** words) {
    const std::vector<std::string> given(words, words + count);
    const auto harness = count < 3 ? nullptr : trialfit::fuzz::harness_named(given[1]);
    if (harness == nullptr) {
        std::fprintf(stderr, "replay HARNESS FILE...\n");
        return 2;
    }
    std::size_t done = 0;
    for (std::size_t i = 2; i < given.size(); ++i)
        for (const auto& file : trialfit::fuzz::files_of(given[i])) {
            trialfit::fuzz::replay(harness, file);
            ++done;
        }
    std::printf("%zu inputs held\n", done);
    return done == 0 ? 2 : 0;
}
