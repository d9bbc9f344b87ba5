// SPDX-License-Identifier: MIT
#include "files/draft.hpp"

#include <fcntl.h>
#include <sys/xattr.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstdlib>

namespace trialfit::cli {

namespace {

namespace fs = std::filesystem;

fs::path folder_of(const fs::path& target) {
    return target.has_parent_path() ? target.parent_path() : fs::path(".");
}

// A file's text, or something longer than `most`.
std::optional<std::string> text_at(const fs::path& path, std::size_t most) {
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg)
    const int number = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
    if (number < 0) return std::nullopt;
    std::string text;
    std::array<char, 65536> block{};
    ssize_t got = 1;
    while (text.size() <= most && got != 0) {
        got = read(number, block.data(), block.size());
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) break;
        text.append(block.data(), static_cast<std::size_t>(got));
    }
    close(number);
    return got < 0 ? std::nullopt : std::optional(std::move(text));
}

// All but those that the program's own faults raise.
sigset_t signals_that_wait() {
    sigset_t all;
    sigfillset(&all);
    for (const int fault : {SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGABRT, SIGTRAP})
        sigdelset(&all, fault);
    return all;
}

// The extended attributes of a file, access lists among them. False where it has an access list
// that could not be copied.
bool copy_attributes(const fs::path& from, int to) {
    std::array<char, 65536> names{};
    const ssize_t all = listxattr(from.c_str(), names.data(), names.size());
    bool list_kept = true;
    for (ssize_t at = 0; at < all;) {
        const std::string name = names.data() + at;
        at += static_cast<ssize_t>(name.size()) + 1;
        std::array<char, 65536> value{};
        const ssize_t size = getxattr(from.c_str(), name.c_str(), value.data(), value.size());
        const bool kept = size >= 0 && fsetxattr(to, name.c_str(), value.data(),
                                                 static_cast<std::size_t>(size), 0) == 0;
        list_kept = list_kept && (kept || name != "system.posix_acl_access");
    }
    return list_kept;
}

}  // namespace

// The draft's name is short whatever the target's is, since names end at 255 bytes.
Draft::Draft(const fs::path& target)
    : target_(target), path_((folder_of(target) / ".trialfit.XXXXXX").string()) {
    const sigset_t wait = signals_that_wait();
    pthread_sigmask(SIG_BLOCK, &wait, &signals_before_);
    // NOLINTNEXTLINE(cppcoreguidelines-prefer-member-initializer): only once the signals wait
    number_ = mkostemp(path_.data(), O_CLOEXEC);
}

Draft::~Draft() {
    if (number_ >= 0) {
        close(number_);
        if (!named_) unlink(path_.c_str());
    }
    pthread_sigmask(SIG_SETMASK, &signals_before_, nullptr);
}

bool Draft::write_down(std::string_view text, const struct stat* replaces) {
    while (!text.empty()) {
        const ssize_t done = ::write(number_, text.data(), text.size());
        if (done < 0 && errno == EINTR) continue;
        if (done < 0) return false;
        text.remove_prefix(static_cast<std::size_t>(done));
    }
    mode_t rights = 0;
    if (replaces != nullptr) {
        rights = replaces->st_mode & 07777;
        struct stat own {};
        if (fstat(number_, &own) != 0) return false;
        const bool other_user = own.st_uid != replaces->st_uid;
        const bool other_group = own.st_gid != replaces->st_gid;
        constexpr auto kAsItIs = static_cast<uid_t>(-1);
        same_owner_ =
            !(other_user || other_group) || fchown(number_, other_user ? replaces->st_uid : kAsItIs,
                                                   other_group ? replaces->st_gid : kAsItIs) == 0;
        // What the group could do is not for another group.
        if (!same_owner_ && fchown(number_, kAsItIs, replaces->st_gid) != 0) rights &= ~mode_t{070};
        if (!same_owner_) rights &= ~mode_t{07000};
        // With an access list, the group's rights are the most that anyone on the list has.
        if (!copy_attributes(target_, number_)) rights &= ~mode_t{070};
    } else {
        const mode_t mask = umask(0);
        umask(mask);
        rights = 0666 & ~mask;
    }
    return fchmod(number_, rights) == 0 && fsync(number_) == 0;
}

// A link, unlike a rename, does not replace a file that came to be in the meantime.
bool Draft::take_name(bool overwrite) {
    if (overwrite) {
        named_ = std::rename(path_.c_str(), target_.c_str()) == 0;
        return named_;
    }
    if (link(path_.c_str(), target_.c_str()) == 0) return true;
    // Some file systems have no links: there a rename that refuses what is there, if they have it.
    const bool no_links = errno == EPERM || errno == EOPNOTSUPP || errno == ENOSYS;
    if (!no_links) return false;
    named_ = renameat2(AT_FDCWD, path_.c_str(), AT_FDCWD, target_.c_str(), RENAME_NOREPLACE) == 0;
    if (named_ || errno == EEXIST) return named_;
    if (fs::exists(target_)) {
        errno = EEXIST;
        return false;
    }
    named_ = std::rename(path_.c_str(), target_.c_str()) == 0;
    return named_;
}

// The two files change names in one step, so that what is thrown away is what was looked at.
Draft::Placed Draft::take_place(std::string_view before) {
    const auto holds = [before](const fs::path& path) {
        return text_at(path, before.size()) == std::optional<std::string>(before);
    };
    const auto exchanged = [this] {
        return renameat2(AT_FDCWD, path_.c_str(), AT_FDCWD, target_.c_str(), RENAME_EXCHANGE) == 0;
    };
    if (!holds(target_)) return Placed::changed;
    if (exchanged()) {
        if (holds(path_)) return Placed::yes;
        return exchanged() ? Placed::changed : Placed::failed;
    }
    if (errno == ENOENT) return Placed::changed;
    // Some file systems cannot.
    if (errno != EINVAL && errno != ENOSYS) return Placed::failed;
    return take_name(true) ? Placed::yes : Placed::failed;
}

bool Draft::sync_folder() const {
    // NOLINTNEXTLINE(cppcoreguidelines-pro-type-vararg)
    const int folder = ::open(folder_of(target_).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    // A folder that may be written and not read cannot be opened for this.
    if (folder < 0) return errno == EACCES;
    const bool done = fsync(folder) == 0 || errno == EINVAL || errno == EROFS;
    const int why = errno;
    close(folder);
    errno = why;
    return done;
}

}  // namespace trialfit::cli
