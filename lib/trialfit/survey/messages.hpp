// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/stack/messages.hpp>
#include <variant>

// What `survey` says beside its figures, as data; its words are in paper/words/.
namespace trialfit::survey {

/// A reading that a part's play matters to, and that does not say which way the part was pushed: it
/// is taken to lie anywhere in its play.
struct PushNotStated {
    std::string reading;
};

/// Nothing was measured after the work of that date, so the answer is of the parts as before it.
struct NothingMeasuredSince {
    std::string date;
};

/// A usual slip that an error looks like.
struct Slip {
    enum class Kind {
        misread,          ///< by `by`, in mm or inches
        turn_of_thimble,  ///< the same, of an inch micrometer
        wrong_sign,
        inch_as_mm,  ///< an inch figure written as millimetres
        mm_as_inch,
        faces_swapped,  ///< of a reading
    };
    Kind kind = Kind::misread;
    double by = 0.0;
    bool inches = false;  ///< `by` is in inches
};

/// The readings of before the last work in force contradict the sizes; what was read since says
/// nothing before they are mended, and the answer is about the parts as they were.
struct EarlierFirst {
    std::string date;  ///< of the work
};

/// A reading that does not say what touched, where unmeasured sizes leave open which of two ways
/// the parts lay in: it says nothing of the sizes.
struct ContactNotKnown {
    std::string reading;
    std::string one;  ///< "rotor.rim on plate.front", "seated"
    std::string other;
};

using Note =
    std::variant<stack::Note, PushNotStated, NothingMeasuredSince, EarlierFirst, ContactNotKnown>;

}  // namespace trialfit::survey
