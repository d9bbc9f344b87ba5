// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <deque>
#include <trialfit/job/validity/validate.hpp>
#include <trialfit/stack/clearance/clamping.hpp>
#include <trialfit/stack/model/cone_seat.hpp>
#include <trialfit/stack/model/general_tolerance.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/model/model.hpp>
#include <trialfit/stack/model/play.hpp>
#include <trialfit/stack/model/radial_sizes.hpp>
#include <trialfit/stack/tightened/joint.hpp>
#include <utility>

namespace trialfit::stack {

namespace {

using Role = job::SizeRole;

}  // namespace

// Builds a Model: sizes and edges first, then the way of every face to the root, then the closures.
class Assembler {
    using Role = job::SizeRole;

public:
    explicit Assembler(const job::Job& job) : job_(job) { model_.job_ = &job; }

    std::variant<Model, job::Complaints> run() {
        number_faces();
        for (const job::PartId part : job::indices(job_.parts))
            add_part(part);
        add_readings();
        if (asks_radial(job_)) model_.radial_ = radial_sizes(job_, model_.sizes_);
        add_draw_up();
        // A job may have no sizes at all, and Eigen does no sums over nothing.
        if (model_.sizes_.empty()) new_size({}, {}, "no size");
        fix_forms();
        step_outwards();
        if (!complaints_.empty()) return complaints_;
        close();
        model_.automatic_checks_ = clamp_checks(job_);
        model_.learn_draw_up();
        return std::move(model_);
    }

private:
    // The term of an edge before all sizes are known: FormBuilder::build needs their number.
    struct Edge {
        int from = -1;
        int to = -1;
        FormBuilder distance;
        std::string what;
        job::Place at;
        // The part whose bare lengths its constant is.
        job::PartId constant_of;
        // A second seat says what the first says already.
        bool again = false;
        const job::Seat* seat = nullptr;
    };

    [[nodiscard]] const job::Part& part(job::PartId index) const { return job_.parts[at(index)]; }
    [[nodiscard]] int node(job::FaceRef face) const {
        return model_.first_node_[at(face.part)] + face.face;
    }

    void number_faces() {
        int next = 0;
        for (const job::Part& each : job_.parts) {
            model_.first_node_.push_back(next);
            next += static_cast<int>(each.faces.size());
            cone_dia_.emplace_back(each.cones.size(), -1);
            cone_length_.emplace_back(each.cones.size(), -1);
        }
        model_.steps_.resize(at(next));
        model_.play_size_.assign(job_.parts.size(), -1);
        model_.total_play_.assign(job_.parts.size(), -1);
        model_.play_ends_.assign(job_.parts.size(), {});
        lay_when_measured_.assign(job_.parts.size(), -1);
        model_.owner_.reserve(at(next));
        for (const job::PartId p : job::indices(job_.parts)) {
            model_.owner_.insert(model_.owner_.end(), part(p).faces.size(), p);
        }
    }

    int new_size(job::SizeId id, const job::Given& given, std::string label,
                 std::optional<job::PartId> grows_with = std::nullopt) {
        model_.sizes_.push_back({.id = id,
                                 .size = given.size,
                                 .label = std::move(label),
                                 .written = given.written,
                                 .at = given.at,
                                 .gauge = given.gauge,
                                 .grows_with = grows_with});
        return static_cast<int>(model_.sizes_.size()) - 1;
    }

    int as(Measured kind, int size) {
        model_.sizes_[at(size)].measured = kind;
        return size;
    }

    // A bare length is a constant of the geometry; one with limits is a size.
    void add_length(job::SizeId id, const job::Given& given, double times, const std::string& label,
                    int& size, FormBuilder& into) {
        if (given.size.lower == given.size.upper) {
            into.add(times * given.size.nominal);
            return;
        }
        if (size < 0) size = as(Measured::length, new_size(id, given, label, id.part));
        into.add(size, times);
    }

