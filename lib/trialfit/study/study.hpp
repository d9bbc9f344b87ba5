// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <trialfit/draw/section/section.hpp>
#include <trialfit/job/job.hpp>
#include <trialfit/odds/answers.hpp>
#include <trialfit/plan/answers.hpp>
#include <trialfit/seat/answers.hpp>
#include <trialfit/sheet/sheet.hpp>
#include <trialfit/spin/answers.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/study/expected.hpp>
#include <trialfit/study/options.hpp>
#include <trialfit/survey/answers.hpp>
#include <trialfit/timing/answers.hpp>
#include <vector>

namespace trialfit {

/// A job, and every answer about it in one call. The record is carried out and the readings bind
/// the sizes, as in the program's commands. Lengths of all answers are in the job's unit, names as
/// the job has them ("plate.front").
///
/// A study never changes: a changed size makes another study. Nothing is shared and nothing kept
/// between calls, so that one study may be asked from several threads at once. Nothing is printed,
/// and no input ends or throws; what is wrong comes back as complaints with their places.
class Study {
public:
    /// Reads the text of a job file; `name` stands for it in messages.
    [[nodiscard]] static Expected<Study> read(std::string_view text, std::string name = "job");
    /// Reads a job file, at most reading::kLargestFile bytes of it.
    [[nodiscard]] static Expected<Study> read_file(const std::filesystem::path& path);
    /// Takes a job that was made in memory (JobBuilder) and not carried out yet
    /// (Job::in_force = 0). Complaints as job::validate.
    [[nodiscard]] static Expected<Study> of(job::Job job);

    /// The job as it was read: the parts as they came, the record beside them.
    [[nodiscard]] const job::Job& job() const { return job_; }
    /// The names under which with() changes a size.
    [[nodiscard]] std::vector<std::string> sizes() const;
    /// The same job with another size: `what` is
    /// - a face ("plate.front"): how far it lies from the face that it is dimensioned from or, once
    ///   it is cut, from the face that its cut is measured from; of one dimensioned more than once,
    ///   "plate.front from plate.back";
    /// - a seat's "rotor.offset", "crank.play", or its shims ("stator.shims", as "0.5 + 0.3");
    /// - a cone's diameter ("rotor.bore"), a ring's ("rotor.skirt.bore", "rotor.skirt.od"), a
    ///   thread's "nut.inside.lead_in" or "nut.inside.run_out";
    /// - "stator.clearance" of what centres it, "rotor.runout", "rotor.face_runout";
    /// - a trial-fit reading, by its name.
    /// What the record says of it since is changed in the record.
    /// `size` in any form of the format ("5.53 +-0.03", "5.51 by caliper"); a bare number keeps the
    /// limits that the size had about it. Complaints where there is no such size or it cannot be
    /// read, and as read().
    [[nodiscard]] Expected<Study> with(std::string_view what, std::string_view size) const;
    /// The same job once a face was cut to `size` from the face that its cut is measured from: one
    /// more entry in the record, of the day `date` ("2026-11-25"). What was read before binds the
    /// parts as they were, while with() would hold it against the new size. Complaints where the
    /// job lists no such cut, and as with().
    [[nodiscard]] Expected<Study> cut(std::string_view face, std::string_view size,
                                      std::string date) const;
    /// The job as a file of the format, see reading::write; comments of a file that was read are
    /// not kept.
    [[nodiscard]] Expected<std::string> yaml() const;

    /// Does it fit, and what touches first. Doubtful findings have their odds beside them.
    [[nodiscard]] Expected<stack::CheckAnswer> check(const StudyOptions& options = {}) const;
    /// The sizes behind a check, by its name; or behind the gap of two faces.
    [[nodiscard]] Expected<stack::WhyAnswer> why(std::string_view check,
                                                 const StudyOptions& options = {}) const;
    [[nodiscard]] Expected<stack::WhyAnswer> why_gap(std::string_view inboard,
                                                     std::string_view outboard,
                                                     const StudyOptions& options = {}) const;
    /// The odds of each finding, and of all together.
    [[nodiscard]] Expected<odds::OddsAnswer> odds(const OddsOptions& options = {}) const;
    /// What to cut, lap, skim and shim, cheapest first, from the parts as they are (planned work
    /// set aside).
    [[nodiscard]] Expected<plan::PlanAnswer> plan(const PlanOptions& options = {}) const;
    /// Do readings and sizes agree, and which one is suspect.
    [[nodiscard]] Expected<survey::SurveyAnswer> survey() const;
    /// Does the cone hold; complaints where the job has no seat section.
    [[nodiscard]] Expected<seat::SeatAnswer> seat(const StudyOptions& options = {}) const;
    /// Firing point, marks and slot; complaints where the job has no timing section.
    [[nodiscard]] Expected<timing::TimingAnswer> timing() const;
    /// Whether what turns carries the engine over compression, fast enough to spark; complaints
    /// where the job has no spin section.
    [[nodiscard]] Expected<spin::SpinAnswer> spin(const StudyOptions& options = {}) const;
    /// The section above the axis, for paper::section_svg.
    [[nodiscard]] Expected<draw::Section> section(const StudyOptions& options = {}) const;
    /// The page for the lathe and the shelf, for paper::sheet_html.
    [[nodiscard]] Expected<sheet::SheetAnswer> sheet(const StudyOptions& options = {}) const;

private:
    Study(job::Job job, std::string text) : job_(std::move(job)), text_(std::move(text)) {}

    job::Job job_;
    /// What it was read from; empty of a job made in memory.
    std::string text_;
};

/// The finding of that name in an answer, or null: a check of the job.
[[nodiscard]] const stack::CheckResult* find_check(const stack::CheckAnswer& answer,
                                                   std::string_view name);
[[nodiscard]] const odds::CheckOdds* find_odds(const odds::OddsAnswer& answer,
                                               std::string_view name);

}  // namespace trialfit
