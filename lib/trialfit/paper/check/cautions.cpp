// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/document/text.hpp>
#include <trialfit/paper/text/words.hpp>

namespace trialfit::paper {

namespace {

using stack::Caution;

struct Told {
    Caution caution;
    std::string_view code;
    std::string_view brief;
    std::string_view whole;
    /// In the order of Work: judge, cut, sheet, tighten, time, record, start.
    std::array<bool, 7> at;
};

// Common practice of workshops, no source.
constexpr std::array kTold{
    Told{
        Caution::may_burst,
        "may_burst",
        "a cut or damaged rotor can burst",
        "These figures are about fit only. They do not say that a part is safe, may be run, or how "
        "fast. A flywheel or rotor that was cut, drilled, cracked or knocked can burst, and its "
        "pieces go through covers and people. Have a part that was cut checked for cracks and "
        "balanced before it runs.",
        {true, true, true, true, true, true, true}},
    Told{Caution::nut_works_loose,
         "nut_works_loose",
         "a nut that works loose frees the rotor",
         "A nut that works loose shears the key and throws the rotor. The key locates the hub, it "
         "does not drive it: the cone must hold. Cone and bore clean and dry: on oil a hub "
         "climbs and may split. The engine maker's torque; check the nut again when the engine has "
         "cooled.",
         {true, true, true, true, false, false, false}},
    Told{Caution::magnets,
         "magnets",
         "magnets trap fingers",
         "Magnets snap a rotor home: keep fingers out of the gap. Keep swarf away from them, and "
         "wipe rotor and stator clean before they go together.",
         {true, true, true, true, true, false, true}},
    Told{Caution::lathe,
         "lathe",
         "lathe work needs a guard and a firm hold",
         "At the lathe: guard and eye protection, no gloves or loose sleeves, the key out of the "
         "chuck. A thin plate bows in the chuck and a rotor is hard to hold: clamp it firmly, take "
         "light cuts, and measure before the last one.",
         {true, true, true, false, false, true, false}},
    Told{Caution::puller,
         "puller",
         "a hub jumps off its cone",
         "To take a hub off its cone, screw the puller in over its whole thread and use no hammer. "
         "A hub can jump off: leave the nut on by a few turns, and stand aside.",
         {true, false, true, true, false, false, false}},
    Told{Caution::spark_plug,
         "spark_plug",
         "spark plug out, high voltage, fuel",
         "Take the spark plug out before you turn the engine by hand, and earth its lead: the "
         "ignition's high voltage can kill. Keep fuel and its vapour away from sparks.",
         {true, false, true, false, true, false, true}},
    Told{Caution::running_engine,
         "running_engine",
         "turning parts without a cover",
         "An engine that runs without its cover throws what comes loose and catches sleeves, hair "
         "and leads. Under a strobe turning parts seem to stand still: keep hands away.",
         {true, false, true, false, true, false, true}},
    Told{Caution::advance,
         "advance",
         "too much advance kicks back",
         "Too much advance makes an engine kick back and can destroy it: begin with the maker's "
         "setting. Never tighten or loosen the nut against a piston stop.",
         {true, false, true, false, true, false, false}},
    Told{Caution::weight,
         "weight",
         "an added weight needs its own balance",
         "What turns faster or heavier stores more energy, all of which comes out at once where "
         "something breaks. An added weight needs its own balance, a nut that still has its whole "
         "thread on the shaft, and the leave of the engine's maker and of its own.",
         {true, false, true, false, false, true, true}},
    Told{Caution::maker,
         "maker",
         "the maker's figures come first",
         "The maker's figures come first where they differ from these. Whether a part may be cut "
         "at all, and whether the machine may be used afterwards, a licensed workshop and your "
         "local rules decide.",
         {true, true, true, true, true, true, true}},
};

const Told& told(Caution caution) {
    return *std::ranges::find(kTold, caution, &Told::caution);
}

}  // namespace

std::vector<Caution> called_for(const std::vector<Caution>& all, NextWork work) {
    std::vector<Caution> out;
    for (const Caution each : all)
        if (told(each).at.at(static_cast<std::size_t>(work))) out.push_back(each);
    return out;
}

std::string_view code(Caution caution) {
    return told(caution).code;
}

std::string_view words_of(Caution caution) {
    return told(caution).whole;
}

std::string_view in_brief(Caution caution) {
    return told(caution).brief;
}

std::vector<std::string> whole_cautions(const std::vector<Caution>& all, NextWork work) {
    std::vector<std::string> out;
    for (const Caution each : called_for(all, work))
        out.emplace_back(words_of(each));
    return out;
}

Cautions cautions_block(const std::vector<Caution>& all, NextWork work) {
    return {.heading = std::string(kCautionsHeading), .items = whole_cautions(all, work)};
}

std::string cautions_line(const std::vector<Caution>& all) {
    std::string out;
    for (const Caution each : all)
        out += fmt::format("{}{}", out.empty() ? "" : "; ", in_brief(each));
    return out.empty() ? out : fmt::format("Cautions: {}. `trialfit cautions` tells more.", out);
}

nlohmann::ordered_json cautions_json(const std::vector<Caution>& all, NextWork work) {
    auto out = nlohmann::ordered_json::array();
    for (const Caution each : called_for(all, work))
        out.push_back(code(each));
    return out;
}

std::string every_caution(const Style& style) {
    Document out;
    out.add(
        Paragraph{"What can hurt someone in this work. An answer names those that its job calls "
                  "for; all of them stand here."});
    for (const Told& each : kTold) {
        out.add(Heading{capital(std::string(each.brief))})
            .under(Paragraph{.text = std::string(each.whole), .indented = true});
    }
    return text_of(out, style);
}

std::string every_caution_json() {
    nlohmann::ordered_json out{{"trialfit", 1}, {"command", "cautions"}};
    out["cautions"] = nlohmann::ordered_json::array();
    for (const Told& each : kTold)
        out["cautions"].push_back({{"code", each.code}, {"text", each.whole}});
    return out.dump(2) + "\n";
}

}  // namespace trialfit::paper