    void add_part(job::PartId p) {
        const job::Part& each = part(p);
        for (const job::FaceId f : job::indices(each.faces)) {
            int nth = 0;
            for (const job::Dimension& dimension : each.faces[at(f)].dimensions) {
                const std::string label = job::name(job_, job::FaceRef{p, f}) + " from " +
                                          job::name(job_, job::FaceRef{p, dimension.from});
                FormBuilder distance;
                const job::SizeId id{Role::dimension, p, f, nth++};
                distance.add(as(Measured::length, new_size(id, dimension.distance, label, p)), 1.0);
                edges_.push_back({node({p, dimension.from}), node({p, f}), std::move(distance),
                                  label, dimension.distance.at, p});
            }
        }
        add_threads(p);
        for (const job::SeatId seat : job::indices(each.seats))
            add_seat(p, seat);
    }

    void add_threads(job::PartId p) {
        std::vector<int> lead_in;
        std::vector<int> run_out;
        for (const job::ThreadId t : job::indices(part(p).threads)) {
            const job::Thread& thread = part(p).threads[at(t)];
            const std::string name = job::thread_name(job_, {p, t});
            const auto sized = [&](Role role, const job::Given& given, const char* what) {
                const bool spread = given.size.lower != given.size.upper;
                return spread ? new_size({role, p, t}, given, name + what, p) : -1;
            };
            lead_in.push_back(sized(Role::thread_lead_in, thread.lead_in, " lead_in"));
            run_out.push_back(sized(Role::thread_run_out, thread.run_out, " run_out"));
        }
        model_.lead_in_size_.push_back(std::move(lead_in));
        model_.run_out_size_.push_back(std::move(run_out));
    }

    void add_seat(job::PartId p, job::SeatId s) {
        const job::Seat& seat = part(p).seats[at(s)];
        const std::string& name = part(p).name;
        FormBuilder distance;
        job::FaceRef own{p, seat.own};
        job::FaceRef against = seat.against;
        job::PartId constant_of = p;
        if (seat.kind == job::SeatKind::cone_on_cone) {
            own.face = part(p).cones[at(seat.own_cone)].at_face;
            against = {seat.on_cone.part, job::at(job_, seat.on_cone).at_face};
            constant_of = add_cone(p, s, distance);
        }
        if (seat.offset) {
            distance.add(as(Measured::depth,
                            new_size({Role::seat_offset, p, s}, *seat.offset,
                                     job::name(job_, own) + " from " + job::name(job_, against),
                                     against.part)),
                         1.0);
        }
        if (seat.shims) {
            int nth = 0;
            for (const job::Given& shim : seat.shims->fitted) {
                int size = -1;
                add_length({Role::shim, p, s, nth++}, shim, 1.0,
                           fmt::format("shim {} under {}", shim.written, name), size, distance);
            }
        }
        if (seat.play) add_play(p, s, distance);
        edges_.push_back({node(against), node(own), std::move(distance), "the seat of " + name,
                          seat.at, constant_of, &seat != &part(p).seats.front(), &seat});
    }

    // A movement, not a doubt: where the part lies is a column that is always zero, the stated
    // place; Model::least_end and greatest_end put the ends of the play in its stead.
    void add_play(job::PartId p, job::SeatId s, FormBuilder& distance) {
        const job::Seat& seat = part(p).seats[at(s)];
        const job::Given& play = *seat.play;
        model_.play_ends_[at(p)] = play_ends(seat);
        job::Given stated = play;
        stated.size = quantity::exact(0.0);
        const std::string& name = part(p).name;
        if (model_.play_size_[at(p)] < 0)
            model_.float_.insert(std::ranges::upper_bound(model_.float_, at(p)), at(p));
        model_.play_size_[at(p)] =
            new_size({Role::place_in_play, p, s}, stated, "place of " + name + " in its play");
        model_.total_play_[at(p)] =
            as(Measured::play, new_size({Role::play, p, s}, play, "play of " + name));
        model_.sizes_.back().floats = true;
        distance.add(model_.play_size_[at(p)], 1.0);
        // Where it lay when sizes were measured that say the same thing twice.
        job::Given lay = play;
        lay.size = anywhere_in_play(p);
        lay_when_measured_[at(p)] =
            as(Measured::lay, new_size({Role::place_when_measured, p, s}, lay,
                                       "where " + name + " lay when it was measured"));
    }

    [[nodiscard]] quantity::Size anywhere_in_play(job::PartId p) const {
        const Range& ends = model_.play_ends_[at(p)];
        const double most = model_.sizes_[at(model_.total_play_[at(p)])].size.upper;
        const double middle = (ends.lo + ends.hi) / 2.0 * most;
        quantity::Size size = quantity::reading(middle, (ends.hi - ends.lo) / 2.0 * most);
        return size;
    }

