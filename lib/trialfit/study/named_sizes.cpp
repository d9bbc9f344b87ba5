// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/job/former.hpp>
#include <trialfit/quantity/nearest.hpp>
#include <trialfit/reading/dates.hpp>
#include <trialfit/reading/size/given.hpp>
#include <trialfit/reading/size/size_text.hpp>
#include <trialfit/reading/write/size_words.hpp>
#include <trialfit/reading/yaml/tokens.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/study/named_sizes.hpp>
#include <utility>

namespace trialfit::study {

namespace {

using reading::Bare;

// A size of a job, where it stands. `least`: what it may not be less than, 0, or nothing.
struct NamedSize {
    std::string name;
    job::Given* given = nullptr;
    Bare bare = Bare::exact;
    /// Of a ring's diameter: whether it only describes.
    bool* describes = nullptr;
    /// Of a seat's shims: all of them, in place of one size.
    std::vector<job::Given>* shims = nullptr;
    double shim_holds = 0.0;
};

// Every size of a job by name. What the record has changed since stands in the record.
class NamedSizes {
public:
    explicit NamedSizes(job::Job& job) : job_(job) {
        for (const job::PartId part : job::indices(job_.parts))
            add_part(part);
        for (job::Reading& reading : job_.readings)
            add(reading.name, reading.is, Bare::general_tolerance);
        for (job::RecordEntry& entry : job_.record)
            for (job::Reading& reading : entry.measured)
                add(reading.name, reading.is, Bare::general_tolerance);
    }

    [[nodiscard]] std::vector<NamedSize>& all() { return all_; }

private:
    NamedSize& add(std::string name, job::Given& given, Bare bare) {
        return all_.emplace_back(NamedSize{.name = std::move(name), .given = &given, .bare = bare});
    }

    // The last entry of the record that says anything of what `same` asks for, and is done.
    template <typename Entries, typename Same>
    auto last(Entries job::RecordEntry::*entries, const Same& same) ->
        typename Entries::value_type* {
        typename Entries::value_type* found = nullptr;
        for (job::RecordEntry& entry : job_.record)
            for (auto& each : entry.*entries)
                if (!entry.planned && same(each)) found = &each;
        return found;
    }

    void add_part(job::PartId index) {
        job::Part& part = job_.parts[index.at()];
        for (const job::FaceId face : job::indices(part.faces))
            add_face(index, part, face);
        for (const job::RingId ring : job::indices(part.rings))
            add_ring(index, part, ring);
        for (job::Cone& cone : part.cones)
            add(part.name + "." + cone.name, cone.dia, Bare::general_tolerance);
        for (job::Thread& thread : part.threads) {
            const std::string name = part.name + "." + thread.name;
            add(name + ".lead_in", thread.lead_in, Bare::exact);
            add(name + ".run_out", thread.run_out, Bare::exact);
        }
        for (job::Seat& seat : part.seats)
            add_seat(index, part, seat);
        add_running(index, part);
    }

    void add_face(job::PartId index, job::Part& part, job::FaceId face_index) {
        job::Face& face = part.faces[face_index.at()];
        const std::string name = part.name + "." + face.name;
        auto* const cut = last(&job::RecordEntry::as_cut, [&](const job::RecordEntry::AsCut& each) {
            return each.face == job::FaceRef{index, face_index} && !each.by_amount;
        });
        if (cut != nullptr) {
            add(name, cut->size, Bare::general_tolerance);
            return;
        }
        for (job::Dimension& dimension : face.dimensions) {
            const std::string& from = part.faces[dimension.from.at()].name;
            add(face.dimensions.size() == 1 ? name
                                            : fmt::format("{} from {}.{}", name, part.name, from),
                dimension.distance, Bare::general_tolerance);
        }
    }

