// SPDX-License-Identifier: MIT

#include <algorithm>
#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <trialfit/job/former.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/model/index.hpp>
#include <utility>
#include <vector>

namespace trialfit::stack {

namespace {

using Iterator = Eigen::SparseVector<double>::InnerIterator;

using Role = job::SizeRole;

// Whether a size belongs to the part's seat, or to the cones that sit on each other there.
bool of_seat(job::SizeId size, job::PartId part, job::SeatId s, const job::Seat& seat) {
    switch (size.role) {
        case Role::seat_offset:
        case Role::shim:
        case Role::play:
        case Role::place_in_play:
        case Role::key_height:
        case Role::key_room:
        case Role::key_stand_off:
            return size.part == part && size.index == s;
        case Role::cone_diameter:
        case Role::cone_length:
            return seat.kind == job::SeatKind::cone_on_cone &&
                   ((size.part == part && size.index == int{seat.own_cone}) ||
                    (size.part == seat.on_cone.part && size.index == int{seat.on_cone.index}));
        default:
            return false;
    }
}

// Whether the way over a seat is that seat's own step and nothing else.
bool steps_over(const Model& model, job::PartId part, job::SeatId s) {
    const job::Part& own = model.job().parts.at(at(part));
    const job::Seat& seat = own.seats.at(at(s));
    job::FaceRef from = seat.against;
    job::FaceRef to{.part = part, .face = seat.own};
    if (seat.kind == job::SeatKind::cone_on_cone) {
        from = {seat.on_cone.part, job::at(model.job(), seat.on_cone).at_face};
        to.face = own.cones.at(at(seat.own_cone)).at_face;
    }
    const Form way = model.gap({.face = from}, {.face = to});
    for (Iterator it(way.sensitivities); it; ++it)
        if (!of_seat(model.sizes()[at(it.index())].id, part, s, seat)) return false;
    return seat.kind == job::SeatKind::face_on_face || way.sensitivities.nonZeros() > 0;
}

class Carrier {
public:
    explicit Carrier(const Model& before) : before_(before), job_(before.job()) {}

    job::Job run(const Changes& changes) {
        job_.carried = {};
        restack(changes);
        for (const LappedBy& lap : changes.laps)
            take_off(lap);
        for (const CutTo& cut : changes.cuts)
            make(cut);
        for (const SkimmedTo& skim : changes.skims)
            turn(skim);
        for (const CentredTo& to : changes.centrings)
            centre(to);
        keep_holding_seats();
        return std::move(job_);
    }

private:
    job::Part& part(job::PartId index) { return job_.parts.at(at(index)); }

    void restack(const Changes& changes) {
        std::vector<std::pair<job::SizeId, job::Given>> out;
        for (const Restacked& each : changes.stacks) {
            std::optional<job::Shims>& shims = part(each.part).seats.at(at(each.seat)).shims;
            if (!shims) shims.emplace();
            const auto id = [&](std::size_t nth) {
                return job::SizeId{Role::shim, each.part, each.seat, static_cast<int>(nth)};
            };
            std::vector<bool> stays(shims->fitted.size(), false);
            std::vector<job::Given> laid;
            for (const ShimLaid& shim : each.shims) {
                if (shim.fitted) {
                    stays.at(*shim.fitted) = true;
                    keep(id(*shim.fitted), id(laid.size()));
                } else {
                    make(id(laid.size()));
                }
                laid.push_back(shim.shim);
            }
            for (std::size_t i = 0; i < stays.size(); ++i)
                if (!stays[i]) out.emplace_back(id(i), shims->fitted[i]);
            shims->fitted = std::move(laid);
        }
        for (const auto& [id, shim] : out)
            job_.carried.dropped.insert(id);
        if (!out.empty() && (!before_.ties().empty() || !job_.readings.empty())) lay_aside(out);
    }

    // Readings taken with a shim fitted still say something of its thickness when it is out.
    void lay_aside(const std::vector<std::pair<job::SizeId, job::Given>>& shims) {
        job::Part aside;
        aside.name = "shims taken out";
        aside.faces.push_back({.name = "zero", .at = {}, .zero = true, .dimensions = {}});
        const auto number = static_cast<int>(job_.parts.size());
        for (const auto& [id, shim] : shims) {
            keep(id, {Role::dimension, number, static_cast<int>(aside.faces.size())});
            aside.faces.push_back({.name = "shim",
                                   .at = {},
                                   .zero = false,
                                   .dimensions = {{.distance = shim, .from = 0}}});
        }
        int root = 0;
        while (!part(root).seats.empty())
            ++root;
        aside.seats.push_back({.kind = job::SeatKind::face_on_face,
                               .at = {},
                               .own = 0,
                               .against = {.part = root, .face = 0},
                               .own_cone = {},
                               .on_cone = {},
                               .offset = {},
                               .play = {},
                               .shims = {},
                               .key = {}});
        job_.parts.push_back(std::move(aside));
    }

