// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cerrno>
#include <fstream>
#include <optional>
#include <system_error>
#include <trialfit/job/validity/validate.hpp>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/odds/odds.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/reading/write/write.hpp>
#include <trialfit/seat/seat.hpp>
#include <trialfit/sheet/by_odds.hpp>
#include <trialfit/spin/spin.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/study/named_sizes.hpp>
#include <trialfit/study/study.hpp>
#include <trialfit/survey/survey.hpp>
#include <trialfit/timing/timing.hpp>
#include <utility>
#include <variant>

namespace trialfit {

namespace {

// A job in its present state and how it is judged.
struct Present {
    job::Job job;
    stack::Options options;
};

// Lets the readings bind the sizes, unless they are set aside.
std::variant<stack::Options, job::Complaints> bound(const job::Job& now,
                                                    const StudyOptions& options) {
    stack::Options out{.judge = options.judge,
                       .inflate = options.inflate,
                       .all_pairs = options.all_pairs,
                       .readings = {}};
    if (options.as_written) return out;
    auto evidence = survey::evidence(now);
    if (auto* const complaints = std::get_if<job::Complaints>(&evidence))
        return std::move(*complaints);
    out.readings = std::move(std::get<std::vector<stack::TrialFit>>(evidence));
    return out;
}

std::variant<Present, job::Complaints> present(const job::Job& job, const StudyOptions& options) {
    auto built = stack::as_built(job, options.entries.value_or(job.record.size()));
    if (auto* const complaints = std::get_if<job::Complaints>(&built))
        return std::move(*complaints);
    auto& now = std::get<job::Job>(built);
    auto judged = bound(now, options);
    if (auto* const complaints = std::get_if<job::Complaints>(&judged))
        return std::move(*complaints);
    return Present{std::move(now), std::move(std::get<stack::Options>(judged))};
}

// The answer of `work` on the present state, or the complaints that forbid one.
template <typename Work>
auto asked(const job::Job& job, const StudyOptions& options, const Work& work)
    -> decltype(work(std::declval<Present&>())) {
    auto now = present(job, options);
    if (auto* const complaints = std::get_if<job::Complaints>(&now)) return std::move(*complaints);
    return work(std::get<Present>(now));
}

// What is doubtful gets its odds, and everything that RSS judges; where odds are asked for, they
// judge everything.
void weigh(stack::CheckAnswer& answer, const Present& now, std::optional<double> level) {
    const bool by_rss = !level && answer.judge == stack::Judge::rss;
    if (!level && !by_rss && answer.verdict == stack::Verdict::holds) return;
    odds::Options how = odds::beside(now.options);
    how.chances_only = true;
    how.doubtful_only = !level && !by_rss;
    const auto outcome = odds::odds(now.job, how);
    const auto* const chances = std::get_if<odds::OddsAnswer>(&outcome);
    if (chances == nullptr) return;
    if (level) return odds::judge_by_odds(answer, *chances, *level);
    odds::give_odds(answer, *chances);
    odds::warn_beside_rss(answer);
}

void weigh(stack::WhyAnswer& answer, const Present& now) {
    if (!answer.id) return;
    odds::Options how = odds::beside(now.options);
    how.only = answer.id;
    const auto outcome = odds::odds(now.job, how);
    if (const auto* const chances = std::get_if<odds::OddsAnswer>(&outcome))
        odds::give_drivers(answer, *chances);
}

Expected<Study> of_changed(std::variant<job::Job, job::Complaints> changed) {
    if (auto* const complaints = std::get_if<job::Complaints>(&changed))
        return std::move(*complaints);
    return Study::of(std::move(std::get<job::Job>(changed)));
}

job::Complaints unreadable(const std::string& why) {
    return {{.fault = why, .mend = "name a job file that is there and may be read"}};
}

}  // namespace

Expected<Study> Study::read(std::string_view text, std::string name) {
    reading::Outcome outcome = reading::read_job(text, std::move(name));
    if (!outcome.job) return std::move(outcome.complaints);
    auto built = stack::as_built(*outcome.job, outcome.job->record.size());
    if (auto* const complaints = std::get_if<job::Complaints>(&built))
        return std::move(*complaints);
    return {Study(std::move(*outcome.job), std::string(text)), std::move(outcome.complaints)};
}

Expected<Study> Study::read_file(const std::filesystem::path& path) {
    errno = 0;
    std::ifstream file(path, std::ios::binary);
    std::string text(reading::kLargestFile + 1, '\0');
    if (file) file.read(text.data(), static_cast<std::streamsize>(text.size()));
    if (!file && !file.eof())
        return unreadable(errno == 0 ? "it cannot be read"
                                     : std::generic_category().message(errno));
    text.resize(static_cast<std::size_t>(file.gcount()));
    return read(text, path.string());
}

Expected<Study> Study::of(job::Job job) {
    job::Complaints complaints = job::validate(job);
    if (job::any_error(complaints)) return complaints;
    if (job.in_force > 0)
        return job::Complaints{{.fault = "the record of this job is in force already",
                                .mend = "give the job as it was read or made"}};
    auto built = stack::as_built(job, job.record.size());
    if (auto* const faults = std::get_if<job::Complaints>(&built)) return std::move(*faults);
    return {Study(std::move(job), {}), std::move(complaints)};
}

std::vector<std::string> Study::sizes() const {
    return study::size_names(job_);
}

Expected<Study> Study::with(std::string_view what, std::string_view size) const {
    return of_changed(study::with_size(job_, what, size));
}

Expected<Study> Study::cut(std::string_view face, std::string_view size, std::string date) const {
    return of_changed(study::with_cut(job_, face, size, std::move(date)));
}

Expected<std::string> Study::yaml() const {
    reading::WrittenJob written = reading::write(job_);
    if (!written.text) return std::move(written.complaints);
    return {std::move(*written.text), std::move(written.complaints)};
}

Expected<stack::CheckAnswer> Study::check(const StudyOptions& options) const {
    return asked(job_, options, [&](const Present& now) {
        auto outcome = stack::check(now.job, now.options);
        if (auto* const answer = std::get_if<stack::CheckAnswer>(&outcome))
            weigh(*answer, now, options.odds_level);
        return outcome;
    });
}

Expected<stack::WhyAnswer> Study::why(std::string_view check, const StudyOptions& options) const {
    return asked(job_, options, [&](const Present& now) {
        auto outcome = stack::why(now.job, check, now.options);
        if (auto* const answer = std::get_if<stack::WhyAnswer>(&outcome)) weigh(*answer, now);
        return outcome;
    });
}

Expected<stack::WhyAnswer> Study::why_gap(std::string_view inboard, std::string_view outboard,
                                          const StudyOptions& options) const {
    return asked(job_, options, [&](const Present& now) {
        auto outcome = stack::why_gap(now.job, inboard, outboard, now.options);
        if (auto* const answer = std::get_if<stack::WhyAnswer>(&outcome)) weigh(*answer, now);
        return outcome;
    });
}

Expected<odds::OddsAnswer> Study::odds(const OddsOptions& options) const {
    return asked(job_, options, [&](const Present& now) {
        odds::Options how;
        how.stack = now.options;
        how.sampling.samples = options.samples;
        how.sampling.seed = options.seed;
        how.sampling.threads = options.threads;
        how.sampling.precision = options.precision;
        return odds::odds(now.job, how);
    });
}

Expected<plan::PlanAnswer> Study::plan(const PlanOptions& options) const {
    using Outcome = std::variant<plan::PlanAnswer, job::Complaints>;
    auto built = stack::as_built(job_, options.entries.value_or(job_.record.size()));
    if (auto* const complaints = std::get_if<job::Complaints>(&built))
        return std::move(*complaints);
    auto& now = std::get<job::Job>(built);
    // A plan is made from the parts as they are, not as an earlier plan would leave them.
    const auto planned = job::planned_warning(now, true);
    if (planned) now = job::Job(*now.before);
    auto judged = bound(now, options);
    if (auto* const complaints = std::get_if<job::Complaints>(&judged))
        return std::move(*complaints);
    plan::JobOptions how{.stack = std::move(std::get<stack::Options>(judged))};
    how.top = options.top;
    how.watch.seconds = options.seconds;
    if (options.odds_level)
        sheet::judge_by_odds(*options.odds_level, how.stack, how);
    else if (how.stack.judge == stack::Judge::rss)
        sheet::show_odds(how.stack, how);
    auto model = stack::model_for(now, how.stack);
    if (auto* const complaints = std::get_if<job::Complaints>(&model))
        return std::move(*complaints);
    plan::PlanAnswer answer = plan::plan(std::get<stack::Model>(model), how);
    if (planned) answer.warnings.insert(answer.warnings.begin(), *planned);
    return Outcome(std::move(answer));
}

Expected<survey::SurveyAnswer> Study::survey() const {
    return asked(job_, {.as_written = true},
                 [](const Present& now) { return survey::survey(now.job); });
}

Expected<seat::SeatAnswer> Study::seat(const StudyOptions& options) const {
    return asked(job_, options,
                 [](const Present& now) { return seat::seat(now.job, now.options); });
}

Expected<timing::TimingAnswer> Study::timing() const {
    return asked(job_, {.as_written = true},
                 [](const Present& now) { return timing::timing(now.job); });
}

Expected<spin::SpinAnswer> Study::spin(const StudyOptions& options) const {
    return asked(job_, options,
                 [](const Present& now) { return spin::spin(now.job, now.options); });
}

Expected<draw::Section> Study::section(const StudyOptions& options) const {
    return asked(job_, options,
                 [](const Present& now) { return draw::section(now.job, now.options); });
}

Expected<sheet::SheetAnswer> Study::sheet(const StudyOptions& options) const {
    std::string text = text_;
    if (text.empty()) {
        reading::WrittenJob written = reading::write(job_);
        if (!written.text) return std::move(written.complaints);
        text = std::move(*written.text);
    }
    return asked(job_, options,
                 [&](const Present& now) { return sheet::sheet(now.job, now.options, text); });
}

const stack::CheckResult* find_check(const stack::CheckAnswer& answer, std::string_view name) {
    const auto found = std::ranges::find(answer.checks, name, &stack::CheckResult::name);
    return found == answer.checks.end() ? nullptr : &*found;
}

const odds::CheckOdds* find_odds(const odds::OddsAnswer& answer, std::string_view name) {
    const auto found = std::ranges::find(answer.checks, name, &odds::CheckOdds::name);
    return found == answer.checks.end() ? nullptr : &*found;
}

}  // namespace trialfit
