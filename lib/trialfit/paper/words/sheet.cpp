// SPDX-License-Identifier: MIT
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

std::string entered_in_words(const sheet::WorkEntered& work) {
    using Kind = sheet::WorkEntered::Kind;
    switch (work.kind) {
        case Kind::cut:
            return work.what + " cut to " + work.size;
        case Kind::taken_off:
            return work.size + " off " + work.what;
        case Kind::skim:
            return work.what + " skimmed to " + work.size;
        case Kind::lap:
            return work.what + " lapped by " + work.size;
        case Kind::centring:
            return work.what + " centred to " + work.size;
        case Kind::shims:
            return work.what + ": " + (work.size.empty() ? "no shims" : "shims " + work.size);
        case Kind::measurement:
            break;
    }
    return work.what + ": " + work.size;
}

}  // namespace

std::string words(const sheet::WorkEntered& work) {
    return (work.planned ? "planned, not done: " : "") + entered_in_words(work);
}

}  // namespace trialfit::paper
