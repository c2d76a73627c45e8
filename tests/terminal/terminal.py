"""A real terminal of 80 by 24 cells (tmux), with a program in it that is typed at."""
import os
import subprocess
import tempfile
import time


class Terminal:
    """Runs `command` until the end of the `with` block. What it needs is in `environment`; nothing else is."""

    def __init__(self, command, folder, environment=None):
        self.socket = os.path.join(tempfile.mkdtemp(prefix="terminal-"), "socket")
        self.environment = {"PATH": os.environ["PATH"], "HOME": folder, "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8", "SHELL": "/bin/sh",
                            **(environment or {})}
        self.call("-f", "/dev/null", "new-session", "-d", "-x", "80", "-y", "24", "-c", folder, command)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.call("kill-server", check=False)
        os.rmdir(os.path.dirname(self.socket)) if not os.path.exists(self.socket) else None

    def call(self, *words, check=True):
        done = subprocess.run(["tmux", "-u", "-S", self.socket, *words], env=self.environment, capture_output=True, text=True)
        if check and done.returncode != 0:
            raise RuntimeError(f"tmux {words[0]}: {done.stderr}")
        return done.stdout

    def type(self, text):
        self.call("send-keys", "-l", text)

    def press(self, *keys):
        self.call("send-keys", *keys)

    def screen(self):
        """What is on it, and up to 2000 lines that have gone off its top."""
        return self.call("capture-pane", "-p", "-S", "-2000")

    def wait(self, text, times=1, seconds=20):
        """Until `text` is there so many times."""
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if self.screen().count(text) >= times:
                return self.screen()
            time.sleep(0.05)
        raise AssertionError(f"'{text}' did not come; there is:\n{self.screen()}")
