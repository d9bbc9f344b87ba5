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
    std::string operator()(const survey::EarlierFirst& m) const {
        return fmt::format(
            "This is about the parts as they were before the work of {}: what was read before it "
            "disagrees, and what was read after it tells nothing until that is mended.",
            m.date);
    }
    std::string operator()(const survey::ContactNotKnown& m) const {
        return fmt::format(
            "'{}' is set aside: it does not say which faces touched, and sizes that nobody has "
            "measured leave it open ({}, or {}). Give it 'touching', or measure more.",
            m.reading, m.one, m.other);
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
