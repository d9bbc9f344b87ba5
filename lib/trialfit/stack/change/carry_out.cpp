// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <deque>
#include <map>
#include <string>
#include <trialfit/job/former.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/model/index.hpp>
#include <tuple>
#include <utility>

namespace trialfit::stack {

namespace {

using Iterator = Eigen::SparseVector<double>::InnerIterator;

// What a size was written as and where: the same in the job before and after.
using Written = std::tuple<std::string, int, int>;

Written written(const std::string& text, job::Place place) {
    return {text, place.line, place.column};
}

std::vector<Written> givens_of(const Model& model, const job::Seat& seat) {
    std::vector<Written> all;
    const auto add = [&all](const job::Given& given) {
        all.push_back(written(given.written, given.at));
    };
    if (seat.offset) add(*seat.offset);
    if (seat.play) add(*seat.play);
    if (seat.shims)
        for (const job::Given& shim : seat.shims->fitted)
            add(shim);
    if (seat.key) {
        add(seat.key->height);
        add(seat.key->room);
    }
    if (seat.kind == job::SeatKind::cone_on_cone) {
        const job::Cone& shaft =
            model.job().parts.at(at(seat.against.part)).cones.at(at(seat.against.face));
        add(shaft.dia);
        add(shaft.length);
    }
    return all;
}

// Whether the way over a seat is that seat's own step and nothing else.
bool steps_over(const Model& model, int part, const job::Seat& seat) {
    const job::Part& own = model.job().parts.at(at(part));
    job::FaceRef from = seat.against;
    job::FaceRef to{.part = part, .face = seat.own};
    std::vector<Written> mine = givens_of(model, seat);
    if (seat.kind == job::SeatKind::cone_on_cone) {
        from.face = model.job().parts.at(at(from.part)).cones.at(at(seat.against.face)).at_face;
        to.face = own.cones.at(at(seat.own)).at_face;
        mine.push_back(
            written(own.cones.at(at(seat.own)).dia.written, own.cones.at(at(seat.own)).dia.at));
        mine.push_back(written(own.cones.at(at(seat.own)).length.written,
                               own.cones.at(at(seat.own)).length.at));
    }
    const Form way = model.gap({.face = from}, {.face = to});
    for (Iterator it(way.sensitivities); it; ++it) {
        const Variable& size = model.sizes()[at(it.index())];
        if (std::find(mine.begin(), mine.end(), written(size.written, size.at)) == mine.end())
            return false;
    }
    return seat.kind == job::SeatKind::face_on_face || way.sensitivities.nonZeros() > 0;
}

class Carrier {
public:
    explicit Carrier(const Model& before) : before_(before), job_(before.job()) {}

    job::Job run(const Changes& changes) {
        restack(changes);
        for (const LappedBy& lap : changes.laps)
            take_off(lap);
        for (const CutTo& cut : changes.cuts)
            make(cut);
        for (const SkimmedTo& skim : changes.skims)
            turn(skim);
        for (const CentredTo& to : changes.centrings)
            if (part(to.part).centred) part(to.part).centred->clearance = to.clearance;
        keep_holding_seats();
        return std::move(job_);
    }

private:
    job::Part& part(int index) { return job_.parts.at(at(index)); }

    void restack(const Changes& changes) {
        std::vector<job::Given> out;
        for (const Restacked& each : changes.stacks) {
            std::optional<job::Shims>& shims = part(each.part).seats.at(at(each.seat)).shims;
            if (!shims) shims.emplace();
            std::vector<job::Given> left = each.shims;
            for (const job::Given& fitted : shims->fitted) {
                const auto kept =
                    std::find_if(left.begin(), left.end(), [&](const job::Given& piece) {
                        return written(piece.written, piece.at) ==
                               written(fitted.written, fitted.at);
                    });
                if (kept == left.end()) {
                    out.push_back(fitted);
                } else {
                    left.erase(kept);
                }
            }
            shims->fitted = each.shims;
        }
        if (!out.empty() && (!before_.ties().empty() || !job_.readings.empty())) lay_aside(out);
    }

