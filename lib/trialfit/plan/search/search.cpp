// SPDX-License-Identifier: MIT
#include <trialfit/plan/search/search.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

#include <trialfit/plan/search/branching.hpp>
#include <trialfit/plan/search/node.hpp>
#include <trialfit/plan/search/open_nodes.hpp>
#include <trialfit/plan/search/relaxation.hpp>

namespace trialfit::plan {

namespace {

constexpr double kWhole = 1e-7;  // a share this near 0 or 1 is taken for it
constexpr std::size_t kProbeIterations = 12;
constexpr int kRounds = 4;  // of narrowing before a node is split
constexpr int kCoverRounds = 8;

class Searcher {
public:
    Searcher(const Model& model, const Hunt& hunt, Clock& clock)
        : model_(model),
          hunt_(hunt),
          clock_(clock),
          relaxation_(model, hunt.goal, hunt.excluded, hunt.most_cost),
          branching_(model, relaxation_),
          excluded_by_(hunt.excluded.end()) {
        if (hunt.known) best_ = hunt.known;
    }

    Catch run() {
        Node root = root_node(model_);
        if (propagate(model_, hunt_.excluded, root)) {
            raise_root(root);
            open_.set_root_program(root.program);
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
        if (nodes_ % 16 != 0) return clock_.stopped();
        Progress progress;
        progress.nodes = nodes_;
        if (best_) progress.best_cost = best_->cost;
        progress.bound = lowest_open();
        return clock_.stopped(progress);
    }

    [[nodiscard]] double lowest_open() const {
        double lowest = open_.lowest();
        if (best_) lowest = std::min(lowest, best_->value);
        if (next_) lowest = std::min(lowest, next_->bound);
        return lowest;
    }

    // The open node that comes first becomes the next; false when none is worth opening.
    bool take_lowest() {
        next_ = open_.take();
        if (next_ && open_.lowest() > cutoff() && next_->bound > cutoff()) {
            prune(std::min(next_->bound, open_.lowest()));
            open_.clear();
            next_.reset();
        }
        return next_.has_value();
    }

    // The likelier half is searched at once, down to its end; the other is kept.
    void keep(Halves halves) {
        halves.likely.number = halves.other.number = ++numbered_;
        next_ = std::move(halves.likely);
        open_.add(std::move(halves.other));
    }

    Catch result() {
        Catch caught;
        caught.bound = lowest_open();
        caught.proven = open_.empty() && !next_ && !unsure_ && model_.complete;
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
        excluded_by_ = hunt_.excluded.end();
        Selection selection;
        bool whole = true;
        for (std::size_t c = 0; c < model_.cuts; ++c) {
            const double share = relaxation_.share(node, c);
            whole = whole && (share < kWhole || share > 1.0 - kWhole);
            selection.cut.push_back(share >= kWhole);
        }
        if (!whole && nodes_ % 8 != 1) return false;
        std::vector<std::uint32_t> points;
        for (std::size_t q = 0; q < model_.seats; ++q)
            points.push_back(branching_.nearest(node, q));
        Shares shares = share_out(model_, points);
        if (!shares.stacks) {
            unsure_ = unsure_ || (shares.gave_up && node.settled());
            return false;
        }
        selection.stacks = std::move(*shares.stacks);
        excluded_by_ = excluding(selection);
        if (excluded_by_ != hunt_.excluded.end()) return false;
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

    using Excluded = std::vector<Kind>::const_iterator;

    [[nodiscard]] Excluded excluding(const Selection& selection) const {
        const Kind kind = kind_of(selection);
        return std::find_if(hunt_.excluded.begin(), hunt_.excluded.end(),
                            [&](const Kind& each) { return includes(kind, each); });
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
        if (chosen == model_.cuts && excluded_by_ != hunt_.excluded.end())
            if (auto halves = branching_.by_kind(node, *excluded_by_))
                return keep(std::move(*halves));
        if (chosen == model_.cuts) {
            chosen = relaxation_.bending_cut(node);
            if (chosen < model_.cuts) likely_made = relaxation_.share(node, chosen) > 0.5;
        }
        if (chosen < model_.cuts)
            return keep(Branching::by_cut(std::move(node), chosen, likely_made));
        if (auto halves = branching_.by_seat(std::move(node))) keep(std::move(*halves));
    }

    const Model& model_;
    const Hunt& hunt_;
    Clock& clock_;
    Relaxation relaxation_;
    Branching branching_;
    OpenNodes open_;
    std::optional<Node> next_;
    std::size_t numbered_ = 0;
    std::optional<Candidate> best_;
    Excluded excluded_by_;  // of the selection offered last
    std::size_t nodes_ = 0;
    bool tied_ = false;
    bool unsure_ = false;
    bool done_ = false;
};

}  // namespace

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
