// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <trialfit/job/complaint.hpp>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/odds/answers.hpp>
#include <trialfit/plan/messages.hpp>
#include <trialfit/seat/answers.hpp>
#include <trialfit/sheet/sheet.hpp>
#include <trialfit/spin/messages.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/survey/answers.hpp>
#include <trialfit/timing/messages.hpp>
#include <vector>

// The sentences of all that the answers say beside their figures: one for each kind of message, the
// same in text, JSON and on the sheet. Names stand in them as the job file has them; whoever sets
// them makes them harmless. A kind of message without words does not compile.
namespace trialfit::paper {

/// What stands before an answer: a whole sentence or more, with its full stops.
[[nodiscard]] std::string words(const job::Warning& warning);
[[nodiscard]] std::string words(const stack::Warning& warning);
[[nodiscard]] std::string words(const seat::Warning& warning);

/// A whole sentence or more, with its full stops.
[[nodiscard]] std::string words(const stack::Note& note);
[[nodiscard]] std::string words(const odds::Note& note);
[[nodiscard]] std::string words(const seat::Note& note);
[[nodiscard]] std::string words(const survey::Note& note);
[[nodiscard]] std::string words(const plan::Note& note);
[[nodiscard]] std::string words(const timing::Note& note);
[[nodiscard]] std::string words(const spin::Note& note);

/// Why something is not judged, and what and why: "'stator': no material of rotor is given".
[[nodiscard]] std::string words(const stack::NotJudgedFor& reason);
[[nodiscard]] std::string words(const stack::NotJudged& message);
[[nodiscard]] std::string words(const seat::NotJudged& message);
[[nodiscard]] std::string words(timing::NotJudged message);
[[nodiscard]] std::string words(const spin::NotJudged& message);
/// "'rotor' has no rings".
[[nodiscard]] std::string words(const stack::NotCounted& message);

/// What is not assessed, without a full stop: "balance".
[[nodiscard]] std::string words(const stack::NotAssessed& message);
[[nodiscard]] std::string words(seat::NotAssessed message);
[[nodiscard]] std::string words(spin::NotAssessed message);
/// "runout of rotor".
[[nodiscard]] std::string words(const stack::NotGiven& missing);

/// The check's name, or "gap from plate.front to rotor.back" where no check names it.
[[nodiscard]] std::string name_of(const stack::WhyAnswer& answer);

/// The size's name, or "the sizes that the readings tie".
[[nodiscard]] std::string name_of(const odds::RiskDriver& driver);

/// What a hub lands on before its cone, without a full stop.
[[nodiscard]] std::string words(const seat::LandsFirst& message);
/// "plate.front cut to 5.21".
[[nodiscard]] std::string words(const sheet::WorkEntered& work);
/// "a misread of 1 mm", "a wrong sign".
[[nodiscard]] std::string words(const survey::Slip& slip);
/// "torque that the cone holds", "nut torque".
[[nodiscard]] std::string words(const seat::SeatFinding& finding);
[[nodiscard]] std::string words(const seat::Changed& changed);
[[nodiscard]] std::string words(seat::Quantity quantity);
/// "cone_torque": what programs know a finding by.
[[nodiscard]] std::string_view key(seat::FindingId id);

/// What to do about a complaint; empty where there is nothing to be said.
[[nodiscard]] std::string mend_of(const job::Complaint& complaint);

/// Each in words, in their order.
template <typename Message>
[[nodiscard]] std::vector<std::string> words(const std::vector<Message>& messages) {
    std::vector<std::string> all;
    all.reserve(messages.size());
    for (const Message& each : messages)
        all.push_back(words(each));
    return all;
}

/// In words, or empty.
template <typename Message>
[[nodiscard]] std::string words(const std::optional<Message>& message) {
    return message ? words(*message) : std::string();
}

}  // namespace trialfit::paper
