// SPDX-License-Identifier: MIT
#include "files/output_file.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <cstring>
#include <filesystem>
#include <system_error>
#include <thread>

#include "exit_codes.hpp"
#include "files/draft.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view kIsThere = "is there already, and stays as it is";

int refuse_errno(const std::string& name, int code) {
    const int why = errno;
    refuse(name, std::strerror(why));
    return code;
}

int refuse_there(const Target& target) {
    return refuse(target.name, kIsThere, "--force overwrites it, another name leaves it alone");
}

// The file that a symbolic link stands for is written, not the link.
fs::path behind_links(const std::string& name) {
    std::error_code unused;
    const fs::path path = name;
    return fs::is_symlink(path, unused) ? fs::weakly_canonical(path, unused) : path;
}

// What is at a path; nothing where there is nothing.
std::optional<struct stat> found_at(const fs::path& path) {
    struct stat found {};
    return stat(path.c_str(), &found) == 0 ? std::optional(found) : std::nullopt;
}

bool same_file(const struct stat& one, const struct stat& other) {
    return one.st_dev == other.st_dev && one.st_ino == other.st_ino;
}

bool is_the_job(const struct stat& found, const std::string& job) {
    struct stat read {};
    if (job.empty()) return false;
    const int code = job == "-" ? fstat(STDIN_FILENO, &read) : stat(job.c_str(), &read);
    return code == 0 && same_file(found, read);
}

// The complaint about a file that is there, or kHolds where it may be replaced.
int refuse_found(const Target& target, const fs::path& path, const struct stat& found) {
    if (!S_ISREG(found.st_mode))
        return refuse(target.name, "is not a plain file", "name a plain file");
    if (is_the_job(found, target.job))
        return refuse(target.name, "is the job itself, and stays as it is", target.instead);
    if (!target.overwrite) return refuse_there(target);
    // Replacing it asks nothing of the file itself, only of its folder; its own rights count.
    return access(path.c_str(), W_OK) == 0 ? kHolds : refuse_errno(target.name, kWrong);
}

int refuse_folder(const Target& target, const fs::path& path) {
    const fs::path folder = path.has_parent_path() ? path.parent_path() : fs::path(".");
    if (access(folder.c_str(), W_OK | X_OK) == 0) return kHolds;
    const bool none = errno == ENOENT || errno == ENOTDIR;
    if (none)
        return refuse(target.name, "'" + folder.string() + "' is no folder",
                      "make it first, or name another");
    return refuse_errno(target.name, kWrong);
}

// The name last, then the folder: what is told as written lasts.
int finish(const std::string& name, const Draft& draft) {
    if (draft.sync_folder()) return kHolds;
    const int why = errno;
    refuse(name, "is written, and its folder could not be brought down to the device: " +
                     std::string(std::strerror(why)));
    return kFault;
}

void tell_of_names(const std::string& name, const struct stat& found, const Draft& draft) {
    if (found.st_nlink > 1)
        warn(name, "the file has other names (hard links), and they keep the text as it was",
             "link them anew");
    if (!draft.same_owner())
        warn(name, "the file's owner and group could not be kept", "its owner is who wrote it");
}

}  // namespace

int may_write(const Target& target) {
    const fs::path path = behind_links(target.name);
    const auto found = found_at(path);
    if (path.filename().empty() || (found && S_ISDIR(found->st_mode)))
        return refuse(target.name.empty() ? "''" : target.name, "is no name for a file",
                      "name a file in that directory");
    const int code = found ? refuse_found(target, path, *found) : kHolds;
    if (code != kHolds) return code;
    if (!found && errno == ENAMETOOLONG) return refuse_errno(target.name, kWrong);
    return refuse_folder(target, path);
}

int write_whole(const Target& target, std::string_view text) {
    if (const int code = may_write(target); code != kHolds) return code;
    const fs::path path = behind_links(target.name);
    const auto found = found_at(path);
    Draft draft(path);
    if (!draft.open()) return refuse_errno(target.name, kWrong);
    if (!draft.write_down(text, found ? &*found : nullptr))
        return refuse_errno(target.name, kFault);
    if (!draft.take_name(target.overwrite))
        return errno == EEXIST ? refuse_there(target) : refuse_errno(target.name, kFault);
    if (found) tell_of_names(target.name, *found, draft);
    return finish(target.name, draft);
}

Held::Held(std::string name) : name_(std::move(name)) {
    using Clock = std::chrono::steady_clock;
    constexpr std::chrono::seconds kPatience(10);
    const auto end = Clock::now() + kPatience;
    const fs::path path = behind_links(name_);
    while (true) {
        // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg)
        number_ = open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
        if (number_ < 0) return;  // whoever reads it says why
        const bool held = flock(number_, LOCK_EX | LOCK_NB) == 0;
        if (!held && errno != EWOULDBLOCK) return;
        struct stat own {};
        const auto now = found_at(path);
        // Who held it before may have put another file in its place.
        if (held && fstat(number_, &own) == 0 && now && same_file(own, *now)) return;
        close(number_);
        number_ = -1;
        if (Clock::now() >= end) {
            code_ = refuse(name_, "another program holds the file, and has done so for 10 seconds",
                           "nothing was written; run this again when it has ended");
            return;
        }
        if (!held) std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
}

Held::~Held() {
    if (number_ >= 0) close(number_);
}

int Held::write_back(std::string_view text, std::string_view before) const {
    if (const int code = may_write({.name = name_, .overwrite = true, .job = {}}); code != kHolds)
        return code;
    const fs::path path = behind_links(name_);
    const auto found = found_at(path);
    Draft draft(path);
    if (!draft.open()) return refuse_errno(name_, kWrong);
    if (!draft.write_down(text, found ? &*found : nullptr)) return refuse_errno(name_, kFault);
    // An editor that knows nothing of the lock may have saved the file since it was read.
    const Draft::Placed placed = draft.take_place(before);
    if (placed == Draft::Placed::failed) return refuse_errno(name_, kFault);
    if (placed == Draft::Placed::changed)
        return refuse(name_, "the file was changed by another program in the meantime",
                      "nothing was written; run this again");
    if (found) tell_of_names(name_, *found, draft);
    return finish(name_, draft);
}

}  // namespace trialfit::cli
