// SPDX-License-Identifier: MIT
#include <trialfit/paper/check/text.hpp>
#include <trialfit/paper/check/why_text.hpp>
#include <trialfit/paper/document/text.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/plan/text.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/paper/spin/text.hpp>
#include <trialfit/paper/survey/text.hpp>
#include <trialfit/paper/timing/text.hpp>

// The texts, each the document of its answer. JSON and pages stand in sources of their own.
namespace trialfit::paper {

std::string check_text(const stack::CheckAnswer& answer, const Style& style,
                       const plan::PlanAnswer* cheapest) {
    return text_of(document_of(answer, style.all_rows, cheapest), style);
}

std::string why_text(const stack::WhyAnswer& answer, const Style& style) {
    return text_of(document_of(answer), style);
}

std::string odds_text(const stack::CheckAnswer& check, const odds::OddsAnswer& answer,
                      const Style& style) {
    return text_of(document_of(check, answer), style);
}

std::string plan_text(const plan::PlanAnswer& answer, const Style& style) {
    return text_of(document_of(answer), style);
}

std::string survey_text(const survey::SurveyAnswer& answer, const Style& style) {
    return text_of(document_of(answer), style);
}

std::string seat_text(const seat::SeatAnswer& answer, const Style& style) {
    return text_of(document_of(answer), style);
}

std::string spin_text(const spin::SpinAnswer& answer, const Style& style,
                      const plan::PlanAnswer* cheapest) {
    return text_of(document_of(answer, cheapest), style);
}

std::string timing_text(const timing::TimingAnswer& answer, const Style& style) {
    return text_of(document_of(answer), style);
}

}  // namespace trialfit::paper
