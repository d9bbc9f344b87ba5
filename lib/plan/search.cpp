// SPDX-License-Identifier: MIT
#include <trialfit/plan/search.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

#include <trialfit/plan/node.hpp>
#include <trialfit/plan/relaxation.hpp>

namespace trialfit::plan {

namespace {

constexpr double kWhole = 1e-7;  // a share this near 0 or 1 is taken for it
constexpr double kSameLength = 1e-9;
constexpr double kMismatch = 1e-7;  // a seat's point this near to the program's solution is it
constexpr std::size_t kProbeIterations = 12;
constexpr int kRounds = 4;  // of narrowing before a node is split
constexpr int kCoverRounds = 8;

class Searcher {
public:
    Searcher(const Model& model, const Hunt& hunt, Clock& clock)
        : model_(model), hunt_(hunt), clock_(clock), relaxation_(model, hunt.goal, hunt.excluded) {
        if (hunt.known) best_ = hunt.known;
    }

    Catch run() {
        Node root = root_node(model_);
        if (propagate(model_, hunt_.excluded, root)) {
            raise_root(root);
            root_program_ = root.program;
            next_ = std::move(root);
        }
        while (!done_ && !interrupted() && (next_ || take_lowest())) {
            Node node = std::move(*next_);
            next_.reset();
            ++nodes_;
            treat(std::move(node));
        }
        return result();
    }

private:
    [[nodiscard]] double tolerance() const { return hunt_.tolerance; }
    // Nothing whose value is above this is of use.
    [[nodiscard]] double cutoff() const { return best_ ? best_->value - tolerance() : kInfinity; }

    bool interrupted() {
        if (hunt_.most_nodes && nodes_ >= *hunt_.most_nodes) return true;
        if (nodes_ % 16 != 0) return false;
        Progress progress;
        progress.nodes = nodes_;
        if (best_) progress.best_cost = best_->cost;
        progress.bound = lowest_open();
        return clock_.stopped(progress);
    }

    [[nodiscard]] double lowest_open() const {
        double lowest = best_ ? best_->value : kInfinity;
        if (!open_.empty()) lowest = std::min(lowest, open_.front().bound);
        if (next_) lowest = std::min(lowest, next_->bound);
        return lowest;
    }

    // The open node with the lowest bound becomes the next; false when none is worth opening.
    bool take_lowest() {
        if (open_.empty()) return false;
        if (open_.front().bound > cutoff()) {
            prune(open_.front().bound);
            open_.clear();
            return false;
        }
        std::pop_heap(open_.begin(), open_.end(), comes_after);
        next_ = std::move(open_.back());
        open_.pop_back();
        if (next_->program.columns() == 0) {
            next_->program = root_program_;
        } else {
            --programs_held_;
        }
        return true;
    }

    static bool comes_after(const Node& a, const Node& b) {
        return a.bound != b.bound ? a.bound > b.bound : a.number < b.number;
    }

    // The likelier half is searched at once, down to its end; the other is kept. Where many are
    // kept their programs are not, and start from the root's when their turn comes; where too many,
    // the search is no longer certain.
    void keep(Node likely, Node other) {
        constexpr std::size_t kMostPrograms = 1000;
        constexpr std::size_t kMostOpen = 100000;
        likely.number = other.number = ++numbered_;
        next_ = std::move(likely);
        if (open_.size() >= kMostOpen) {
            dropped_ = std::min(dropped_, other.bound);
            return;
        }
        if (programs_held_ < kMostPrograms) {
            ++programs_held_;
        } else {
            other.program = {};
        }
        open_.push_back(std::move(other));
        std::push_heap(open_.begin(), open_.end(), comes_after);
    }

    Catch result() {
        Catch caught;
        caught.bound = std::min(lowest_open(), dropped_);
        caught.proven = open_.empty() && !next_ && !unsure_ && model_.complete &&
                        (dropped_ == kInfinity || dropped_ > cutoff());
        caught.best = std::move(best_);
        caught.tied = tied_;
        caught.nodes = nodes_;
        return caught;
    }

    void raise_root(Node& root) {
        for (int round = 0; round < kCoverRounds; ++round) {
            const Reading reading = relaxation_.read(root, cutoff());
            if (reading.outcome != Simplex::Outcome::optimal) return;
            if (!relaxation_.add_covers(root)) return;
        }
    }

    void prune(double bound) {
        if (best_ && bound <= best_->value + tolerance()) tied_ = true;
    }

