// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <charconv>
#include <memory>
#include <optional>
#include <trialfit/draw/section/section.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/sheet/end_svg.hpp>
#include <trialfit/paper/sheet/section_words.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/reading/dates.hpp>
#include <trialfit/sheet/before_after.hpp>
#include <trialfit/sheet/end_view.hpp>
#include <utility>
#include <vector>

#include "busy.hpp"
#include "command.hpp"
#include "exit_codes.hpp"
#include "files/convert.hpp"
#include "files/input.hpp"
#include "files/page.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

// Millimetres on paper for one in the engine, and how it was written.
struct Scale {
    std::optional<double> paper_per_real;  ///< nothing: what fits
    std::string written = "fit";
};

// "2:1", "1:2.5", "fit".
std::optional<Scale> scale_of(const std::string& text) {
    if (text == "fit") return Scale{};
    const std::size_t colon = text.find(':');
    if (colon == std::string::npos) return std::nullopt;
    const char* middle = text.data() + colon;
    const char* end = text.data() + text.size();
    double paper = 0.0;
    double real = 0.0;
    const auto one = std::from_chars(text.data(), middle, paper);
    const auto other = std::from_chars(middle + 1, end, real);
    const bool read =
        one.ec == std::errc() && one.ptr == middle && other.ec == std::errc() && other.ptr == end;
    constexpr double kMost = 1e6;
    if (!read || !(paper > 0.0 && paper <= kMost && real > 0.0 && real <= kMost))
        return std::nullopt;
    return Scale{.paper_per_real = paper / real, .written = text};
}

struct DrawGiven : PageGiven {
    Scale scale;
    std::string date;
    std::string who;
    bool plan = false;
    bool end = false;
    bool detail = false;
};

int too_large(const DrawGiven& given, const draw::TooLarge& needs) {
    const std::string size = fmt::format("{:.0f} x {:.0f} mm", needs.width, needs.height);
    const bool largest = given.paper == "A3";
    if (!given.scale.paper_per_real)
        return refuse_line(
            fmt::format("names and figures alone need {}, more than {} has", size, given.paper),
            largest ? "draw a job of fewer parts" : "--paper A3 is larger");
    return refuse_line(fmt::format("at {} the drawing needs {}, more than {} has",
                                   given.scale.written, size, given.paper),
                       largest
                           ? "--scale fit takes the largest that goes on it"
                           : "--paper A3 is larger, and --scale fit takes what goes on the page");
}

using States = std::variant<std::vector<draw::Section>, job::Complaints>;

// The job as it stands and, where a plan is asked for, after the cheapest plan's work.
States states_of(const DrawGiven& given, const Loaded& loaded, const stack::Options& options) {
    if (given.plan) {
        auto outcome = sheet::before_and_after(loaded.job, options);
        if (auto* complaints = std::get_if<job::Complaints>(&outcome)) return *complaints;
        auto& both = std::get<sheet::BeforeAfter>(outcome);
        std::vector<draw::Section> out{std::move(both.before)};
        if (both.after) out.push_back(std::move(*both.after));
        return out;
    }
    auto outcome = draw::section(loaded.job, options);
    if (auto* complaints = std::get_if<job::Complaints>(&outcome)) return *complaints;
    return std::vector<draw::Section>{std::move(std::get<draw::Section>(outcome))};
}

draw::PageSize lying(const Paper& paper) {
    return {.width = paper.height, .height = paper.width};
}

int hand_over_picture(const std::string& svg, const DrawGiven& given) {
    const auto made = converted(svg, picture_format(given.file), given.file.value_or(""));
    if (const int* const code = std::get_if<int>(&made)) return *code;
    return hand_over(std::get<std::string>(made), given);
}

int draw_end(const DrawGiven& given, const Loaded& loaded, const stack::Options& options,
             const draw::PageSize& page) {
    auto outcome = while_busy([&] { return sheet::end_view(loaded.job, options); });
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        return complain(*complaints, loaded);
    return hand_over_picture(paper::end_svg(std::get<sheet::EndAnswer>(outcome), page,
                                            {.who = given.who, .date = given.date}),
                             given);
}

