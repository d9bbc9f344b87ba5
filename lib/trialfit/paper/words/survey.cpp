// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/words/words.hpp>
#include <variant>

namespace trialfit::paper {

namespace {

struct SurveyNoteWords {
    std::string operator()(const stack::Note& m) const { return words(m); }
    std::string operator()(const survey::PushNotStated& m) const {
        return fmt::format(
            "'{}' does not say which way the crank was pushed, so it is taken to lie anywhere in "
            "its play. Push it one way, say so, and the reading tells more.",
            m.reading);
    }
    std::string operator()(const survey::NothingMeasuredSince& m) const {
        return fmt::format("Nothing was measured after the work of {}: the parts are as before it.",
                           m.date);
    }
};

}  // namespace

std::string words(const survey::Slip& slip) {
    using Kind = survey::Slip::Kind;
    switch (slip.kind) {
        case Kind::misread:
            return fmt::format("a misread of {:.3g} {}", slip.by, slip.inches ? "in" : "mm");
        case Kind::turn_of_thimble:
            return fmt::format("a misread of {:.3g} in, one turn of the thimble", slip.by);
        case Kind::wrong_sign:
            return "a wrong sign";
        case Kind::inch_as_mm:
            return "an inch figure written as millimetres";
        case Kind::mm_as_inch:
            return "a millimetre figure written as inches";
        case Kind::faces_swapped:
            break;
    }
    return "the two faces swapped";
}

std::string words(const survey::Note& note) {
    return std::visit(SurveyNoteWords{}, note);
}

}  // namespace trialfit::paper
