// SPDX-License-Identifier: MIT
#include <trialfit/numerics/planner/search.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

#include <trialfit/numerics/planner/branching.hpp>
#include <trialfit/numerics/planner/node.hpp>
#include <trialfit/numerics/planner/open_nodes.hpp>
#include <trialfit/numerics/planner/relaxation.hpp>

namespace trialfit::numerics {

namespace {

constexpr double kWholeShare = 1e-7;  // a share this near 0 or 1 is taken for it
constexpr std::size_t kProbeIterations = 12;
constexpr int kRounds = 4;  // of narrowing before a node is split
constexpr int kCoverRounds = 8;

class Searcher {
public:
    Searcher(const SearchModel& model, const SearchOptions& hunt, Deadline& clock)
        : model_(model),
          hunt_(hunt),
          clock_(clock),
          relaxation_(model, hunt.goal, hunt.excluded, hunt.most_cost),
          branching_(model, relaxation_),
          excluded_by_(hunt.excluded.end()) {
        if (hunt.known) best_ = hunt.known;
    }

    SearchResult run() {
        SearchNode root = root_node(model_);
        if (propagate(model_, hunt_.excluded, root)) {
            raise_root(root);
            open_.set_root_program(root.program);
            next_ = std::move(root);
        }
        while (!done_ && !interrupted() && (next_ || take_lowest())) {
            SearchNode node = std::move(*next_);
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
    void keep(Branches halves) {
        halves.preferred.number = halves.other.number = ++numbered_;
        next_ = std::move(halves.preferred);
        open_.add(std::move(halves.other));
    }

    SearchResult result() {
        SearchResult caught;
        caught.bound = lowest_open();
        caught.proven = open_.empty() && !next_ && !unsure_ && model_.complete;
        caught.best = std::move(best_);
        caught.tied = tied_;
        caught.nodes = nodes_;
        return caught;
    }

    void raise_root(SearchNode& root) {
        for (int round = 0; round < kCoverRounds; ++round) {
            const RelaxationResult reading = relaxation_.read(root, cutoff());
            if (reading.outcome != Simplex::Outcome::optimal) return;
            if (!relaxation_.add_covers(root)) return;
        }
    }

    void prune(double bound) {
        if (best_ && bound <= best_->value + tolerance()) tied_ = true;
    }

    void treat(SearchNode node) {
        for (int round = 0; round < kRounds; ++round) {
            if (node.bound > cutoff()) return prune(node.bound);
            if (!propagate(model_, hunt_.excluded, node)) return;
            const RelaxationResult reading = relaxation_.read(node, cutoff());
            if (reading.outcome == Simplex::Outcome::infeasible) return;
            if (reading.outcome == Simplex::Outcome::cutoff) return prune(node.bound);
            if (!reading.struck_out) break;
        }
        if (offer(node)) return;
        if (node.settled() || done_) return;
        split(std::move(node));
    }

    // Rounds the program's solution to a selection and tries it. True when that settles the node.
    bool offer(const SearchNode& node) {
        excluded_by_ = hunt_.excluded.end();
        Selection selection;
        bool whole = true;
        for (std::size_t c = 0; c < model_.activities; ++c) {
            const double share = relaxation_.share(node, c);
            whole = whole && (share < kWholeShare || share > 1.0 - kWholeShare);
            selection.done.push_back(share >= kWholeShare);
        }
        if (!whole && nodes_ % 8 != 1) return false;
        std::vector<std::uint32_t> points;
        for (std::size_t q = 0; q < model_.bins; ++q)
            points.push_back(branching_.nearest(node, q));
        Shares shares = allocate_stock(model_, points);
        if (!shares.stacks) {
            unsure_ = unsure_ || (shares.gave_up && node.settled());
            return false;
        }
        selection.stacks = std::move(*shares.stacks);
        excluded_by_ = excluding(selection);
        if (excluded_by_ != hunt_.excluded.end()) return false;
        const auto found = solve_amounts(model_, hunt_.goal, selection, hunt_.most_cost);
        if (!found) return false;
        if (model_.problem->verdict && !model_.problem->verdict(selection, found->amounts)) {
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

    using Excluded = std::vector<PlanKind>::const_iterator;

    [[nodiscard]] Excluded excluding(const Selection& selection) const {
        const PlanKind kind = kind_of(selection);
        return std::find_if(hunt_.excluded.begin(), hunt_.excluded.end(),
                            [&](const PlanKind& each) { return includes(kind, each); });
    }

    void split(SearchNode node) {
        std::size_t chosen = model_.activities;
        bool likely_made = false;
        double most = -1.0;
        for (std::size_t c = 0; c < model_.activities; ++c) {
            const double share = relaxation_.share(node, c);
            if (node.states[c] != ActivityState::open || share < kWholeShare ||
                share > 1.0 - kWholeShare)
                continue;
            const double not_done =
                relaxation_.probe(node, c, ActivityState::not_done, cutoff(), kProbeIterations);
            const double made =
                relaxation_.probe(node, c, ActivityState::done, cutoff(), kProbeIterations);
            if (not_done > cutoff() || made > cutoff()) {
                if (not_done > cutoff() && made > cutoff()) return prune(std::min(not_done, made));
                prune(std::max(not_done, made));
                node.states[c] =
                    not_done > cutoff() ? ActivityState::done : ActivityState::not_done;
                node.bound = std::max(node.bound, std::min(not_done, made));
                next_ = std::move(node);
                return;
            }
            const double gain_uncut = std::max(not_done - node.bound, 1e-6);
            const double gain_made = std::max(made - node.bound, 1e-6);
            if (gain_uncut * gain_made > most) {
                most = gain_uncut * gain_made;
                chosen = c;
                likely_made = gain_made < gain_uncut;
            }
        }
        if (chosen == model_.activities && excluded_by_ != hunt_.excluded.end())
            if (auto halves = branching_.by_kind(node, *excluded_by_))
                return keep(std::move(*halves));
        if (chosen == model_.activities) {
            chosen = relaxation_.bending_cut(node);
            if (chosen < model_.activities) likely_made = relaxation_.share(node, chosen) > 0.5;
        }
        if (chosen < model_.activities)
            return keep(Branching::by_activity(std::move(node), chosen, likely_made));
        if (auto halves = branching_.by_seat(std::move(node))) keep(std::move(*halves));
    }

    const SearchModel& model_;
    const SearchOptions& hunt_;
    Deadline& clock_;
    Relaxation relaxation_;
    Branching branching_;
    OpenNodes open_;
    std::optional<SearchNode> next_;
    std::size_t numbered_ = 0;
    std::optional<PricedSelection> best_;
    Excluded excluded_by_;  // of the selection offered last
    std::size_t nodes_ = 0;
    bool tied_ = false;
    bool unsure_ = false;
    bool done_ = false;
};

}  // namespace

SearchResult search(const SearchModel& model, const SearchOptions& hunt, Deadline& clock) {
    for (const StackChoice& choice : model.choices) {
        if (choice.points.empty()) {
            SearchResult none;
            none.proven = model.complete;
            return none;
        }
    }
    return Searcher(model, hunt, clock).run();
}

}  // namespace trialfit::numerics
