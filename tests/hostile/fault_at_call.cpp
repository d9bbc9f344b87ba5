// SPDX-License-Identifier: MIT
// Preloaded before the program by faults.py and full_disk.py: lets one of its calls on files fail,
// or ends it there; or lets the device be full, or the program end, after so many bytes.
//
//   FAULT_AT=N      which call, from 0; each that opens for writing or changes something counts
//   FAULT_KIND=     an errno, "kill" (ended before the call), or "short" (a write that does half)
//   FAULT_LOG=FILE  the name of each call that counts, a line each
//   FAULT_BYTES=N   the first N bytes that are written to files go through; then, by FAULT_KIND, an
//                   errno at each further byte, or the end of the program after the last of them

#include <dlfcn.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>

namespace {

// The real call, and what was asked of the fault: unlike the wrapped ones these write no file.
template <typename Function>
Function* real(const char* name) {
    return reinterpret_cast<Function*>(dlsym(RTLD_NEXT, name));
}

void log_call(const char* name) {
    const char* file = std::getenv("FAULT_LOG");
    if (file == nullptr) return;
    const int log =
        real<int(const char*, int, ...)>("open")(file, O_WRONLY | O_CREAT | O_APPEND, 0600);
    char line[64];
    const int length = std::snprintf(line, sizeof line, "%s\n", name);
    real<ssize_t(int, const void*, size_t)>("write")(log, line, static_cast<size_t>(length));
    real<int(int)>("close")(log);
}

// Whether this call is the one: then it fails with errno set, or the program is gone, or `half`.
bool fails_here(const char* name, bool* half = nullptr) {
    static int next = 0;
    const char* at = std::getenv("FAULT_AT");
    const char* kind = std::getenv("FAULT_KIND");
    log_call(name);
    if (at == nullptr || kind == nullptr || next++ != std::atoi(at)) return false;
    if (std::strcmp(kind, "kill") == 0) raise(SIGKILL);
    if (std::strcmp(kind, "short") == 0) {
        if (half != nullptr) *half = true;
        return false;
    }
    errno = std::atoi(kind);
    return true;
}

// How many bytes may still be written to files; < 0 where nothing is said of it.
long& bytes_left() {
    static const char* const said = std::getenv("FAULT_BYTES");
    static long left = said == nullptr ? -1 : std::atol(said);
    return left;
}

// A write to a device that is full after so many bytes, or that the program does not outlive.
ssize_t write_what_fits(int file, const void* from, size_t count) {
    const char* kind = std::getenv("FAULT_KIND");
    const bool kill = kind != nullptr && std::strcmp(kind, "kill") == 0;
    long& left = bytes_left();
    if (left == 0 && !kill) {
        errno = kind == nullptr ? ENOSPC : std::atoi(kind);
        return -1;
    }
    const size_t fits = count < static_cast<size_t>(left) ? count : static_cast<size_t>(left);
    const ssize_t done =
        fits == 0 ? 0 : real<ssize_t(int, const void*, size_t)>("write")(file, from, fits);
    left -= done > 0 ? done : 0;
    if (left == 0 && kill) raise(SIGKILL);
    return done;
}

}  // namespace

extern "C" {

int mkostemp(char* path, int flags) {
    return fails_here("mkostemp") ? -1 : real<int(char*, int)>("mkostemp")(path, flags);
}

int open(const char* path, int flags, ...) {
    // Job files and folders; what the loader and the language open is none of this.
    if (path[0] != '/' && fails_here("open")) return -1;
    return real<int(const char*, int, ...)>("open")(path, flags, 0600);
}

ssize_t read(int file, void* into, size_t count) {
    return fails_here("read") ? -1 : real<ssize_t(int, void*, size_t)>("read")(file, into, count);
}

ssize_t write(int file, const void* from, size_t count) {
    if (file > STDERR_FILENO && bytes_left() >= 0) return write_what_fits(file, from, count);
    bool half = false;
    if (fails_here("write", &half)) return -1;
    return real<ssize_t(int, const void*, size_t)>("write")(file, from,
                                                            half ? (count + 1) / 2 : count);
}

int fstat(int file, struct stat* into) {
    return fails_here("fstat") ? -1 : real<int(int, struct stat*)>("fstat")(file, into);
}

int fchmod(int file, mode_t rights) {
    return fails_here("fchmod") ? -1 : real<int(int, mode_t)>("fchmod")(file, rights);
}

int fsync(int file) {
    return fails_here("fsync") ? -1 : real<int(int)>("fsync")(file);
}

int flock(int file, int how) {
    return fails_here("flock") ? -1 : real<int(int, int)>("flock")(file, how);
}

int link(const char* one, const char* other) {
    return fails_here("link") ? -1 : real<int(const char*, const char*)>("link")(one, other);
}

int rename(const char* one, const char* other) {
    return fails_here("rename") ? -1 : real<int(const char*, const char*)>("rename")(one, other);
}

int renameat2(int a, const char* one, int b, const char* other, unsigned flags) {
    using Function = int(int, const char*, int, const char*, unsigned);
    return fails_here("renameat2") ? -1 : real<Function>("renameat2")(a, one, b, other, flags);
}

int unlink(const char* path) {
    return fails_here("unlink") ? -1 : real<int(const char*)>("unlink")(path);
}

}  // extern "C"