    // A reading has its own value, and, where parts float, its own place in their play.
    void add_readings() {
        for (int r = 0; r < static_cast<int>(job_.readings.size()); ++r) {
            const job::Reading& reading = job_.readings[at(r)];
            model_.reading_size_.push_back(
                as(Measured::depth, new_size({Role::reading, 0, r}, reading.is, reading.name)));
            std::vector<std::pair<int, int>> lay;
            for (const job::PartId p : job::indices(job_.parts)) {
                if (model_.play_size_[at(p)] >= 0) lay.emplace_back(p, play_for(p, r));
            }
            model_.reading_play_.push_back(std::move(lay));
        }
    }

    int play_for(job::PartId p, int r) {
        const job::Reading& reading = job_.readings[at(r)];
        if (reading.pushed != job::Pushed::not_stated) return model_.total_play_[at(p)];
        const job::Given anywhere{.size = anywhere_in_play(p),
                                  .written = model_.sizes_[at(model_.total_play_[at(p)])].written,
                                  .at = reading.at};
        return as(Measured::lay,
                  new_size({Role::place_at_reading, p, r}, anywhere,
                           fmt::format("where {} lay for '{}'", part(p).name, reading.name)));
    }

    // How far the nut draws the hub home: a size of nothing that no step has yet, see
    // Model::tightened.
    void add_draw_up() {
        if (!job_.seat || !job_.seat->nut_torque_nm) return;
        const auto who = members_of(job_);
        const auto* const members = std::get_if<Members>(&who);
        if (members == nullptr) return;
        for (int e = 0; e < static_cast<int>(edges_.size()); ++e) {
            if (edges_[at(e)].seat != members->seat) continue;
            const job::Cone& cone = job::at(job_, members->seat->on_cone);
            job::Given none;
            none.written = fmt::format("by {:.6g}..{:.6g} N m", job_.seat->nut_torque_nm->least,
                                       job_.seat->nut_torque_nm->greatest);
            none.at = job_.seat->at;
            model_.draw_up_ = {.size = new_size({Role::draw_up, members->hub}, none,
                                                "draw-up of " + part(members->hub).name),
                               .edge = e,
                               .sign = cone.taper > 0.0 ? 1.0 : -1.0};
        }
    }

    // The part whose length comes into the constant, where one bears by its small end.
    job::PartId add_cone(job::PartId p, job::SeatId s, FormBuilder& distance) {
        const job::Seat& seat = part(p).seats[at(s)];
        const job::ConeRef hub_ref{p, seat.own_cone};
        const job::ConeRef shaft_ref = seat.on_cone;
        const job::Cone& hub = job::at(job_, hub_ref);
        const job::Cone& shaft = job::at(job_, shaft_ref);
        const auto shape = [](const job::Cone& cone) {
            return ConeShape{cone.dia.size.nominal, cone.taper, cone.length.size.nominal};
        };
        const ConeSeat cone = seat_on_cone(shape(shaft), shape(hub));
        distance.add(dia_of(shaft_ref), cone.by_dia);
        distance.add(dia_of(hub_ref), -cone.by_dia);
        job::PartId constant_of = p;
        if (cone.by_length != 0.0) {
            const job::ConeRef ref = cone.length_of_hub ? hub_ref : shaft_ref;
            const job::Cone& longer = cone.length_of_hub ? hub : shaft;
            add_length({Role::cone_length, ref.part, ref.index}, longer.length, cone.by_length,
                       job::cone_name(job_, ref) + " length",
                       cone_length_[at(ref.part)][at(ref.index)], distance);
            constant_of = ref.part;
        }
        if (cone.bearing != Bearing::whole) {
            model_.warnings_.push_back(
                {.hub = {job::cone_name(job_, hub_ref), hub.taper_written},
                 .shaft = {job::cone_name(job_, shaft_ref), shaft.taper_written},
                 .bearing = cone.bearing});
        }
        if (seat.key) add_key(p, s, shaft.taper, distance);
        return constant_of;
    }

