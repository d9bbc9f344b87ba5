// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/paper/sheet/section_text.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/words.hpp>
#include <vector>

namespace trialfit::paper {

namespace {

using draw::Point;

constexpr std::size_t kPictureColumns = 76;
constexpr double kLines = 22.0;
constexpr double kHigh = 2.0;  // a line's height in columns, on a common terminal
constexpr std::size_t kPictureInset = 2;
constexpr std::size_t kLetters = 26;
constexpr char kJam = 'X';
constexpr char kShim = '=';

// Turning parts have A, B and so on, still ones a, b: in the parts' order; X is a jam's.
char letter_of(const draw::PartShape& part, std::size_t index) {
    std::size_t n = index % (kLetters - 1);
    if (n >= static_cast<std::size_t>(kJam - 'A')) ++n;
    return static_cast<char>((part.turns ? 'A' : 'a') + static_cast<char>(n));
}

bool lies_in(const draw::Solid& s, const Point& at) {
    if (at.z < s.z0 || at.z > s.z1) return false;
    const double share = (at.z - s.z0) / (s.z1 - s.z0);
    return at.r >= s.inner0 + share * (s.inner1 - s.inner0) &&
           at.r <= s.outer0 + share * (s.outer1 - s.outer0);
}

// By the even-odd rule.
bool lies_in(const std::vector<draw::Loop>& zone, const Point& at) {
    bool in = false;
    for (const draw::Loop& loop : zone)
        for (std::size_t i = 0; i < loop.size(); ++i) {
            const Point& a = loop[i];
            const Point& b = loop[(i + 1) % loop.size()];
            if ((a.r <= at.r) != (b.r <= at.r) &&
                a.z + (b.z - a.z) * (at.r - a.r) / (b.r - a.r) > at.z)
                in = !in;
        }
    return in;
}

class Grid {
public:
    Grid(const draw::Section& section, std::size_t width) : section_(section) {
        const std::size_t wide = std::min(width - kPictureInset, kPictureColumns);
        const double span = std::max(section.z_max - section.z_min, 1e-9);
        const double high = std::max(section.r_max, 1e-9);
        per_unit_ = std::min(static_cast<double>(wide) / span, kLines * kHigh / high);
        const auto columns = std::min(wide, static_cast<std::size_t>(std::ceil(span * per_unit_)));
        const auto lines = static_cast<std::size_t>(std::ceil(high * per_unit_ / kHigh));
        lines_.assign(std::max<std::size_t>(lines, 1),
                      std::string(std::max<std::size_t>(columns, 1), ' '));
    }

    void fill() {
        for (std::size_t line = 0; line < lines_.size(); ++line)
            for (std::size_t column = 0; column < lines_[line].size(); ++column)
                lines_[line][column] = metal_at(middle_of(line, column));
        for (const draw::ShimsDrawn& shims : section_.shims)
            mark(shims.zone, kShim);
        for (const draw::Foul& foul : section_.fouls)
            mark(foul.zone, kJam);
    }
    [[nodiscard]] const std::vector<std::string>& lines() const { return lines_; }

private:
    [[nodiscard]] Point middle_of(std::size_t line, std::size_t column) const {
        const auto down = static_cast<double>(lines_.size() - line) - 0.5;
        return {section_.z_min + (static_cast<double>(column) + 0.5) / per_unit_,
                down * kHigh / per_unit_};
    }
    [[nodiscard]] char metal_at(const Point& at) const {
        for (const bool over : {true, false})
            for (std::size_t p = 0; p < section_.parts.size(); ++p) {
                const draw::PartShape& part = section_.parts[p];
                if (part.over_others == over &&
                    std::ranges::any_of(part.pieces,
                                        [&at](const draw::Solid& s) { return lies_in(s, at); }))
                    return letter_of(part, p);
            }
        return ' ';
    }
    // Every letter in the zone, and the one at its middle however thin it is.
    void mark(const std::vector<draw::Loop>& zone, char with) {
        if (zone.empty() || zone.front().empty()) return;
        for (std::size_t line = 0; line < lines_.size(); ++line)
            for (std::size_t column = 0; column < lines_[line].size(); ++column)
                if (lies_in(zone, middle_of(line, column))) lines_[line][column] = with;
        Point low = zone.front().front();
        Point high = low;
        for (const Point& p : zone.front()) {
            low = {std::min(low.z, p.z), std::min(low.r, p.r)};
            high = {std::max(high.z, p.z), std::max(high.r, p.r)};
        }
        const double z = ((low.z + high.z) / 2.0 - section_.z_min) * per_unit_;
        const double r = (low.r + high.r) / 2.0 * per_unit_ / kHigh;
        const auto within = [](double at, std::size_t count) {
            return static_cast<std::size_t>(
                std::clamp(std::floor(at), 0.0, static_cast<double>(count - 1)));
        };
        lines_[lines_.size() - 1 - within(r, lines_.size())][within(z, lines_.front().size())] =
            with;
    }

    const draw::Section& section_;
    double per_unit_ = 1.0;
    std::vector<std::string> lines_;
};

std::string trimmed(std::string line) {
    const std::size_t last = line.find_last_not_of(' ');
    line.resize(last == std::string::npos ? 0 : last + 1);
    return line;
}

}  // namespace

std::string section_text(const draw::Section& section, std::size_t width) {
    Grid grid(section, width);
    grid.fill();
    std::string out = "Section above the axis, roughly to scale:\n";
    for (const std::string& line : grid.lines())
        out += trimmed(std::string(kPictureInset, ' ') + line) + "\n";
    std::string axis(kPictureInset, ' ');
    for (std::size_t i = 0; i < grid.lines().front().size(); ++i)
        axis += i % 4 == 3 ? '.' : '-';
    out += axis + "\n";
    constexpr std::string_view kLeft = "engine side";
    constexpr std::string_view kRight = "outboard";
    const std::size_t wide =
        std::max(grid.lines().front().size(), kLeft.size() + kRight.size() + 2);
    out += fmt::format("  {}{:>{}}\n", kLeft, kRight, wide - kLeft.size());
    std::string names;
    for (std::size_t p = 0; p < section.parts.size(); ++p)
        names += fmt::format("{}{} {}", names.empty() ? "" : ", ", letter_of(section.parts[p], p),
                             listed(section.parts[p].name, 24));
    if (std::ranges::any_of(section.shims,
                            [](const draw::ShimsDrawn& each) { return !each.zone.empty(); }))
        names += fmt::format(", {} shims", kShim);
    if (!section.fouls.empty()) names += fmt::format(", {} metal in the way", kJam);
    out += paragraph("Capitals turn: " + names + ".", std::min<std::size_t>(width, 78));
    return out;
}

}  // namespace trialfit::paper