    void take_off(const LappedBy& lap) {
        part(lap.cone.part).cones.at(at(lap.cone.index)).dia.size = lapped(job_, lap);
    }

    void turn(const SkimmedTo& skim) {
        job::Ring& ring = part(skim.ring.part).rings.at(at(skim.ring.index));
        const job::SizeId id{skim.bore ? Role::ring_bore : Role::ring_outside, skim.ring.part,
                             skim.ring.index};
        job_.carried.dropped.insert(id);
        make(id);
        (skim.bore ? ring.bore : ring.outside) = skim.size;
        (skim.bore ? ring.bore_bare : ring.outside_bare) = false;
    }

    void centre(const CentredTo& to) {
        if (!part(to.part).centred) return;
        part(to.part).centred->clearance = to.clearance;
        job_.carried.dropped.insert({Role::centring_clearance, to.part});
        make({Role::centring_clearance, to.part});
    }

    void make(const CutTo& cut) {
        job::Part& cut_part = part(cut.part);
        const job::FaceId old{cut_part.faces.size()};
        const std::string name = job::former_name(cut_part, cut.face);
        cut_part.faces.push_back(cut_part.faces.at(at(cut.face)));
        cut_part.faces.back().name = name;
        job::Face& face = cut_part.faces.at(at(cut.face));
        for (int d = 0; d < static_cast<int>(face.dimensions.size()); ++d)
            keep({Role::dimension, cut.part, cut.face, d}, {Role::dimension, cut.part, old, d});
        make({Role::dimension, cut.part, cut.face});
        face.zero = false;
        face.dimensions = {{.distance = cut.size, .from = cut.by_amount ? old : cut.measure}};
        for (std::size_t f = 0; f < cut_part.faces.size(); ++f) {
            if (static_cast<int>(f) == cut.face) continue;
            for (job::Dimension& size : cut_part.faces[f].dimensions)
                if (size.from == cut.face) size.from = old;
        }
        for (job::Ring& ring : cut_part.rings)
            for (job::RingEnd* end : {&ring.inboard, &ring.outboard})
                if (end->face == cut.face && end->beyond != 0.0) end->face = old;
        for (job::Cone& cone : cut_part.cones)
            if (cone.at_face == cut.face) cone.at_face = old;
        leave_with_old({.part = cut.part, .face = cut.face}, old);
    }

    void leave_with_old(job::FaceRef face, job::FaceId old) {
        const auto move = [&](job::FaceRef& ref) {
            if (ref == face) ref.face = old;
        };
        for (job::Reading& reading : job_.readings) {
            move(reading.from);
            move(reading.to);
            if (!reading.touching) continue;
            move(reading.touching->inboard);
            move(reading.touching->outboard);
        }
        for (const job::PartId p : job::indices(job_.parts)) {
            for (job::Seat& seat : part(p).seats) {
                if (seat.kind != job::SeatKind::face_at_offset) continue;
                move(seat.against);
                if (p == face.part && seat.own == face.face) seat.own = old;
            }
        }
    }

    void keep_holding_seats() {
        for (const job::PartId p : job::indices(before_.job().parts)) {
            std::vector<job::Seat>& seats = part(p).seats;
            if (seats.size() < 2) continue;
            const job::SeatId holding = holding_seat(before_, p).value();
            for (const Variable& size : before_.sizes()) {
                if (!of_any_seat(size.id) || size.id.part != p) continue;
                if (size.id.index != holding) {
                    job_.carried.dropped.insert(size.id);
                } else if (const auto after = job_.carried.after(size.id);
                           after && of_any_seat(*after) && after->part == p) {
                    keep(size.id, {after->role, p, 0, after->nth});
                }
            }
            std::set<job::SizeId> made;
            for (job::SizeId each : job_.carried.made) {
                if (of_any_seat(each) && each.part == p) each.index = 0;
                made.insert(each);
            }
            job_.carried.made = std::move(made);
            seats = {seats.at(at(holding))};
        }
    }