    // A key e too high holds the hub off by 2e/T where the slot floors follow the cone, and not at
    // all where they are parallel to the axis. Where e may have either sign, the stand-off
    // max(0, 2e/T) is a size of its own.
    void add_key(job::PartId p, job::SeatId s, double taper, FormBuilder& distance) {
        const job::Key& key = *part(p).seats[at(s)].key;
        const double excess = key.height.size.nominal - key.room.size.nominal;
        const double most = key.height.size.upper - key.room.size.lower;
        const double least = key.height.size.lower - key.room.size.upper;
        if (most <= 0.0) return;
        const std::string& name = part(p).name;
        if (!key.floors_follow_cone) {
            model_.notes_.emplace_back(
                KeyMayNotEnter{.part = name, .most = most, .excess = excess});
            return;
        }
        const double per_excess = 2.0 / std::abs(taper);
        if (least >= 0.0) {
            distance.add(new_size({Role::key_height, p, s}, key.height, "key height of " + name, p),
                         2.0 / taper);
            distance.add(new_size({Role::key_room, p, s}, key.room, "key room of " + name, p),
                         -2.0 / taper);
        } else {
            add_key_stand_off(p, s, per_excess, taper, distance);
        }
        if (excess > 0.0)
            model_.notes_.emplace_back(
                KeyHoldsOff{.part = name, .excess = excess, .stand_off = per_excess * excess});
        else
            model_.notes_.emplace_back(
                KeyMayHoldOff{.part = name, .excess = most, .stand_off = per_excess * most});
    }

    void add_key_stand_off(job::PartId p, job::SeatId s, double per_excess, double taper,
                           FormBuilder& distance) {
        const job::Key& key = *part(p).seats[at(s)].key;
        const double most = per_excess * (key.height.size.upper - key.room.size.lower);
        const double nominal =
            per_excess * std::max(0.0, key.height.size.nominal - key.room.size.nominal);
        job::Given stand_off = key.height;
        stand_off.size = quantity::reading(most / 2.0, most / 2.0);
        stand_off.size.nominal = nominal;
        stand_off.written =
            fmt::format("key {} in a room of {}", key.height.written, key.room.written);
        const std::string& name = part(p).name;
        const KeyStandOff of{
            .height = new_size({Role::key_height, p, s}, key.height, "key height of " + name, p),
            .room = new_size({Role::key_room, p, s}, key.room, "key room of " + name, p),
            .per_excess = per_excess};
        distance.add(new_size({Role::key_stand_off, p, s}, stand_off,
                              "stand-off of " + name + " by its key", p),
                     taper > 0.0 ? 1.0 : -1.0);
        model_.sizes_.back().key = of;
    }

    // Every seat on the same cone shares its one diameter.
    int dia_of(job::ConeRef cone) {
        int& size = cone_dia_[at(cone.part)][at(cone.index)];
        if (size < 0) {
            size = as(Measured::diameter,
                      new_size({Role::cone_diameter, cone.part, cone.index},
                               part(cone.part).cones[at(cone.index)].dia,
                               job::cone_name(job_, cone) + " diameter", cone.part));
        }
        return size;
    }

    void fix_forms() {
        std::vector<quantity::Size> sizes;
        sizes.reserve(model_.sizes_.size());
        for (const Variable& variable : model_.sizes_)
            sizes.push_back(variable.size);
        model_.columns_ = columns(sizes);
        model_.edges_.reserve(edges_.size());
        model_.edge_owner_.reserve(edges_.size());
        for (Edge& edge : edges_) {
            model_.edges_.emplace_back(
                std::move(edge.distance).build(static_cast<Eigen::Index>(sizes.size())));
            model_.edge_owner_.push_back(edge.constant_of);
        }
    }

    using EdgesAtFaces = std::vector<std::vector<int>>;

    void step_outwards() {
        EdgesAtFaces at_face(model_.steps_.size());
        for (int e = 0; e < static_cast<int>(edges_.size()); ++e) {
            at_face[at(edges_[at(e)].from)].push_back(e);
            at_face[at(edges_[at(e)].to)].push_back(e);
        }
        used_.assign(edges_.size(), false);
        const int root = root_face();
        model_.steps_[at(root)].depth = 0;
        // By first seats first: warm, where two seats of a part drift apart, it follows that one.
        spread({root}, at_face, false);
        std::deque<int> reached;
        for (int n = 0; n < static_cast<int>(model_.steps_.size()); ++n)
            if (model_.steps_[at(n)].depth >= 0) reached.push_back(n);
        if (reached.size() < model_.steps_.size()) spread(std::move(reached), at_face, true);
        complain_of_loose_faces();
    }

