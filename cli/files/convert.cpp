// SPDX-License-Identifier: MIT
#include "files/convert.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <string_view>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/quantity/characters.hpp>
#include <vector>

#include "exit_codes.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

constexpr std::string_view kConverter = "rsvg-convert";

// The first program of that name on PATH; nothing where there is none.
std::optional<std::string> found_on_path() {
    const char* const path = std::getenv("PATH");  // NOLINT(concurrency-mt-unsafe)
    if (path == nullptr) return std::nullopt;
    std::string_view rest = path;
    while (true) {
        const std::size_t colon = rest.find(':');
        const std::string_view folder = rest.substr(0, colon);
        std::string file(folder.empty() ? "." : folder);
        file += '/';
        file += kConverter;
        struct stat found {};
        if (stat(file.c_str(), &found) == 0 && S_ISREG(found.st_mode) &&
            access(file.c_str(), X_OK) == 0)
            return file;
        if (colon == std::string_view::npos) return std::nullopt;
        rest.remove_prefix(colon + 1);
    }
}

// A file that has no name, in memory.
class Unnamed {
public:
    explicit Unnamed(const char* about) : number_(memfd_create(about, MFD_CLOEXEC)) {}
    Unnamed(const Unnamed&) = delete;
    Unnamed(Unnamed&&) = delete;
    Unnamed& operator=(const Unnamed&) = delete;
    Unnamed& operator=(Unnamed&&) = delete;
    ~Unnamed() {
        if (number_ >= 0) close(number_);
    }

    [[nodiscard]] int number() const { return number_; }
    [[nodiscard]] bool open() const { return number_ >= 0; }

    // Puts all of it in, to be read from the start.
    [[nodiscard]] bool fill(std::string_view text) const {
        while (!text.empty()) {
            const ssize_t put = write(number_, text.data(), text.size());
            if (put < 0 && errno == EINTR) continue;
            if (put <= 0) return false;
            text.remove_prefix(static_cast<std::size_t>(put));
        }
        return lseek(number_, 0, SEEK_SET) == 0;
    }
    // All that was put in.
    [[nodiscard]] std::string text() const {
        std::string out;
        std::array<char, 1U << 16U> some{};
        if (lseek(number_, 0, SEEK_SET) != 0) return out;
        while (true) {
            const ssize_t got = read(number_, some.data(), some.size());
            if (got < 0 && errno == EINTR) continue;
            if (got <= 0) return out;
            out.append(some.data(), static_cast<std::size_t>(got));
        }
    }

private:
    int number_;
};

// Runs the program, without a shell. Its exit code; -1 where it does not start or is killed.
int run_program(const std::string& program, std::vector<std::string> words, const Unnamed& in,
                const Unnamed& out, const Unnamed& told) {
    std::vector<char*> arguments;
    arguments.reserve(words.size() + 1);
    for (std::string& word : words)
        arguments.push_back(word.data());
    arguments.push_back(nullptr);
    posix_spawn_file_actions_t files{};
    if (posix_spawn_file_actions_init(&files) != 0) return -1;
    const bool set = posix_spawn_file_actions_adddup2(&files, in.number(), STDIN_FILENO) == 0 &&
                     posix_spawn_file_actions_adddup2(&files, out.number(), STDOUT_FILENO) == 0 &&
                     posix_spawn_file_actions_adddup2(&files, told.number(), STDERR_FILENO) == 0;
    pid_t child = -1;
    const bool started = set && posix_spawn(&child, program.c_str(), &files, nullptr,
                                            arguments.data(), environ) == 0;
    posix_spawn_file_actions_destroy(&files);
    if (!started) return -1;
    int status = 0;
    while (waitpid(child, &status, 0) < 0)
        if (errno != EINTR) return -1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

std::vector<std::string> words_for(PictureFormat format) {
    std::vector<std::string> words{std::string(kConverter)};
    if (format == PictureFormat::pdf) {
        words.insert(words.end(), {"--format", "pdf"});
    } else {
        words.insert(words.end(), {"--format", "png", "--dpi-x", "300", "--dpi-y", "300"});
    }
    return words;
}

bool looks_whole(std::string_view made, PictureFormat format) {
    const std::string_view begins = format == PictureFormat::pdf ? "%PDF-" : "\x89PNG\r\n";
    return made.substr(0, begins.size()) == begins;
}

}  // namespace

PictureFormat picture_format(const std::optional<std::string>& file) {
    const std::string name = quantity::small(file.value_or(""));
    if (name.ends_with(".png")) return PictureFormat::png;
    if (name.ends_with(".pdf")) return PictureFormat::pdf;
    return PictureFormat::svg;
}

bool can_convert(PictureFormat format, const std::string& file) {
    // An SVG under such a name would be opened by nothing.
    constexpr std::array<std::string_view, 9> kOthers{".gif", ".jpg",  ".jpeg", ".tif", ".tiff",
                                                      ".bmp", ".webp", ".eps",  ".dxf"};
    const std::string name = quantity::small(file);
    for (const std::string_view other : kOthers) {
        if (!name.ends_with(other)) continue;
        refuse(file, "a drawing is written as SVG, PNG or PDF",
               "let its name end in .svg, .png or .pdf");
        return false;
    }
    if (format == PictureFormat::svg || found_on_path()) return true;
    refuse(file, "a PNG or PDF is made by the program rsvg-convert, which is not installed",
           "install the package librsvg2-bin, or write a file that ends in .svg");
    return false;
}

std::variant<std::string, int> converted(const std::string& svg, PictureFormat format,
                                         const std::string& file) {
    if (format == PictureFormat::svg) return svg;
    const auto program = found_on_path();
    const Unnamed in("drawing");
    const Unnamed out("picture");
    const Unnamed told("told");
    int code = -1;
    if (program && in.open() && out.open() && told.open() && in.fill(svg))
        code = run_program(*program, words_for(format), in, out, told);
    std::string made = code == 0 ? out.text() : std::string();
    if (looks_whole(made, format)) return made;
    std::string why = told.open() ? told.text() : std::string();
    why.resize(std::min(why.size(), why.find('\n')));
    refuse(file, "rsvg-convert failed" + (why.empty() ? why : ": " + paper::harmless(why)),
           "nothing was written; write a file that ends in .svg");
    return kFault;
}

}  // namespace trialfit::cli