int draw_details(const DrawGiven& given, const draw::Section& section, const draw::PageSize& page) {
    const auto drawn = paper::details_svg(section, page, {.who = given.who, .date = given.date});
    if (!drawn)
        return refuse_line(
            "there is nothing to magnify: no jam, no gap too small to see, no "
            "unequal tapers, no lead-in",
            "leave out --detail for the whole section");
    return hand_over_picture(*drawn, given);
}

int run(const DrawGiven& given) {
    if (!given.date.empty() && !reading::is_date(given.date))
        return refuse_line(fmt::format("--date '{}' is not a date", paper::harmless(given.date)),
                           "write it like '2026-11-25'");
    const auto paper = paper_named(given.paper);
    if (!paper) return kWrong;
    const PictureFormat format = picture_format(given.file);
    if (!can_convert(format, given.file.value_or(""))) return kWrong;
    if (const int code = may_hand_over(given); code != kHolds) return code;
    if ((given.end || given.detail) && (given.plan || given.scale.paper_per_real))
        return refuse_line("--end and --detail show the parts as they are, at scales of their own",
                           "leave out --plan and --scale");
    if (given.end && given.detail)
        return refuse_line("--end and --detail are two drawings", "ask for one of them");
    const auto loaded = load(given.job, given.as_of, given.what_if);
    if (!loaded) return kWrong;
    stack::Options options;
    if (!bind_readings(options, {.as_written = given.as_written}, *loaded)) return kWrong;
    if (given.end) return draw_end(given, *loaded, options, lying(*paper));
    auto states = while_busy([&] { return states_of(given, *loaded, options); });
    if (const auto* complaints = std::get_if<job::Complaints>(&states))
        return complain(*complaints, *loaded);
    const auto& sections = std::get<std::vector<draw::Section>>(states);
    if (given.detail) return draw_details(given, sections.front(), lying(*paper));
    const bool standing = sections.size() > 1;
    const auto drawn =
        paper::section_svg(sections,
                           {.width = standing ? paper->width : paper->height,
                            .height = standing ? paper->height : paper->width},
                           given.scale.paper_per_real, {.who = given.who, .date = given.date});
    if (const auto* needs = std::get_if<draw::TooLarge>(&drawn)) return too_large(given, *needs);
    return hand_over_picture(std::get<std::string>(drawn), given);
}

}  // namespace

Command add_draw(CLI::App& program) {
    auto given = std::make_shared<DrawGiven>();
    CLI::App* line = program.add_subcommand("draw", "The section above the axis to scale, as SVG");
    add_page_options(*line, *given, "A4, A3 or Letter");
    const auto take_scale = [given](const std::string& text) {
        const auto scale = scale_of(text);
        if (!scale)
            throw WrongValue("--scale '" + text + "' is neither fit nor a scale such as 2:1");
        given->scale = *scale;
    };
    line->add_option_function<std::string>("--scale", take_scale,
                                           "Paper to metal: 1:1, 2:1, 1:2, or fit")
        ->type_name("SCALE");
    line->add_flag("--plan", given->plan, "Before and after the cheapest plan, page standing");
    line->add_flag("--end", given->end,
                   "The gap by the clock from outboard, which way to move what");
    line->add_flag("--detail", given->detail,
                   "Jams, small gaps, unequal tapers and lead-ins, magnified");
    line->add_option("--date", given->date, "For the title block; empty where not given")
        ->type_name("DATE");
    line->add_option("--who", given->who, "For the title block, likewise")->type_name("NAME");
    line->group("Commands");
    set_help(*line, "JOB [options]",
             "Examples:\n"
             "  trialfit draw engine.yaml -o engine.svg\n"
             "  trialfit draw engine.yaml --scale 1:1 --paper A3 > engine.svg\n"
             "  trialfit draw engine.yaml --plan -o work.pdf --who \"A. Turner\"\n\n"
             "A FILE that ends in .png or .pdf is made through rsvg-convert (package\n"
             "librsvg2-bin). Each part is drawn where it comes to rest, and dashed where it\n"
             "should sit.\n"
             "Ends with 0 where it was drawn, whether or not the parts fit.");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