    void add_ring(job::PartId index, job::Part& part, job::RingId ring_index) {
        job::Ring& ring = part.rings[ring_index.at()];
        const std::string name = part.name + "." + ring.name;
        const auto skimmed = [&](bool bore) {
            return last(
                &job::RecordEntry::as_skimmed, [&](const job::RecordEntry::AsSkimmed& each) {
                    return each.ring == job::RingRef{index, ring_index} && each.bore == bore;
                });
        };
        const auto diameter = [&](bool bore, job::Given& given, bool& describes) {
            const std::string whole = name + (bore ? ".bore" : ".od");
            if (auto* const since = skimmed(bore))
                add(whole, since->size, Bare::general_tolerance);
            else
                add(whole, given, Bare::exact).describes = &describes;
        };
        diameter(true, ring.bore, ring.bore_bare);
        diameter(false, ring.outside, ring.outside_bare);
    }

    void add_seat(job::PartId index, job::Part& part, job::Seat& seat) {
        if (seat.offset) add(part.name + ".offset", *seat.offset, Bare::general_tolerance);
        if (seat.play) add(part.name + ".play", *seat.play, Bare::exact);
        if (!seat.shims) return;
        auto* const fitted =
            last(&job::RecordEntry::fitted,
                 [&](const job::RecordEntry::Fitted& each) { return each.part == index; });
        all_.push_back({.name = part.name + ".shims",
                        .shims = fitted != nullptr ? &fitted->shims : &seat.shims->fitted,
                        .shim_holds = seat.shims->holds});
    }

    void add_running(job::PartId index, job::Part& part) {
        if (part.centred && part.centred->by != job::CentredBy::cone) {
            auto* const centred =
                last(&job::RecordEntry::centred,
                     [&](const job::RecordEntry::Centred& each) { return each.part == index; });
            add(part.name + ".clearance",
                centred != nullptr ? centred->clearance : part.centred->clearance, Bare::exact);
        }
        for (job::Runout& runout : part.runout) {
            std::string name = part.name + ".runout";
            if (part.runout.size() > 1) name += " at " + part.faces[runout.face.value().at()].name;
            add(std::move(name), runout.is, Bare::exact);
        }
        if (part.face_runout) add(part.name + ".face_runout", part.face_runout->is, Bare::exact);
    }

