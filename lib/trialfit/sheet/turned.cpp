// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/plan/order_of_work.hpp>
#include <trialfit/sheet/turned.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/model/model.hpp>
#include <utility>
#include <variant>

namespace trialfit::sheet {

std::string letter_of(std::size_t n) {
    constexpr std::size_t kLetters = 26;
    std::string out(1, static_cast<char>('A' + n % kLetters));
    return n < kLetters ? out : fmt::format("{}{}", out, n / kLetters);
}

std::vector<draw::Lettered> turned_parts(const stack::Model& model, const plan::PlanMade& plan) {
    const std::vector<plan::CutMade> cuts = plan::in_order_of_work(plan);
    std::vector<std::string> letters;
    letters.reserve(cuts.size() + plan.skims.size());  // they are pointed to
    std::vector<draw::LetterAt> at;
    for (const plan::CutMade& cut : cuts) {
        letters.push_back(letter_of(letters.size()));
        at.push_back({.letter = letters.back(), .from = cut.from, .to = cut.face});
    }
    for (const plan::SkimMade& skim : plan.skims) {
        letters.push_back(letter_of(letters.size()));
        at.push_back(
            {.letter = letters.back(), .from = skim.ring, .to = skim.bore ? "bore" : "od"});
    }
    if (at.empty()) return {};
    auto drawn = draw::lettered(stack::carried_out(model, plan.changes), at);
    auto* const pictures = std::get_if<std::vector<draw::Lettered>>(&drawn);
    if (pictures == nullptr) return {};
    std::erase_if(*pictures, [](const draw::Lettered& each) { return each.part.empty(); });
    return std::move(*pictures);
}

}  // namespace trialfit::sheet
