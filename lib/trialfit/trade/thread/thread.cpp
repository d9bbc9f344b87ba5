// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <trialfit/quantity/characters.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/trade/reference/written.hpp>
#include <trialfit/trade/thread/thread.hpp>
#include <vector>

namespace trialfit::trade {

namespace {

using quantity::kMmPerInch;
// No series comes near: the coarsest are M1x0.25 and #1-64. Beyond it hardly a core is left, and a
// pitch is far more likely to be mistyped.
constexpr double kGreatestPitchShare = 0.4;
constexpr std::size_t kLongestDesignation = 64;

std::string in_quotes(std::string_view text) {
    return "'" + std::string(text) + "'";
}

std::string without_blanks(std::string_view text) {
    std::string answer;
    for (const char each : text)
        if (each != ' ' && each != '\t') answer += each;
    return answer;
}

std::vector<std::string> parts_of(const std::string& tail) {
    std::vector<std::string> parts;
    for (std::size_t at = 0; at < tail.size();) {
        const std::size_t next = std::min(tail.find('-', at + 1), tail.size());
        parts.emplace_back(trimmed(std::string_view(tail).substr(at + 1, next - at - 1)));
        at = next;
    }
    return parts;
}

Reason unknown_class(std::string_view written, bool metric) {
    const std::string mend =
        metric ? "write a grade 3 to 9 and a letter, e f g h for a bolt or G H for a nut, as in 6g "
                 "or 6H"
               : "write 1A, 2A or 3A for a bolt, 1B, 2B or 3B for a nut";
    return Reason{in_quotes(written) + " is no thread tolerance class; " + mend};
}

// What follows the size: class, engagement group, hand, each at most once.
std::optional<Reason> read_tail(const std::string& tail, ThreadForm& form) {
    bool engagement_read = false;
    for (const std::string& part : parts_of(tail)) {
        const std::string capitals = upper_case(part);
        if (capitals == "LH" || capitals == "RH") {
            form.left_hand = capitals == "LH";
        } else if (is_metric(form.series) && !engagement_read &&
                   (part == "S" || part == "N" || part == "L")) {
            form.engagement = part.front();
            engagement_read = true;
        } else {
            if (form.tolerance)
                return Reason{in_quotes(form.written) + " names two tolerance classes; keep one"};
            if (part.find('/') != std::string::npos)
                return Reason{in_quotes(part) +
                              " is a pair of classes; give each part its own, the nut's or the "
                              "bolt's"};
            const auto read = thread_class(is_metric(form.series) ? part : capitals);
            if (!read) return read.why();
            if ((read->unified != 0) == is_metric(form.series))
                return unknown_class(part, is_metric(form.series));
            form.tolerance = *read;
        }
    }
    return {};
}

std::optional<Reason> pitch_too_large(const ThreadForm& form) {
    if (form.pitch_mm > 0.0 && form.pitch_mm <= kGreatestPitchShare * form.d_mm) return {};
    std::string mend = "check the pitch";
    const auto coarse = coarse_pitch_mm(form.d_mm);
    if (is_metric(form.series) && coarse)
        mend = "the coarse pitch of M" + shown(form.d_mm) + " is " + shown(*coarse);
    return Reason{in_quotes(form.written) + " has a pitch of " + shown(form.pitch_mm) +
                  " mm, which a diameter of " + shown(form.d_mm) + " mm does not allow; " + mend};
}

Reason not_a_thread(std::string_view text) {
    return Reason{in_quotes(text) +
                  " is no thread designation; write M10x1.25-6g, M10-6H, 3/8-24 UNF-2A or "
                  "#10-32 UNF-2B, with -LH for left-hand"};
}

// "M10x1.25-6g" taken apart, without blanks: "10", "1.25" (empty where it names no pitch) and
// "-6g".
struct MetricText {
    std::string_view diameter;
    std::string_view pitch;
    std::string_view tail;
};

std::string_view figures_at(std::string_view text) {
    return text.substr(0, std::min(text.find_first_not_of("0123456789."), text.size()));
}

// Nothing where it is not written so: a figure after the M and after any multiplication sign, and
// something after each dash.
std::optional<MetricText> metric_text(std::string_view text) {
    if (text.empty() || (text.front() != 'M' && text.front() != 'm')) return std::nullopt;
    MetricText found{.diameter = figures_at(text.substr(1))};
    text.remove_prefix(1 + found.diameter.size());
    for (const std::string_view sign : {"x", "X", "*", "\xc3\x97"}) {
        if (text.substr(0, sign.size()) != sign) continue;
        found.pitch = figures_at(text.substr(sign.size()));
        if (found.pitch.empty()) return std::nullopt;
        text.remove_prefix(sign.size() + found.pitch.size());
        break;
    }
    found.tail = text;
    const bool dashes_end_it = !text.empty() && text.back() == '-';
    const bool sound = text.empty() || (text.front() == '-' && !dashes_end_it);
    if (found.diameter.empty() || !sound || text.find("--") != std::string_view::npos)
        return std::nullopt;
    return found;
}

Result<ThreadForm> metric(std::string_view text) {
    const std::string compact = without_blanks(text);
    const auto found = metric_text(compact);
    if (!found) return not_a_thread(text);
    const auto diameter = decimal(std::string(found->diameter));
    if (!diameter || *diameter <= 0.0) return not_a_thread(text);
    const auto coarse = coarse_pitch_mm(*diameter);
    auto pitch = coarse;
    if (!found->pitch.empty()) {
        pitch = decimal(std::string(found->pitch));
        if (!pitch || *pitch <= 0.0) return not_a_thread(text);
    }
    if (!pitch)
        return Reason{in_quotes(text) + " names no pitch, and ISO 261 has no coarse pitch for M" +
                      shown(*diameter) + "; write the pitch, as in M" + shown(*diameter) + "x1.5"};
    ThreadForm form;
    form.written = std::string(text);
    form.series = pitch == coarse ? ThreadSeries::metric_coarse : ThreadSeries::metric_fine;
    form.d_mm = *diameter;
    form.pitch_mm = *pitch;
    if (const auto reason = pitch_too_large(form)) return *reason;
    if (const auto reason = read_tail(std::string(found->tail), form)) return *reason;
    return form;
}

// A decimal of three places stands for the sixteenth it is rounded from: .313 for 5/16.
double whole_sixteenth(double inches) {
    const double sixteenth = std::round(inches * 16.0) / 16.0;
    return inches >= 0.25 && std::abs(inches - sixteenth) < 6e-4 ? sixteenth : inches;
}

bool is_numbered_size(double number, std::optional<double> per_inch) {
    constexpr std::array kNumbers{0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0};
    if (std::find(kNumbers.begin(), kNumbers.end(), number) == kNumbers.end()) return false;
    const double inches = numbered_size_in(static_cast<int>(number));
    constexpr std::array kSeries{ThreadSeries::unc, ThreadSeries::unf, ThreadSeries::unef};
    return per_inch && std::any_of(kSeries.begin(), kSeries.end(), [&](ThreadSeries series) {
               return series_per_inch(series, inches) == per_inch;
           });
}

std::optional<ThreadSeries> series_named(const std::string& word) {
    if (word == "UNC" || word == "UNRC") return ThreadSeries::unc;
    if (word == "UNF" || word == "UNRF") return ThreadSeries::unf;
    if (word == "UNEF" || word == "UNREF") return ThreadSeries::unef;
    if (word == "UN" || word == "UNR") return ThreadSeries::un;
    if (word == "UNS" || word == "UNRS") return ThreadSeries::uns;
    return {};
}

ThreadSeries series_of(double d_in, double per_inch) {
    for (const auto series : {ThreadSeries::unc, ThreadSeries::unf, ThreadSeries::unef})
        if (series_per_inch(series, d_in) == per_inch) return series;
    constexpr std::array kConstantPitch{4.0, 6.0, 8.0, 12.0, 16.0, 20.0, 28.0, 32.0};
    const bool constant =
        std::find(kConstantPitch.begin(), kConstantPitch.end(), per_inch) != kConstantPitch.end();
    return constant ? ThreadSeries::un : ThreadSeries::uns;
}

// The diameter of a unified thread in inches, from the mark, the number and the pitch.
std::optional<double> unified_diameter(bool marked, const std::string& size,
                                       std::optional<double> per_inch) {
    const auto number = decimal_or_fraction(size);
    if (!number || *number < 0.0) return {};
    const bool plain = size.find_first_not_of("0123456789") == std::string::npos;
    if (marked) {
        if (!plain || *number > 12.0) return {};
        return numbered_size_in(static_cast<int>(*number));
    }
    // `10-32` means number 10, `1-8` one inch: the pitch tells them apart.
    if (plain && is_numbered_size(*number, per_inch))
        return numbered_size_in(static_cast<int>(*number));
    return whole_sixteenth(*number);
}

struct UnifiedPitch {
    ThreadSeries series = ThreadSeries::uns;
    double per_inch = 0.0;
};

Result<UnifiedPitch> unified_pitch(std::string_view text, const std::string& word, double d_in,
                                   std::optional<double> per_inch) {
    const auto named = series_named(word);
    if (!word.empty() && !named)
        return Reason{in_quotes(word) +
                      " is no thread series known here; write UNC, UNF, UNEF, UN "
                      "or UNS"};
    const bool fixed = named && *named != ThreadSeries::un && *named != ThreadSeries::uns;
    if (!fixed && !per_inch)
        return Reason{in_quotes(text) +
                      " does not say how many threads per inch; write 3/8-24 UNF"};
    if (!fixed) return UnifiedPitch{series_of(d_in, *per_inch), *per_inch};
    const auto standard = series_per_inch(*named, d_in);
    if (!standard)
        return Reason{in_quotes(text) + ": " + std::string(name(*named)) + " has no size of " +
                      shown(d_in) + " in; write UNS for a special thread"};
    if (per_inch && *per_inch != *standard)
        return Reason{in_quotes(text) + ": " + std::string(name(*named)) + " at this size has " +
                      shown(*standard) + " threads per inch, not " + shown(*per_inch) +
                      "; mend the pitch or the series"};
    return UnifiedPitch{*named, *standard};
}

// "1 1/8-12 UNF-2A" taken apart: "1 1/8", "12", "UNF" (each of these two may be empty) and "-2A".
struct UnifiedText {
    bool numbered = false;  // "#10" or "No. 10"
    std::string_view size;
    std::string_view per_inch;
    std::string_view series;
    std::string_view tail;
};

constexpr std::string_view kDigits = "0123456789";

std::size_t length_of(std::string_view of, std::string_view text) {
    return std::min(text.find_first_not_of(of), text.size());
}

// The length of "3/8" at the beginning of `text`; 0 where there is none.
std::size_t fraction_length(std::string_view text) {
    const std::size_t above = length_of(kDigits, text);
    if (above == 0 || text.substr(above, 1) != "/") return 0;
    const std::size_t below = length_of(kDigits, text.substr(above + 1));
    return below == 0 ? 0 : above + 1 + below;
}

// The length of "1 1/8", "1-1/8", "3/8", "0.375", ".375" or "10" at the beginning of `text`.
std::size_t size_length(std::string_view text) {
    const std::size_t whole = length_of(kDigits, text);
    const std::string_view rest = text.substr(whole);
    if (whole > 0 && !rest.empty() && (rest.front() == ' ' || rest.front() == '-')) {
        const std::size_t fraction = fraction_length(rest.substr(1));
        if (fraction > 0) return whole + 1 + fraction;
    }
    if (const std::size_t fraction = fraction_length(text)) return fraction;
    if (rest.substr(0, 1) != ".") return whole;
    const std::size_t decimals = length_of(kDigits, rest.substr(1));
    return decimals == 0 ? whole : whole + 1 + decimals;
}

// Takes what `text` begins with away from it.
std::string_view taken(std::string_view& text, std::size_t length) {
    const std::string_view begin = text.substr(0, length);
    text.remove_prefix(length);
    return begin;
}

// Blanks, a dash, blanks: their length; 0 where there is no dash.
std::size_t dash_length(std::string_view text) {
    const std::size_t before = length_of(" ", text);
    if (text.substr(before, 1) != "-") return 0;
    return before + 1 + length_of(" ", text.substr(before + 1));
}

// Whether a tail is words, each after a dash.
bool dashed_words(std::string_view text) {
    while (!text.empty()) {
        const std::size_t dash = dash_length(text);
        const std::size_t word = std::min(text.find_first_of("- ", dash), text.size()) - dash;
        if (dash == 0 || word == 0) return false;
        text.remove_prefix(dash + word);
    }
    return true;
}

std::optional<UnifiedText> unified_text(std::string_view text) {
    UnifiedText found;
    for (const std::string_view mark : {"#", "NO. ", "NO."}) {
        if (found.numbered || text.substr(0, mark.size()) != mark) continue;
        found.numbered = true;
        text.remove_prefix(mark.size());
    }
    found.size = taken(text, size_length(text));
    if (found.size.empty()) return std::nullopt;
    if (text.substr(0, 1) == "\"") text.remove_prefix(1);
    const std::size_t dash = dash_length(text);
    if (dash > 0 && length_of(kDigits, text.substr(dash)) > 0) {
        text.remove_prefix(dash);
        std::size_t length = length_of(kDigits, text);
        if (text.substr(length, 1) == ".")
            length += 1 + length_of(kDigits, text.substr(length + 1));
        found.per_inch = taken(text, length);
    }
    const std::size_t blanks = length_of(" ", text);
    if (text.substr(blanks, 2) == "UN") {
        text.remove_prefix(blanks);
        found.series = taken(text, length_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ", text));
    }
    if (!dashed_words(text)) return std::nullopt;
    found.tail = text;
    return found;
}

Result<ThreadForm> unified(std::string_view text) {
    const std::string capitals = upper_case(std::string(text));
    const auto found = unified_text(capitals);
    if (!found) return not_a_thread(text);
    std::optional<double> per_inch;
    if (!found->per_inch.empty()) per_inch = decimal(std::string(found->per_inch));
    if (per_inch && *per_inch <= 0.0) return not_a_thread(text);
    if (!per_inch && found->series.empty()) return not_a_thread(text);
    const auto d_in = unified_diameter(found->numbered, std::string(found->size), per_inch);
    if (!d_in || *d_in <= 0.0) return not_a_thread(text);
    const auto pitch = unified_pitch(text, std::string(found->series), *d_in, per_inch);
    if (!pitch) return pitch.why();
    ThreadForm form;
    form.written = std::string(text);
    form.series = pitch->series;
    form.d_mm = *d_in * kMmPerInch;
    form.per_inch = pitch->per_inch;
    form.pitch_mm = kMmPerInch / pitch->per_inch;
    if (const auto reason = pitch_too_large(form)) return *reason;
    if (const auto reason = read_tail(std::string(found->tail), form)) return *reason;
    return form;
}

Result<ThreadClass> metric_class(std::string_view written) {
    const bool two = written.size() == 4;
    ThreadClass answer;
    answer.pitch = {written[0] - '0', written[1]};
    answer.crest = two ? ToleranceField{written[2] - '0', written[3]} : answer.pitch;
    constexpr std::string_view kBolt = "efgh";
    constexpr std::string_view kNut = "GH";
    const auto both_in = [&](std::string_view letters) {
        return letters.find(answer.pitch.position) != std::string_view::npos &&
               letters.find(answer.crest.position) != std::string_view::npos;
    };
    answer.internal = both_in(kNut);
    if (!answer.internal && !both_in(kBolt)) return unknown_class(written, true);
    if (answer.internal) {
        for (const ToleranceField& field : {answer.pitch, answer.crest})
            if (field.grade < 4 || field.grade > 8)
                return Reason{in_quotes(written) +
                              ": a nut thread takes grades 4 to 8; 6H is usual"};
        return answer;
    }
    if (answer.pitch.grade < 3) return unknown_class(written, true);
    if (answer.crest.grade != 4 && answer.crest.grade != 6 && answer.crest.grade != 8)
        return Reason{in_quotes(written) +
                      ": a bolt's major diameter takes grade 4, 6 or 8; name it after the pitch "
                      "diameter's, as in 5g6g"};
    return answer;
}

}  // namespace

Result<ThreadClass> thread_class(std::string_view written) {
    const std::string_view text = trimmed(written);
    const auto digit = [&](std::size_t at) { return quantity::digit(text[at]); };
    if (text.size() == 2 && digit(0) && (text[1] == 'A' || text[1] == 'B')) {
        if (text[0] < '1' || text[0] > '3') return unknown_class(text, false);
        return ThreadClass{text[1] == 'B', text[0] - '0', {}, {}};
    }
    if ((text.size() == 2 && digit(0)) || (text.size() == 4 && digit(0) && digit(2)))
        return metric_class(text);
    return unknown_class(text, true);
}

Result<ThreadForm> thread(std::string_view designation) {
    const std::string_view text = trimmed(designation);
    if (text.empty() || text.size() > kLongestDesignation)
        return not_a_thread(text.substr(0, kLongestDesignation));
    return text.front() == 'M' || text.front() == 'm' ? metric(text) : unified(text);
}

}  // namespace trialfit::trade