    void treat(Node node) {
        for (int round = 0; round < kRounds; ++round) {
            if (node.bound > cutoff()) return prune(node.bound);
            if (!propagate(model_, hunt_.excluded, node)) return;
            const Reading reading = relaxation_.read(node, cutoff());
            if (reading.outcome == Simplex::Outcome::infeasible) return;
            if (reading.outcome == Simplex::Outcome::cutoff) return prune(node.bound);
            if (!reading.struck_out) break;
        }
        if (offer(node)) return;
        if (node.settled() || done_) return;
        split(std::move(node));
    }

    // Rounds the program's solution to a selection and tries it. True when that settles the node.
    bool offer(const Node& node) {
        Selection selection;
        bool whole = true;
        for (std::size_t c = 0; c < model_.cuts; ++c) {
            const double share = relaxation_.share(node, c);
            whole = whole && (share < kWhole || share > 1.0 - kWhole);
            selection.cut.push_back(share >= kWhole);
        }
        if (!whole && nodes_ % 8 != 1) return false;
        if (is_excluded(selection)) return false;
        std::vector<std::uint32_t> points;
        for (std::size_t q = 0; q < model_.seats; ++q)
            points.push_back(nearest(node, q));
        auto stacks = share_out(model_, points);
        if (!stacks) return false;
        selection.stacks = std::move(*stacks);
        const auto found = settle(model_, hunt_.goal, selection, hunt_.most_cost);
        if (!found) return false;
        if (model_.problem->verdict && !model_.problem->verdict(selection, found->depths)) {
            unsure_ = true;
            return false;
        }
        if (!best_ || found->value < best_->value - tolerance()) {
            best_ = found;
            tied_ = false;
            done_ = hunt_.any_will_do;
        }
        return node.bound > cutoff();
    }

    [[nodiscard]] bool is_excluded(const Selection& selection) const {
        return std::any_of(hunt_.excluded.begin(), hunt_.excluded.end(), [&](const auto& set) {
            return std::all_of(set.begin(), set.end(),
                               [&](std::size_t c) { return selection.cut[c]; });
        });
    }

    [[nodiscard]] double point_thickness(std::size_t q, std::uint32_t point) const {
        return model_.choices[q].points[point].thickness;
    }

    // The open point nearest to the program's thickness; of those, the one worth most.
    [[nodiscard]] std::uint32_t nearest(const Node& node, std::size_t q) const {
        const double wanted = relaxation_.thickness(node, q);
        std::uint32_t best = node.stacks[q].front();
        double least = kInfinity;
        for (const std::uint32_t each : node.stacks[q]) {
            const double away = std::abs(point_thickness(q, each) - wanted);
            if (away > least + kSameLength) continue;
            if (away > least - kSameLength &&
                relaxation_.value(q, each) >= relaxation_.value(q, best))
                continue;
            least = away;
            best = each;
        }
        return best;
    }

    void split(Node node) {
        std::size_t chosen = model_.cuts;
        bool likely_made = false;
        double most = -1.0;
        for (std::size_t c = 0; c < model_.cuts; ++c) {
            const double share = relaxation_.share(node, c);
            if (node.states[c] != State::open || share < kWhole || share > 1.0 - kWhole) continue;
            const double uncut =
                relaxation_.probe(node, c, State::uncut, cutoff(), kProbeIterations);
            const double made = relaxation_.probe(node, c, State::cut, cutoff(), kProbeIterations);
            if (uncut > cutoff() || made > cutoff()) {
                if (uncut > cutoff() && made > cutoff()) return prune(std::min(uncut, made));
                prune(std::max(uncut, made));
                node.states[c] = uncut > cutoff() ? State::cut : State::uncut;
                node.bound = std::max(node.bound, std::min(uncut, made));
                next_ = std::move(node);
                return;
            }
            const double gain_uncut = std::max(uncut - node.bound, 1e-6);
            const double gain_made = std::max(made - node.bound, 1e-6);
            if (gain_uncut * gain_made > most) {
                most = gain_uncut * gain_made;
                chosen = c;
                likely_made = gain_made < gain_uncut;
            }
        }
        if (chosen < model_.cuts) return split_cut(std::move(node), chosen, likely_made);
        const std::size_t bending = relaxation_.bending_cut(node);
        if (bending < model_.cuts) {
            const bool made = relaxation_.share(node, bending) > 0.5;
            return split_cut(std::move(node), bending, made);
        }
        split_seat(std::move(node));
    }

    void split_cut(Node node, std::size_t c, bool likely_made) {
        Node other = node;
        node.states[c] = likely_made ? State::cut : State::uncut;
        other.states[c] = likely_made ? State::uncut : State::cut;
        keep(std::move(node), std::move(other));
    }