    static bool of_any_seat(job::SizeId size) {
        switch (size.role) {
            case Role::seat_offset:
            case Role::shim:
            case Role::play:
            case Role::place_in_play:
            case Role::place_when_measured:
            case Role::key_height:
            case Role::key_room:
            case Role::key_stand_off:
                return true;
            default:
                return false;
        }
    }

    void keep(job::SizeId before, job::SizeId after) {
        job_.carried.dropped.erase(before);
        job_.carried.kept[before] = after;
    }

    void make(job::SizeId id) { job_.carried.made.insert(id); }

    const Model& before_;
    job::Job job_;
};

// Where each size of a model stands in the model made from its job after changes; -1 where it is
// dropped, or the new model needs no such size.
std::vector<int> same_sizes(const Model& before, const Model& after) {
    std::map<job::SizeId, int> columns;
    for (std::size_t i = 0; i < after.sizes().size(); ++i)
        columns.emplace(after.sizes()[i].id, static_cast<int>(i));
    std::vector<int> places;
    places.reserve(before.sizes().size());
    for (const Variable& size : before.sizes()) {
        const std::optional<job::SizeId> id = after.job().carried.after(size.id);
        const auto found = id ? columns.find(*id) : columns.end();
        places.push_back(found == columns.end() ? -1 : found->second);
    }
    return places;
}

// A closure of the old sizes in the columns of the new model; nothing where a size is missing.
std::optional<Form> carried(const Form& closure, const std::vector<int>& places,
                            const Model& before, const Model& after) {
    FormBuilder builder;
    builder.add(closure.constant);
    for (Iterator it(closure.sensitivities); it; ++it) {
        const int place = places[at(it.index())];
        if (place < 0) return std::nullopt;
        builder.add(place, it.value());
        // A lapped cone's diameter is another by a known amount.
        if (!before.sizes()[at(it.index())].size.is_unmeasured())
            builder.add(-it.value() *
                        (after.columns().middle[place] - before.columns().middle[it.index()]));
    }
    return std::move(builder).build(static_cast<Eigen::Index>(after.sizes().size()));
}

bool alike(const Form& a, const Form& b) {
    constexpr double kSame = 1e-12;
    const Form apart = difference(a, b);
    return std::abs(apart.constant) < kSame &&
           apart.sensitivities.cwiseAbs().sum() < kSame * (1.0 + a.sensitivities.cwiseAbs().sum());
}

}  // namespace

double lap_sign(const job::Job& job, job::ConeRef cone) {
    const std::vector<job::Seat>& seats = job.parts.at(at(cone.part)).seats;
    const bool hub = std::ranges::any_of(seats, [&](const job::Seat& seat) {
        return seat.kind == job::SeatKind::cone_on_cone && seat.own_cone == cone.index;
    });
    return hub ? 1.0 : -1.0;
}

quantity::Size lapped(const job::Job& job, const LappedBy& lap) {
    quantity::Size dia = job.parts.at(at(lap.cone.part)).cones.at(at(lap.cone.index)).dia.size;
    const double more = lap_sign(job, lap.cone) * lap.off_diameter;
    dia.nominal += more;
    dia.lower += more;
    dia.upper += more;
    return dia;
}

std::optional<job::SeatId> holding_seat(const Model& model, job::PartId part) {
    const std::vector<job::Seat>& seats = model.job().parts.at(at(part)).seats;
    if (seats.empty()) return std::nullopt;
    if (seats.size() == 1) return job::SeatId{0};
    for (std::size_t s = 0; s < seats.size(); ++s)
        if (steps_over(model, part, static_cast<int>(s))) return job::SeatId{s};
    return job::SeatId{0};
}

job::Job carried_out(const Model& before, const Changes& changes) {
    return Carrier(before).run(changes);
}

std::variant<Model, job::Complaints> model_after(const Model& before, const job::Job& after) {
    auto built = Model::of(after);
    if (built.index() != 0 || before.closures_as_written().empty()) return built;
    const Model& model = std::get<Model>(built);
    const std::vector<int> places = same_sizes(before, model);
    std::vector<Form> binding;
    for (const Form& closure : before.closures_as_written()) {
        auto form = carried(closure, places, before, model);
        const auto& own = model.closures_as_written();
        const bool said =
            form && std::ranges::any_of(own, [&](const Form& each) { return alike(each, *form); });
        if (form && !said) binding.push_back(std::move(*form));
    }
    return model.bound_by(binding);
}

}  // namespace trialfit::stack