    // Gives every face that can be reached from the `open` ones its way to the root; over second
    // seats only where `any_seat`.
    void spread(std::deque<int> open, const EdgesAtFaces& at_face, bool any_seat) {
        while (!open.empty()) {
            const int here = open.front();
            open.pop_front();
            for (const int e : at_face[at(here)]) {
                if (edges_[at(e)].again && !any_seat) continue;
                const bool forward = edges_[at(e)].from == here;
                const int there = forward ? edges_[at(e)].to : edges_[at(e)].from;
                Model::Step& step = model_.steps_[at(there)];
                if (step.depth >= 0) continue;
                step = {.up = here,
                        .edge = e,
                        .way = forward ? 1.0 : -1.0,
                        .depth = model_.steps_[at(here)].depth + 1};
                used_[at(e)] = true;
                // Within a part first, so that each part is entered once and by one seat.
                if (model_.owner_[at(there)] == model_.owner_[at(here)]) {
                    open.push_front(there);
                } else {
                    open.push_back(there);
                }
            }
        }
    }

    [[nodiscard]] int root_face() const {
        for (const job::PartId p : job::indices(job_.parts)) {
            if (!part(p).seats.empty()) continue;
            for (const job::FaceId f : job::indices(part(p).faces)) {
                if (part(p).faces[at(f)].zero) return node({p, f});
            }
        }
        return 0;
    }

    void complain_of_loose_faces() {
        for (int n = 0; n < static_cast<int>(model_.steps_.size()); ++n) {
            if (model_.steps_[at(n)].depth >= 0) continue;
            const job::FaceRef face{model_.owner_[at(n)],
                                    n - model_.first_node_[at(model_.owner_[at(n)])]};
            complaints_.push_back(
                {.at = part(face.part).faces[at(face.face)].at,
                 .fault = fmt::format("nothing says where face '{}' lies", job::name(job_, face)),
                 .mend = "give its distance from another face of the part, or seat the part"});
        }
    }

    // Each edge that no way to the root uses says a second time what the others say already.
    void close() {
        for (int e = 0; e < static_cast<int>(edges_.size()); ++e) {
            if (used_[at(e)]) continue;
            model_.closure_of_.push_back({.what = edges_[at(e)].what, .at = edges_[at(e)].at});
            FormBuilder builder;
            const int meeting = model_.meeting_of(edges_[at(e)].from, edges_[at(e)].to);
            model_.walk(edges_[at(e)].to, meeting, 1.0, builder);
            model_.walk(edges_[at(e)].from, meeting, -1.0, builder);
            builder.add(model_.edges_[at(e)], -1.0);
            model_.closures_.push_back(
                as_it_lay(std::move(builder).build(model_.columns_.nominal.size())));
        }
        model_.tie();
    }

    // A closure was measured wherever the floating parts happened to lie.
    [[nodiscard]] Form as_it_lay(const Form& closure) const {
        FormBuilder builder;
        builder.add(closure, 1.0);
        for (const std::size_t p : model_.float_) {
            const double k = closure.sensitivities.coeff(model_.play_size_[p]);
            if (k == 0.0) continue;
            builder.add(model_.play_size_[p], -k);
            builder.add(lay_when_measured_[p], k);
        }
        return std::move(builder).build(closure.sensitivities.size());
    }

    const job::Job& job_;
    Model model_;
    std::vector<Edge> edges_;
    std::vector<bool> used_;
    std::vector<int> lay_when_measured_;  // of each part that floats: where in its play, a size
    std::vector<std::vector<int>> cone_dia_;
    std::vector<std::vector<int>> cone_length_;
    job::Complaints complaints_;
};

std::variant<Model, job::Complaints> Model::of(const job::Job& job) {
    if (job::Complaints complaints = job::validate(job); !complaints.empty()) return complaints;
    return Assembler(job).run();
}

}  // namespace trialfit::stack
