#include <fmt/format.h>

#include <cstdio>
#include <exception>

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
    fmt::print(stderr, "pullproof: {}\n", printable(error.what()));
    if (!error.note.empty()) fmt::print(stderr, "  note: {}\n", printable(error.note));
  } catch (const answers::TooMuch& error) {
    fmt::print(stderr, "pullproof: {}\n  note: take apart what does not hang together, or state more sizes\n", error.what());
  } catch (const cli::BadInput& bad) {
    for (const Diagnostic& d : bad.complaints) fmt::print(stderr, "{}", render(d));
  }
  return cli::status_bad;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "pullproof: this is a fault of the program: %s\n", error.what());
  }
  return pullproof::cli::status_bad;
}