    // By how much the nearest point is worse than what the program made of the seat.
    [[nodiscard]] double mismatch(const Node& node, std::size_t q) const {
        const std::uint32_t point = nearest(node, q);
        const double away = std::abs(point_thickness(q, point) - relaxation_.thickness(node, q));
        return away + std::max(0.0, relaxation_.value(q, point) - relaxation_.hull_value(node, q));
    }

    // Where the points nearest to the program's solution want more pieces of a kind than there are:
    // one of their seats is split into what uses the kind and what does not. False when there are
    // enough pieces.
    bool split_shortage(Node& node) {
        std::vector<std::uint32_t> points;
        for (std::size_t q = 0; q < model_.seats; ++q)
            points.push_back(nearest(node, q));
        for (std::size_t n = 0; n < model_.scarce_kinds.size(); ++n) {
            int left = *model_.problem->stock[model_.scarce_kinds[n]].pieces;
            for (std::size_t q = 0; q < model_.seats; ++q)
                left -= model_.least_use(q, points[q], n);
            if (left >= 0) continue;
            for (std::size_t q = 0; q < model_.seats; ++q) {
                const auto uses = [&](std::uint32_t each) {
                    return model_.least_use(q, each, n) > 0;
                };
                const auto& open = node.stacks[q];
                if (!uses(points[q]) || std::all_of(open.begin(), open.end(), uses)) continue;
                Node other = node;
                std::erase_if(node.stacks[q], [&](std::uint32_t each) { return !uses(each); });
                std::erase_if(other.stacks[q], uses);
                refresh_spread(model_, q, node);
                refresh_spread(model_, q, other);
                keep(std::move(node), std::move(other));
                return true;
            }
        }
        return false;
    }

    void split_seat(Node node) {
        std::size_t chosen = model_.seats;
        double most = -1.0;
        for (std::size_t q = 0; q < model_.seats; ++q) {
            if (node.stacks[q].size() < 2) continue;
            const double by = mismatch(node, q);
            if (by > most) {
                most = by;
                chosen = q;
            }
        }
        if (most <= kMismatch && split_shortage(node)) return;
        if (chosen == model_.seats) return split_any_cut(std::move(node));
        const std::uint32_t point = nearest(node, chosen);
        const double at = relaxation_.thickness(node, chosen);
        Node other = node;
        std::vector<std::uint32_t>& open = node.stacks[chosen];
        std::vector<std::uint32_t>& rest = other.stacks[chosen];
        const auto thin = [&](std::uint32_t each) {
            return point_thickness(chosen, each) <= at + kSameLength;
        };
        const auto thin_ones = std::count_if(open.begin(), open.end(), thin);
        if (most > kMismatch && thin_ones > 0 && thin_ones < std::ssize(open)) {
            std::erase_if(open, [&](std::uint32_t each) { return !thin(each); });
            std::erase_if(rest, thin);
        } else {
            open = {point};
            std::erase(rest, point);
        }
        refresh_spread(model_, chosen, node);
        refresh_spread(model_, chosen, other);
        keep(std::move(node), std::move(other));
    }

    void split_any_cut(Node node) {
        for (std::size_t c = 0; c < model_.cuts; ++c) {
            if (node.states[c] == State::open)
                return split_cut(std::move(node), c, relaxation_.share(node, c) > 0.5);
        }
    }

    const Model& model_;
    const Hunt& hunt_;
    Clock& clock_;
    Relaxation relaxation_;
    std::vector<Node> open_;  // a heap, lowest bound first
    std::optional<Node> next_;
    Simplex root_program_;
    std::size_t programs_held_ = 0;
    std::size_t numbered_ = 0;
    double dropped_ = kInfinity;  // lowest bound of the nodes that there was no room for
    std::optional<Candidate> best_;
    std::size_t nodes_ = 0;
    bool tied_ = false;
    bool unsure_ = false;
    bool done_ = false;
};

}  // namespace

double Clock::seconds() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
}

bool Clock::stopped(const Progress& progress) {
    if (watch_.stop != nullptr && watch_.stop->load()) stopped_ = true;
    if (watch_.seconds && seconds() > *watch_.seconds) stopped_ = true;
    if (watch_.progress) {
        Progress timed = progress;
        timed.seconds = seconds();
        if (!watch_.progress(timed)) stopped_ = true;
    }
    return stopped_;
}

Catch search(const Model& model, const Hunt& hunt, Clock& clock) {
    for (const StackChoice& choice : model.choices) {
        if (choice.points.empty()) {
            Catch none;
            none.proven = model.complete;
            return none;
        }
    }
    return Searcher(model, hunt, clock).run();
}

}  // namespace trialfit::plan
