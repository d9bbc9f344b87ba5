// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <string_view>
#include <trialfit/draw/drawing.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

// Advance widths in em of the widest common fonts (DejaVu Sans, Verdana), rounded up by class.
constexpr std::array<double, 0x80> ascii_widths() {
    std::array<double, 0x80> widths{};
    for (std::size_t c = 0; c < widths.size(); ++c)
        widths.at(c) = c >= 'A' && c <= 'Z' ? 0.74 : 0.66;
    for (const char narrow : std::string_view("iljI.,:;'|!()[]/- "))
        widths.at(static_cast<std::size_t>(narrow)) = 0.4;
    for (const char wide : std::string_view("mwMW@%"))
        widths.at(static_cast<std::size_t>(wide)) = 1.0;
    return widths;
}

constexpr std::array<double, 0x80> kAscii = ascii_widths();

double letter_width(char32_t letter) {
    if (letter < kAscii.size()) return kAscii.at(letter);
    const bool combining = letter >= 0x300 && letter <= 0x36F;
    const bool format = letter == 0x200B || (letter >= 0x2066 && letter <= 0x2069);
    if (combining || format) return 0.0;
    const bool wide = letter >= 0x1100 && (letter <= 0x115F || letter >= 0x2E80);
    return wide ? 1.1 : 0.85;
}

Spot turned(const Spot& p, double cosine, double sine) {
    return {p.x * cosine + p.y * sine, p.y * cosine - p.x * sine};
}

// Where the run crosses the line y = `level` in turned coordinates.
void add_crossings(const std::vector<Spot>& run, double level, std::vector<double>& into) {
    for (std::size_t i = 0; i < run.size(); ++i) {
        const Spot& a = run[i];
        const Spot& b = run[(i + 1) % run.size()];
        if ((a.y <= level) == (b.y <= level)) continue;
        into.push_back(a.x + (b.x - a.x) * (level - a.y) / (b.y - a.y));
    }
}

// Keeps the side of the line a x + b y <= c.
std::vector<Spot> cut(const std::vector<Spot>& run, double a, double b, double c) {
    std::vector<Spot> out;
    for (std::size_t i = 0; i < run.size(); ++i) {
        const Spot& p = run[i];
        const Spot& q = run[(i + 1) % run.size()];
        const double at_p = a * p.x + b * p.y - c;
        const double at_q = a * q.x + b * q.y - c;
        if (at_p <= 0.0) out.push_back(p);
        if ((at_p < 0.0 && at_q > 0.0) || (at_p > 0.0 && at_q < 0.0)) {
            const double t = at_p / (at_p - at_q);
            out.push_back({p.x + t * (q.x - p.x), p.y + t * (q.y - p.y)});
        }
    }
    return out;
}

}  // namespace

double text_width(const std::string& text, double size, bool bold) {
    double em = 0.0;
    for (std::size_t i = 0; i < text.size();) {
        const auto first = static_cast<unsigned char>(text[i]);
        std::size_t length = 1;
        if (first >= 0xF0) {
            length = 4;
        } else if (first >= 0xE0) {
            length = 3;
        } else if (first >= 0xC0) {
            length = 2;
        }
        char32_t letter = length == 1 ? first : first & (0xFFU >> (length + 1));
        for (std::size_t k = 1; k < length && i + k < text.size(); ++k)
            letter = (letter << 6U) | (static_cast<unsigned char>(text[i + k]) & 0x3FU);
        em += letter_width(letter);
        i += length;
    }
    constexpr double kBold = 1.1;
    return em * size * (bold ? kBold : 1.0);
}

Text text_at(Spot at, double size, Anchor anchor, std::string strong, std::string words) {
    const double width = text_width(strong, size, true) + text_width(words, size);
    double x0 = at.x;
    if (anchor == Anchor::middle) x0 -= width / 2.0;
    if (anchor == Anchor::end) x0 -= width;
    constexpr double kRise = 0.8;
    constexpr double kFall = 0.25;
    return {.at = at,
            .size = size,
            .anchor = anchor,
            .strong = std::move(strong),
            .words = std::move(words),
            .box = {x0, at.y - kRise * size, x0 + width, at.y + kFall * size}};
}

Path on_paper(const Box& box, double pad) {
    const Box wide{box.x0 - pad, box.y0 - pad, box.x1 + pad, box.y1 + pad};
    return filled_path(
        Fill::paper,
        {{{wide.x0, wide.y0}, {wide.x1, wide.y0}, {wide.x1, wide.y1}, {wide.x0, wide.y1}}});
}

std::vector<std::vector<Spot>> hatched(const std::vector<std::vector<Spot>>& region,
                                       const Hatch& hatch) {
    const double angle = hatch.degrees * std::numbers::pi / 180.0;
    const double cosine = std::cos(angle);
    const double sine = std::sin(angle);
    std::vector<std::vector<Spot>> flat;
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    for (const auto& run : region) {
        flat.emplace_back();
        for (const Spot& p : run) {
            flat.back().push_back(turned(p, cosine, sine));
            low = std::min(low, flat.back().back().y);
            high = std::max(high, flat.back().back().y);
        }
    }
    std::vector<std::vector<Spot>> out;
    constexpr double kMostLines = 5000.0;
    if (!(high > low) || (high - low) / hatch.pitch > kMostLines) return out;
    constexpr double kTwin = 0.3;  // of the pitch, between the two lines of a doubled one
    const double first = (std::floor(low / hatch.pitch) + 0.5) * hatch.pitch;
    // NOLINTNEXTLINE(clang-analyzer-security.FloatLoopCounter): steps of its own
    for (double line = first; line < high; line += hatch.pitch) {
        const std::array levels{line, line + kTwin * hatch.pitch};
        for (std::size_t twin = 0; twin < (hatch.doubled ? 2U : 1U); ++twin) {
            std::vector<double> at;
            for (const auto& run : flat)
                add_crossings(run, levels.at(twin), at);
            std::ranges::sort(at);
            for (std::size_t i = 0; i + 1 < at.size(); i += 2)
                out.push_back({turned({at[i], levels.at(twin)}, cosine, -sine),
                               turned({at[i + 1], levels.at(twin)}, cosine, -sine)});
        }
    }
    return out;
}

std::vector<std::vector<Spot>> clipped(const std::vector<std::vector<Spot>>& region,
                                       const Box& to) {
    std::vector<std::vector<Spot>> out;
    for (std::vector<Spot> run : region) {
        run = cut(run, -1.0, 0.0, -to.x0);
        run = cut(run, 1.0, 0.0, to.x1);
        run = cut(run, 0.0, -1.0, -to.y0);
        run = cut(run, 0.0, 1.0, to.y1);
        if (run.size() >= 3) out.push_back(std::move(run));
    }
    return out;
}

}  // namespace trialfit::draw
