// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <string_view>
#include <trialfit/reading/write/writer.hpp>
#include <trialfit/reading/yaml/tokens.hpp>
#include <variant>

// What a job asks of its parts, what was measured of them, and the nut.
namespace trialfit::reading {

namespace {

// A limit in the words that it was written in where these still say the same.
std::string limit_words(const Writer& writer, const job::Limit& limit) {
    constexpr double kPercent = 100.0;
    const auto counted = [&](std::string_view unit, double times) {
        const std::string_view text = limit.written;
        if (text.ends_with(unit)) {
            const auto figure = number_of(trimmed(text.substr(0, text.size() - unit.size())));
            if (figure && *figure / times == limit.value) return limit.written;
        }
        return fmt::format("{} {}", figures(limit.value * times), unit);
    };
    switch (limit.in) {
        case job::LimitIn::share:
            return counted("%", kPercent);
        case job::LimitIn::diameters:
            return counted("d", 1.0);
        case job::LimitIn::pitches:
            return counted("pitches", 1.0);
        case job::LimitIn::strength:
            return "strength";
        case job::LimitIn::length:
            break;
    }
    const job::Given length{.size = quantity::exact(limit.value), .written = limit.written};
    return writer.words.line(length, Bare::exact);
}

void write_limits(Writer& writer, const std::optional<job::Limit>& at_least,
                  const std::optional<job::Limit>& at_most) {
    if (at_least) writer.plain("at_least", limit_words(writer, *at_least));
    if (at_most) writer.plain("at_most", limit_words(writer, *at_most));
}

void write_pair(Writer& writer, std::string_view key, const std::string& one,
                const std::string& other) {
    writer.short_list(key);
    writer.out << one << other;
    writer.end_list();
}

class AskedOf {
public:
    explicit AskedOf(Writer& writer) : writer_(writer), job_(writer.job) {}

    void operator()(const job::GapOf& of) {
        write_pair(writer_, "gap", job::name(job_, of.inboard), job::name(job_, of.outboard));
    }
    void operator()(const job::EngagementOf& of) {
        write_pair(writer_, "engagement", job::thread_name(job_, of.one),
                   job::thread_name(job_, of.other));
    }
    void operator()(const job::OverlapOf& of) {
        writer_.short_map("overlap");
        writer_.plain("of", job::ring_name(job_, of.of));
        writer_.plain("by", job::ring_name(job_, of.by));
        writer_.end_map();
    }
    void operator()(const job::ClampOf& /*of*/) {
        writer_.refuse("a check on a clamp is the program's own and has no words in a job",
                       "take it away: the answers ask for it by themselves");
    }

private:
    Writer& writer_;
    const job::Job& job_;
};

// The entries of a map that is begun already.
void write_reading(Writer& writer, const job::Reading& reading) {
    writer.text("reading", reading.name);
    writer.plain("from", job::name(writer.job, reading.from));
    writer.plain("to", job::name(writer.job, reading.to));
    writer.size("is", reading.is, Bare::general_tolerance,
                fmt::format("reading '{}'", reading.name));
    if (!reading.fitted.empty()) {
        writer.short_list("fitted");
        for (const job::PartId part : reading.fitted)
            writer.text(writer.part(part).name);
        writer.end_list();
    }
    writer.pushed(reading.pushed);
    if (reading.touching)
        write_pair(writer, "touching", job::name(writer.job, reading.touching->inboard),
                   job::name(writer.job, reading.touching->outboard));
}

void write_round(Writer& writer, const job::FeelerRound& round) {
    const auto degrees = [](double figure) { return figures(figure) + " deg"; };
    writer.short_map();
    if (round.rotor_said) writer.plain("rotor_at", degrees(round.rotor_deg));
    if (round.height) writer.plain("at", job::name(writer.job, *round.height));
    if (round.below != 0.0) writer.number("below", round.below);
    writer.short_list("clock");
    for (const job::FeelerGap& gap : round.gaps)
        writer.out << degrees(gap.clock_deg);
    writer.end_list();
    writer.short_list("gaps");
    for (const job::FeelerGap& gap : round.gaps)
        writer.out << (gap.least == gap.most
                           ? figures(gap.least)
                           : fmt::format("{}..{}", figures(gap.least), figures(gap.most)));
    writer.end_list();
    writer.end_map();
}

}  // namespace

void write_checks(Writer& writer) {
    const job::Job& job = writer.job;
    if (job.checks.empty() && job.air_gaps.empty()) return;
    writer.list("checks");
    for (const job::Check& check : job.checks) {
        writer.short_map();
        writer.text("check", check.name);
        std::visit(AskedOf(writer), check.of);
        write_limits(writer, check.at_least, check.at_most);
        if (check.aim) writer.plain("aim", limit_words(writer, *check.aim));
        writer.end_map();
    }
    for (const job::AirGap& gap : job.air_gaps) {
        writer.short_map();
        writer.text("check", gap.name);
        write_pair(writer, "air_gap", job::ring_name(job, gap.one), job::ring_name(job, gap.other));
        write_limits(writer, gap.at_least, gap.at_most);
        writer.end_map();
    }
    writer.end_list();
}

void write_readings(Writer& writer, std::string_view key, const std::vector<job::Reading>& all) {
    writer.list_of(key, all, [&](const job::Reading& each) { write_reading(writer, each); });
}

void write_feelers(Writer& writer) {
    if (writer.job.feelers.empty()) return;
    writer.list("feelers");
    for (const job::Feelers& feelers : writer.job.feelers) {
        writer.out << YAML::BeginMap;
        writer.text("feeler", feelers.name);
        write_pair(writer, "between", job::ring_name(writer.job, feelers.still),
                   job::ring_name(writer.job, feelers.turning));
        writer.gauge("by", feelers.gauge);
        writer.list("rounds");
        for (const job::FeelerRound& round : feelers.rounds)
            write_round(writer, round);
        writer.end_list();
        writer.end_map();
    }
    writer.end_list();
}

void write_service(Writer& writer) {
    if (!writer.job.seat) return;
    const job::SeatService& seat = *writer.job.seat;
    writer.map("seat");
    if (seat.hub) writer.text("hub", writer.part(*seat.hub).name);
    if (seat.nut) writer.plain("nut", job::thread_name(writer.job, *seat.nut));
    writer.span("nut_torque", seat.nut_torque_nm, "N m");
    writer.span("thread_friction", seat.thread_friction, "");
    writer.span("under_nut_friction", seat.under_nut_friction, "");
    writer.span("cone_friction", seat.cone_friction, "");
    writer.span("engine_torque", seat.engine_torque_nm, "N m");
    writer.span("crank_acceleration", seat.crank_acceleration_rad_s2, "rad/s2");
    writer.span("speed", seat.speed_rpm, "rpm");
    writer.end_map();
}

}  // namespace trialfit::reading
