#include "support/program.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <linux/capability.h>
#include <poll.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <sstream>

#include "support/cases.hpp"

namespace pullproof::test {
namespace {

struct Pipe {
  int read = -1, write = -1;
  Pipe() {
    int fds[2];
    if (::pipe2(fds, O_CLOEXEC) != 0) ADD_FAILURE() << "no pipe";
    else read = fds[0], write = fds[1];
  }
  static void shut(int& fd) {
    if (fd >= 0) ::close(fd);
    fd = -1;
  }
  ~Pipe() {
    shut(read);
    shut(write);
  }
};

[[noreturn]] void become(const std::vector<std::string>& words, const RunOptions& o, Pipe& in, Pipe& out, Pipe& err) {
  const std::filesystem::path folder = o.folder.empty() ? source_dir() : o.folder;
  if (::chdir(folder.c_str()) != 0) ::_exit(126);
  ::dup2(in.read, STDIN_FILENO);
  ::dup2(out.write, STDOUT_FILENO);
  ::dup2(err.write, STDERR_FILENO);
  if (!o.output.empty()) {
    const int fd = ::open(o.output.c_str(), O_WRONLY);
    if (fd < 0) ::_exit(126);
    ::dup2(fd, STDOUT_FILENO);
  }
  ::signal(SIGPIPE, o.ignore_pipe_signal ? SIG_IGN : SIG_DFL);
  if (o.bound_by_permissions) {
    ::prctl(PR_CAPBSET_DROP, CAP_DAC_OVERRIDE);
    ::prctl(PR_CAPBSET_DROP, CAP_DAC_READ_SEARCH);
  }
  std::string program = o.often ? PULLPROOF_OFTEN_PROGRAM : PULLPROOF_PROGRAM;
  std::vector<std::string> kept = words, environment = o.environment;
  std::vector<char*> argv{program.data()}, env;
  for (std::string& w : kept) argv.push_back(w.data());
  for (std::string& e : environment) env.push_back(e.data());
  argv.push_back(nullptr);
  env.push_back(nullptr);
  ::execve(program.c_str(), argv.data(), env.data());
  ::_exit(127);
}

/// Feeds and drains the pipes until both outputs end or the time is up.
bool exchange(const RunOptions& o, Pipe& in, Pipe& out, Pipe& err, Ran& ran) {
  using clock = std::chrono::steady_clock;
  const auto until = clock::now() + std::chrono::seconds(60);
  std::size_t fed = 0;
  if (o.input.empty()) Pipe::shut(in.write);
  if (o.close_output) Pipe::shut(out.read);
  while (out.read >= 0 || err.read >= 0) {
    if (clock::now() > until) return false;
    std::array<pollfd, 3> fds{{{out.read, POLLIN, 0}, {err.read, POLLIN, 0}, {in.write, POLLOUT, 0}}};
    ::poll(fds.data(), fds.size(), 200);
    const auto drain = [](pollfd& p, int& fd, std::string& into) {
      if (fd < 0 || (p.revents & (POLLIN | POLLHUP)) == 0) return;
      char piece[65536];
      const ssize_t n = ::read(fd, piece, sizeof piece);
      if (n > 0) into.append(piece, static_cast<std::size_t>(n));
      else Pipe::shut(fd);
    };
    drain(fds[0], out.read, ran.out);
    drain(fds[1], err.read, ran.err);
    if (in.write >= 0 && (fds[2].revents & (POLLOUT | POLLERR)) != 0) {
      const ssize_t n = ::write(in.write, o.input.data() + fed, o.input.size() - fed);
      if (n > 0) fed += static_cast<std::size_t>(n);
      if (n < 0 || fed == o.input.size()) Pipe::shut(in.write);
    }
  }
  return true;
}

}  // namespace

Ran run(const std::vector<std::string>& words, const RunOptions& options) {
  ::signal(SIGPIPE, SIG_IGN);  // of this process: the program may end before it has read its input
  Ran ran;
  Pipe in, out, err;
  const pid_t child = ::fork();
  if (child == 0) become(words, options, in, out, err);
  Pipe::shut(in.read);
  Pipe::shut(out.write);
  Pipe::shut(err.write);
  if (!exchange(options, in, out, err, ran)) {
    ADD_FAILURE() << "it takes too long";
    ::kill(child, SIGKILL);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  ran.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  return ran;
}

Ran shell(const std::string& command, const std::filesystem::path& folder) {
  const Scratch scratch;  // the outputs go here, so that the folder holds what the command sees alone
  const std::filesystem::path where = folder.empty() ? scratch.path() : folder;
  scratch.file("command", fmt::format("export PULLPROOF='{}'\ncd '{}' || exit 126\n{}\n", PULLPROOF_PROGRAM, where.string(), command));
  const auto slurp = [&](const char* name) {
    std::ifstream in(scratch.path(name));
    return std::string{std::istreambuf_iterator<char>(in), {}};
  };
  const int status = std::system(fmt::format("timeout 60 bash '{0}/command' >'{0}/out' 2>'{0}/err' </dev/null", scratch.path().string()).c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status), slurp("out"), slurp("err")};
}

std::string flat(const std::string& text) {
  std::istringstream in(text);
  std::string out;
  for (std::string word; in >> word;) out += (out.empty() ? "" : " ") + word;
  return out;
}

Scratch::Scratch() {
  std::string name = (std::filesystem::temp_directory_path() / "pullproof-test-XXXXXX").string();
  EXPECT_NE(::mkdtemp(name.data()), nullptr);
  folder_ = name;
}

Scratch::~Scratch() {
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
}

std::string Scratch::file(const std::string& name, const std::string& text) const {
  std::filesystem::create_directories(path(name).parent_path());
  std::ofstream out(path(name), std::ios::binary);
  out << text;
  return path(name).string();
}

}  // namespace pullproof::test
