// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <map>
#include <trialfit/reading/section/sections.hpp>
#include <tuple>

// How much of each kind a job may hold, so that every answer is there within seconds and within
// some hundred megabytes. Each lies far beyond a real job, and was found by timing all commands at
// it.
namespace trialfit::reading {

namespace {

constexpr std::size_t kMostTies = 60;
constexpr std::size_t kMostStates = 20;
constexpr std::size_t kMostPartsInStates = 1000;
constexpr std::size_t kMostRecordEntries = 100;
constexpr std::size_t kMostFacesInRecord = 20'000;
constexpr std::size_t kMostStock = 100;
constexpr int kMostShims = 20;
constexpr int kMostOnOneSeat = 100;

class Counter {
public:
    explicit Counter(Reader& reader) : reader_(reader), job_(reader.job) {}

    void count() {
        for (const job::Part& part : job_.parts)
            for (const job::Seat& seat : part.seats)
                if (seat.shims) shims(part, *seat.shims);
        on_one_seat();
        ties();
        states();
        record();
    }

private:
    void too_many(job::Place at, std::string fault, std::string mend) {
        reader_.faults.error(at, std::move(fault), std::move(mend));
    }

    void shims(const job::Part& part, const job::Shims& shims) {
        if (shims.stock.size() > kMostStock)
            too_many(shims.at,
                     fmt::format("too many thicknesses in the stock of part {}: {}",
                                 quoted(part.name), shims.stock.size()),
                     fmt::format("name at most {}", kMostStock));
        if (shims.at_most > kMostShims)
            too_many(shims.at,
                     fmt::format("too many shims on each other under part {}: {}",
                                 quoted(part.name), shims.at_most),
                     fmt::format("allow at most {}", kMostShims));
        if (shims.fitted.size() > kMostStock)
            too_many(
                shims.at,
                fmt::format("too many shims fitted under part {}: {}", quoted(part.name),
                            shims.fitted.size()),
                fmt::format("give at most {}, thick ones in the place of several", kMostStock));
    }

    // Parts in one place foul each other, every one each other one.
    void on_one_seat() {
        std::map<std::tuple<int, bool, int>, int> sitting;
        for (const job::Part& part : job_.parts)
            for (const job::Seat& seat : part.seats) {
                if (seat.below() < 0) continue;  // which is another fault
                const bool cone = seat.kind == job::SeatKind::cone_on_cone;
                const int place = cone ? int{seat.on_cone.index} : int{seat.against.face};
                if (++sitting[{seat.below(), cone, place}] != kMostOnOneSeat + 1) continue;
                too_many(seat.at,
                         fmt::format("too many parts sit against one place of {}: this is one more "
                                     "than {}",
                                     quoted(job_.parts[seat.below().at()].name), kMostOnOneSeat),
                         "what lies on one another sits each on the one below it");
            }
    }

    // Each further size of a face, each further seat and each reading is one more thing to
    // reconcile.
    void ties() {
        std::size_t ties = 0;
        const auto one_more = [&](job::Place at) {
            if (++ties != kMostTies + 1) return;
            too_many(
                at,
                fmt::format("too many sizes, seats and readings say a thing again: this is one "
                            "more than {}",
                            kMostTies),
                "give the mean of several in the place of each, as in \"[12.48, 12.50] by "
                "caliper\"");
        };
        for (const job::Part& part : job_.parts) {
            for (const job::Face& face : part.faces)
                for (std::size_t i = 1; i < face.dimensions.size(); ++i)
                    one_more(face.dimensions[i].distance.at);
            for (std::size_t i = 1; i < part.seats.size(); ++i)
                one_more(part.seats[i].at);
        }
        for (const job::Reading& reading : job_.readings)
            one_more(reading.at);
        for (const job::RecordEntry& entry : job_.record)
            for (const job::Reading& reading : entry.measured)
                one_more(reading.at);
    }

    void states() {
        const std::size_t states = job_.states.size();
        if (states > kMostStates)
            return too_many(job_.states[kMostStates].at, fmt::format("too many states: {}", states),
                            fmt::format("give at most {}", kMostStates));
        if (states > 1 && states * job_.parts.size() > kMostPartsInStates)
            too_many(job_.states.front().at,
                     fmt::format("too many states of too many parts: {} of {}", states,
                                 job_.parts.size()),
                     fmt::format("states times parts may come to {}", kMostPartsInStates));
    }

    void record() {
        const std::size_t entries = job_.record.size();
        if (entries > kMostRecordEntries)
            return too_many(job_.record[kMostRecordEntries].at,
                            fmt::format("too many entries in the record: {}", entries),
                            fmt::format("keep at most {}; write the sizes as they are now into the "
                                        "parts, and begin the record anew",
                                        kMostRecordEntries));
        std::size_t faces = 0;
        for (const job::Part& part : job_.parts)
            faces += part.faces.size() + part.rings.size();
        if (entries * faces > kMostFacesInRecord)
            too_many(
                job_.record.front().at,
                fmt::format("too many entries in the record for so many faces and rings: {} "
                            "for {}",
                            entries, faces),
                fmt::format("entries times faces and rings may come to {}", kMostFacesInRecord));
    }

    Reader& reader_;
    const job::Job& job_;
};

}  // namespace

void refuse_too_many(Reader& reader) {
    Counter(reader).count();
}

}  // namespace trialfit::reading
