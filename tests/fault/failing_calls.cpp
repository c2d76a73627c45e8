// Loaded before the C library, makes one call fail as a full disk or a bad place would: FAIL_CALL names the call,
// FAIL_ERRNO the error, FAIL_AFTER how many calls go well before (0 without it). FAIL_CALL=short-write lets each write
// take one byte in a thousand, which is no failure. Calls on the standard streams are let be.
#include <dlfcn.h>
#include <sys/types.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>

namespace {

bool named(const char* call) {
  const char* wanted = std::getenv("FAIL_CALL");
  return wanted != nullptr && std::strcmp(wanted, call) == 0;
}

bool fails(const char* call) {
  static int calls = 0;
  if (!named(call)) return false;
  const char* after = std::getenv("FAIL_AFTER");
  if (calls++ < (after != nullptr ? std::atoi(after) : 0)) return false;
  const char* error = std::getenv("FAIL_ERRNO");
  errno = error != nullptr ? std::atoi(error) : EIO;
  return true;
}

template <class F>
F* next(const char* name) {
  return reinterpret_cast<F*>(dlsym(RTLD_NEXT, name));
}

}  // namespace

extern "C" {

ssize_t write(int file, const void* bytes, size_t size) {
  if (file > STDERR_FILENO) {
    if (fails("write")) return -1;
    if (named("short-write") && size > 1) size = std::max<size_t>(1, size / 1000);
  }
  return next<ssize_t(int, const void*, size_t)>("write")(file, bytes, size);
}
int fsync(int file) { return fails("fsync") ? -1 : next<int(int)>("fsync")(file); }
int fchmod(int file, mode_t mode) { return fails("fchmod") ? -1 : next<int(int, mode_t)>("fchmod")(file, mode); }
int mkstemp(char* name) { return fails("mkstemp") ? -1 : next<int(char*)>("mkstemp")(name); }
int rename(const char* from, const char* to) noexcept { return fails("rename") ? -1 : next<int(const char*, const char*)>("rename")(from, to); }
int renameat2(int a, const char* from, int b, const char* to, unsigned how) noexcept {
  return fails("renameat2") ? -1 : next<int(int, const char*, int, const char*, unsigned)>("renameat2")(a, from, b, to, how);
}
int link(const char* from, const char* to) noexcept { return fails("link") ? -1 : next<int(const char*, const char*)>("link")(from, to); }

}  // extern "C"