    job::Job& job_;
    std::vector<NamedSize> all_;
};

job::Complaints one(std::string fault, std::string mend) {
    return {{.fault = std::move(fault), .mend = std::move(mend)}};
}

std::string in_quotes(std::string_view text) {
    constexpr std::size_t kLongest = 60;
    return fmt::format("'{}{}'", text.substr(0, kLongest), text.size() > kLongest ? "..." : "");
}

// A bare number moves the size with the limits that it had about it.
bool moved(const job::Job& job, std::string_view text, job::Given& given) {
    job::Job plain;
    plain.units = job.units;
    const auto number = reading::read_given(text, plain, Bare::exact);
    const std::string_view words = reading::trimmed(text);
    if (!number.given || number.given->size.is_unmeasured() || words.ends_with("exact") ||
        number.given->size.spread.shape != quantity::Shape::exact ||
        words.find("..") != std::string_view::npos)
        return false;
    quantity::Size& size = given.size;
    if (size.is_unmeasured()) return false;
    const double by = number.given->size.nominal - size.nominal;
    const bool no_limits = size.spread.shape == quantity::Shape::exact;
    size.nominal = number.given->size.nominal;
    size.lower = no_limits ? size.nominal : size.lower + by;
    size.upper = no_limits ? size.nominal : size.upper + by;
    // An exact number may stand bare where one does; all others get words of their own.
    given.written.clear();
    const std::string line = reading::SizeWords(job).line(given, Bare::exact);
    given.written = line.empty() ? std::string(words) : line;
    return true;
}

std::variant<job::Given, job::Complaints> read_one(const job::Job& job, std::string_view text,
                                                   Bare bare, std::string_view what) {
    auto read = reading::read_given(text, job, bare);
    if (read.given && read.given->size.is_unmeasured())
        return one(fmt::format("the size for {} is 'unmeasured', which is none", in_quotes(what)),
                   "give a figure, as in '12.5 ±0.05'");
    if (read.given) return std::move(*read.given);
    return one(fmt::format("the size for {}: {}", in_quotes(what), read.fault),
               std::move(read.mend));
}

// "0.5 + 0.3"; "none" for no shim at all.
job::Complaints set_shims(const job::Job& job, const NamedSize& of, std::string_view text) {
    std::vector<job::Given> shims;
    for (const std::string& piece : reading::pieces_of(text)) {
        auto shim = read_one(job, piece, Bare::exact, of.name);
        if (auto* const complaints = std::get_if<job::Complaints>(&shim)) return *complaints;
        auto& given = std::get<job::Given>(shim);
        const bool bare =
            given.size.spread.shape == quantity::Shape::exact && !given.written.ends_with("exact");
        if (bare && of.shim_holds > 0.0)
            given.size = quantity::toleranced(given.size.nominal, -of.shim_holds, of.shim_holds);
        if (given.size.lower <= 0.0)
            return one(fmt::format("a shim of {} for {} may be nothing at all",
                                   in_quotes(given.written), in_quotes(of.name)),
                       "give it a thickness greater than 0 at every limit");
        shims.push_back(std::move(given));
    }
    *of.shims = std::move(shims);
    return {};
}

job::Complaints set(const job::Job& job, const NamedSize& of, std::string_view text) {
    if (of.shims != nullptr) return set_shims(job, of, text);
    job::Given changed = *of.given;
    if (!moved(job, text, changed)) {
        auto read = read_one(job, text, of.bare, of.name);
        if (auto* const complaints = std::get_if<job::Complaints>(&read)) return *complaints;
        changed = std::move(std::get<job::Given>(read));
        if (of.describes != nullptr) *of.describes = false;
    }
    changed.at = of.given->at;
    *of.given = std::move(changed);
    return {};
}

}  // namespace

std::vector<std::string> size_names(const job::Job& job) {
    std::vector<std::string> names;
    for (SizeWritten& each : sizes_written(job))
        names.push_back(std::move(each.name));
    return names;
}

std::vector<SizeWritten> sizes_written(const job::Job& job) {
    job::Job copy = job;
    NamedSizes sizes(copy);
    std::vector<SizeWritten> out;
    for (const NamedSize& each : sizes.all()) {
        SizeWritten& size = out.emplace_back(SizeWritten{.name = each.name});
        if (each.given != nullptr) {
            size.written = each.given->written;
            size.sizes = {each.given->size};
            continue;
        }
        for (const job::Given& shim : *each.shims) {
            size.written += (size.written.empty() ? "" : " + ") + shim.written;
            size.sizes.push_back(shim.size);
        }
        if (size.sizes.empty()) size.written = "none";
    }
    return out;
}

std::variant<job::Job, job::Complaints> with_size(const job::Job& job, std::string_view what,
                                                  std::string_view size) {
    job::Job changed = job;
    NamedSizes sizes(changed);
    std::vector<NamedSize>& all = sizes.all();
    const auto named = [&](const NamedSize& each) { return each.name == what; };
    const auto found = std::ranges::find_if(all, named);
    if (found == all.end()) {
        const std::vector<std::string> names = size_names(job);
        const std::string meant = quantity::nearest(what, names);
        // Of a face with more than one size, the first of them.
        const auto longer = std::ranges::find_if(names, [&](const std::string& each) {
            return each.starts_with(fmt::format("{} ", what));
        });
        const std::string& near = meant.empty() && longer != names.end() ? *longer : meant;
        return one(fmt::format("no size of this job is called {}", in_quotes(what)),
                   near.empty() ? "name it like 'plate.front', a face that has a size"
                                : fmt::format("did you mean '{}'?", near));
    }
    if (std::ranges::count_if(all, named) > 1)
        return one(fmt::format("more than one size of this job is called {}", in_quotes(what)),
                   "give one of them another name");
    job::Complaints complaints = set(job, *found, size);
    if (!complaints.empty()) return complaints;
    return changed;
}

namespace {

// Metal does not grow, and what is left of it has a thickness.
job::Complaints against_cut(const job::Job& job, job::FaceRef face, const job::Cut& cut,
                            const job::Given& size) {
    const std::string name = job::name(job, face);
    if (size.size.lower <= 0.0)
        return one(
            fmt::format("the finish size of {} is {}", in_quotes(name), in_quotes(size.written)),
            "it is what remains from the face that the cut is measured from, and has no "
            "sign");
    const auto built = stack::as_built(job, job.record.size());
    if (const auto* const complaints = std::get_if<job::Complaints>(&built)) return *complaints;
    const auto& now = std::get<job::Job>(built);
    constexpr double kSame = 1e-9;
    const double most = job::greatest_thickness(now.parts[face.part.at()], cut);
    if (size.size.lower <= most + kSame) return {};
    return one(fmt::format("{} was at most {:.6g} before and is {} after the cut", in_quotes(name),
                           most, in_quotes(size.written)),
               "metal does not grow: mend the one that was measured wrong");
}

}  // namespace

std::variant<job::Job, job::Complaints> with_cut(const job::Job& job, std::string_view face,
                                                 std::string_view size, std::string date,
                                                 bool by_amount) {
    if (!reading::is_date(date))
        return one(fmt::format("{} is not a date", in_quotes(date)), "write it like '2026-11-25'");
    std::vector<std::string> names;
    for (const job::PartId part : job::indices(job.parts))
        for (const job::Cut& cut : job.parts[part.at()].cuts) {
            const job::FaceRef ref{part, cut.face};
            names.push_back(job::name(job, ref));
            if (names.back() != face) continue;
            auto read = read_one(job, size, Bare::exact, face);
            if (auto* const complaints = std::get_if<job::Complaints>(&read)) return *complaints;
            auto& given = std::get<job::Given>(read);
            if (given.size.spread.shape == quantity::Shape::exact &&
                !given.written.ends_with("exact")) {
                given.size = quantity::toleranced(given.size.nominal, -cut.holds, cut.holds);
                given.written.clear();
                given.written = reading::SizeWords(job).line(given, Bare::exact);
            }
            if (by_amount && given.size.lower <= 0.0)
                return one(fmt::format("what comes off {} is {}", in_quotes(face),
                                       in_quotes(given.written)),
                           "it must be greater than 0 at every limit");
            job::Complaints faults;
            if (!by_amount) faults = against_cut(job, ref, cut, given);
            if (!faults.empty()) return faults;
            job::Job changed = job;
            job::RecordEntry entry;
            entry.date = std::move(date);
            entry.as_cut.push_back({.face = ref, .size = std::move(given), .by_amount = by_amount});
            changed.record.push_back(std::move(entry));
            return changed;
        }
    const std::string near = quantity::nearest(face, names);
    return one(fmt::format("this job lists no cut of {}", in_quotes(face)),
               near.empty() ? "list it under the cuts of its part"
                            : fmt::format("did you mean '{}'?", near));
}

std::variant<job::Job, job::Complaints> with_shims(const job::Job& job, std::string_view part,
                                                   std::string_view shims, std::string date) {
    const std::string name = fmt::format("{}.shims", part);
    auto changed = with_size(job, name, shims);
    if (const auto* const complaints = std::get_if<job::Complaints>(&changed)) return *complaints;
    auto& stacked = std::get<job::Job>(changed);
    NamedSizes sizes(stacked);
    const auto of = std::ranges::find(sizes.all(), name, &NamedSize::name);
    job::RecordEntry entry;
    entry.date = std::move(date);
    for (const job::PartId p : job::indices(job.parts))
        if (job.parts[p.at()].name == part)
            entry.fitted.push_back({.part = p, .shims = *of->shims});
    job::Job now = job;
    now.record.push_back(std::move(entry));
    return now;
}

}  // namespace trialfit::study
