#include "cli/stopping.hpp"

#include <csignal>

namespace pullproof::cli {
namespace {

volatile std::sig_atomic_t asked = 0;

extern "C" void note_signal(int number) { asked = number; }

}  // namespace

void stop_when_asked() {
  struct sigaction action {};
  action.sa_handler = note_signal;
  action.sa_flags = static_cast<int>(SA_RESETHAND);  // and no SA_RESTART, so that a read that waits ends
  ::sigemptyset(&action.sa_mask);
  ::sigaction(SIGINT, &action, nullptr);
  ::sigaction(SIGTERM, &action, nullptr);
}

bool stop_wanted() { return asked != 0; }
int stopped_status() { return 128 + asked; }

}  // namespace pullproof::cli
