#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <exception>
#include <new>

#include "answers/draft.hpp"
#include "cli/commands.hpp"
#include "cli/shelf.hpp"
#include "cli/terminal.hpp"
#include "core/diagnostic.hpp"

namespace {

using namespace pullproof;

int run(int argc, char** argv) {
  try {
    const cli::Request request = cli::read_command_line(argc, argv);
    int status = cli::status_pass;
    if (request.command != nullptr) status = request.command->run(request.options);
    else cli::put(request.print);
    cli::flush();
    return status;
  } catch (const cli::CommandError& error) {
    cli::complain(error.what(), error.note);
  } catch (const answers::TooMuch& error) {
    fmt::print(stderr, "pullproof: {}\n  note: take apart what does not hang together, or state more sizes\n", error.what());
  } catch (const cli::BadInput& bad) {
    for (const Diagnostic& d : bad.complaints) fmt::print(stderr, "{}", render(d));
  }
  return cli::status_bad;
}

constexpr char no_memory[] = "pullproof: there is not enough memory\n";

/// Where the memory does not even suffice to say so by an exception.
[[noreturn]] void give_up() {
  [[maybe_unused]] const ssize_t n = ::write(STDERR_FILENO, no_memory, sizeof no_memory - 1);
  std::_Exit(cli::status_bad);
}

}  // namespace

int main(int argc, char** argv) {
  std::set_terminate(give_up);
  try {
    return run(argc, argv);
  } catch (const std::bad_alloc&) {
    std::fputs(no_memory, stderr);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "pullproof: this is a fault of the program: %s\n", error.what());
  }
  return pullproof::cli::status_bad;
}
