"""What bash, zsh and fish complete when somebody presses the tabulator: shells.py PROGRAM"""
import os
import subprocess
import sys
import tempfile

from terminal import Terminal

SHELLS = {
    "bash": ("bash --norc --noprofile -i", "source ./script"),
    "zsh": ("zsh -f -i", "autoload -U compinit; compinit -D -u; source ./script"),
    "fish": ("fish --no-config -i", "source ./script"),
}
# What is typed before the key, and what stands there after it.
TYPED = [
    ("pullproof chec", "pullproof check "),
    ("pullproof rules sho", "pullproof rules show "),
    ("pullproof explain ampac", "pullproof explain ampacity "),
    ("pullproof rules show count-adj", "pullproof rules show count-adjustment "),
    ("pullproof rules diff pine-c", "pullproof rules diff pine-cove "),
    ("pullproof check --rem", "pullproof check --remedies "),
    ("pullproof check --remedies alw", "pullproof check --remedies always "),
    ("pullproof check --edition us-201", "pullproof check --edition us-2017 "),
    ("pullproof check my-ca", "pullproof check my-case.toml"),
    ("pullproof report my-case.toml -o my-rep", "pullproof report my-case.toml -o my-report.html"),
    ("pullproof new vehicle\\ ch", "pullproof new vehicle\\ charger "),
    ("pullproof keys circuit.bre", "pullproof keys circuit.breaker "),
]


def main():
    program = os.path.abspath(sys.argv[1])
    for shell, (command, prepare) in SHELLS.items():
        with tempfile.TemporaryDirectory() as folder:
            with open(os.path.join(folder, "script"), "w", encoding="utf-8") as script:
                subprocess.run([program, "completions", shell], stdout=script, check=True)
            subprocess.run([shell, "-n", "script"], cwd=folder, check=True)
            for name in ("my-case.toml", "my-report.html"):
                open(os.path.join(folder, name), "w", encoding="utf-8").close()
            path = os.path.dirname(program) + ":" + os.environ["PATH"]
            with Terminal(command, folder, {"PATH": path, "PS1": "> "}) as terminal:
                terminal.type(f"{prepare}; echo read''y")
                terminal.press("Enter")
                terminal.wait("ready")
                for number, (typed, wanted) in enumerate(TYPED):
                    terminal.type(f": {number}; {typed}")
                    terminal.press("Tab")
                    terminal.wait(f": {number}; {wanted.rstrip()}")
                    terminal.press("C-u")  # an interrupt would throw away what is typed after it
        print(f"ok: {shell}")


main()
