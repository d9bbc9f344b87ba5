// SPDX-License-Identifier: MIT
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>
#include <trialfit/reading/read.hpp>
#include <trialfit/sheet/trial_fit.hpp>
#include <variant>

namespace {

const char* word(trialfit::stack::Verdict verdict) {
    switch (verdict) {
        case trialfit::stack::Verdict::holds:
            return "holds";
        case trialfit::stack::Verdict::not_judged:
            return "not judged";
        case trialfit::stack::Verdict::doubtful:
            return "doubtful";
        case trialfit::stack::Verdict::fails:
            break;
    }
    return "fails";
}

}  // namespace

int main(int count, char** words) {
    if (count != 2) return 2;
    std::ifstream file(words[1], std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    const auto outcome = trialfit::reading::read_job(text, words[1]);
    if (!outcome.job) return 2;
    const auto found = trialfit::trial_fit(*outcome.job);
    const auto* answer = std::get_if<trialfit::stack::CheckAnswer>(&found);
    if (answer == nullptr) return 2;
    std::cout << word(answer->verdict) << '\n';
    if (answer->first_contact)
        std::cout << answer->first_contact->inboard << " meets " << answer->first_contact->outboard
                  << '\n';
}