    // Readings taken with a shim fitted still say something of its thickness when it is out.
    void lay_aside(const std::vector<job::Given>& shims) {
        job::Part aside;
        aside.name = "shims taken out";
        aside.faces.push_back({.name = "zero", .at = {}, .zero = true, .dimensions = {}});
        for (const job::Given& shim : shims)
            aside.faces.push_back({.name = "shim",
                                   .at = {},
                                   .zero = false,
                                   .dimensions = {{.distance = shim, .from = 0}}});
        int root = 0;
        while (!part(root).seats.empty())
            ++root;
        aside.seats.push_back({.kind = job::SeatKind::face_on_face,
                               .at = {},
                               .own = 0,
                               .against = {.part = root, .face = 0},
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
        (skim.bore ? ring.bore : ring.outside) = skim.size;
        (skim.bore ? ring.bore_bare : ring.outside_bare) = false;
    }

    void make(const CutTo& cut) {
        job::Part& cut_part = part(cut.part);
        const auto old = static_cast<int>(cut_part.faces.size());
        const std::string name = job::former_name(cut_part, cut.face);
        cut_part.faces.push_back(cut_part.faces.at(at(cut.face)));
        cut_part.faces.back().name = name;
        job::Face& face = cut_part.faces.at(at(cut.face));
        face.zero = false;
        face.dimensions = {{.distance = cut.size, .from = cut.measure}};
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

    void leave_with_old(job::FaceRef face, int old) {
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
        for (int p = 0; p < static_cast<int>(job_.parts.size()); ++p) {
            for (job::Seat& seat : part(p).seats) {
                if (seat.kind != job::SeatKind::face_at_offset) continue;
                move(seat.against);
                if (p == face.part && seat.own == face.face) seat.own = old;
            }
        }
    }

    void keep_holding_seats() {
        for (int p = 0; p < static_cast<int>(before_.job().parts.size()); ++p) {
            std::vector<job::Seat>& seats = part(p).seats;
            if (seats.size() > 1) seats = {seats.at(at(holding_seat(before_, p)))};
        }
    }

    const Model& before_;
    job::Job job_;
};

// Where each size of a model stands in the model made from its job after changes: the one of the
// same name, or, where its face has another name now, the one written in the same place.
std::vector<int> same_sizes(const Model& before, const Model& after) {
    std::map<std::pair<std::string, Written>, std::deque<int>> by_label;
    for (std::size_t i = 0; i < after.sizes().size(); ++i) {
        const Variable& size = after.sizes()[i];
        by_label[{size.label, written(size.written, size.at)}].push_back(static_cast<int>(i));
    }
    const auto take = [](std::deque<int>& from) {
        if (from.empty()) return -1;
        const int first = from.front();
        from.pop_front();
        return first;
    };
    std::vector<int> places;
    places.reserve(before.sizes().size());
    for (const Variable& size : before.sizes())
        places.push_back(take(by_label[{size.label, written(size.written, size.at)}]));
    std::map<Written, std::deque<int>> by_place;
    for (auto& [named, left] : by_label)
        for (const int place : left)
            by_place[named.second].push_back(place);
    for (std::size_t i = 0; i < places.size(); ++i) {
        const Variable& size = before.sizes()[i];
        if (places[i] < 0) places[i] = take(by_place[written(size.written, size.at)]);
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

double lap_sign(const job::Job& job, job::FeatureRef cone) {
    const std::vector<job::Seat>& seats = job.parts.at(at(cone.part)).seats;
    const bool hub = std::any_of(seats.begin(), seats.end(), [&](const job::Seat& seat) {
        return seat.kind == job::SeatKind::cone_on_cone && seat.own == cone.index;
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

int holding_seat(const Model& model, int part) {
    const std::vector<job::Seat>& seats = model.job().parts.at(at(part)).seats;
    if (seats.size() < 2) return static_cast<int>(seats.size()) - 1;
    for (std::size_t s = 0; s < seats.size(); ++s)
        if (steps_over(model, part, seats[s])) return static_cast<int>(s);
    return 0;
}

job::Job carried_out(const Model& before, const Changes& changes) {
    return Carrier(before).run(changes);
}

std::variant<Model, job::Complaints> model_after(const Model& before, const job::Job& after) {
    auto built = Model::of(after);
    if (built.index() != 0 || before.closures().empty()) return built;
    const Model& model = std::get<Model>(built);
    const std::vector<int> places = same_sizes(before, model);
    std::vector<Form> binding;
    for (const Form& closure : before.closures()) {
        auto form = carried(closure, places, before, model);
        const auto& own = model.closures();
        const bool said = form && std::any_of(own.begin(), own.end(),
                                              [&](const Form& each) { return alike(each, *form); });
        if (form && !said) binding.push_back(std::move(*form));
    }
    return model.bound_by(binding);
}

}  // namespace trialfit::stack
