"""`pullproof new` with somebody at the keyboard: new.py PROGRAM"""
import os
import subprocess
import sys
import tempfile

from terminal import Terminal

# What is asked, and what is typed: the volts and the length cannot be read the first time.
ANSWERS = [
    ("Which code edition", "us-2023"), ("What do you install?", "?"), ("What do you install?", "gas water heater, on demand"),
    ("Is it in a house", "yes"), ("What does the panel have?", ""), ("Volts on the nameplate?", "many"), ("Volts on the nameplate?", "120"),
    ("Amperes or watts", "4.2 A"), ("Where does it stand?", "outdoors"), ("Hard-wired", "hard-wired"), ("How does the wire run?", "EMT"),
    ("Where does it run?", ""), ("How long is it", "long"), ("How long is it", "62"), ("How hot", "104 °F"), ("flexible conduit at the", ""),
    ("low-voltage run?", "remote"), ("How long is that", "48"), ("fault current", "9.2 kA"), ("Breaker?", ""), ("Conductors?", ""),
    ("Grounding conductor?", ""), ("Size of the raceway?", ""), ("Size of the flexible", ""), ("disconnect switch?", ""),
    ("What is the job called?", "Wash-house"), ("Day of the permit?", "2026-11-25"), ("Where is it?", "Lot 14"),
    ("Write it to which file?", "mine.toml"),
]


def answer(terminal, answers):
    asked = {}
    for question, typed in answers:
        asked[question] = asked.get(question, 0) + 1
        terminal.wait(question, asked[question])
        terminal.type(typed)
        terminal.press("Enter")


def main():
    program = os.path.abspath(sys.argv[1])
    with tempfile.TemporaryDirectory() as folder:
        case = os.path.join(folder, "mine.toml")
        command = f"'{program}' new; echo status $?; exec sleep 60"

        with Terminal(command, folder) as terminal:
            answer(terminal, ANSWERS)
            screen = terminal.wait("status 0")
            assert "Written to mine.toml" in screen, screen
            assert "a quantity begins with a number" in screen, screen
            assert "vehicle charger" in screen, "the list of appliances"
            assert all(len(line) <= 80 for line in screen.splitlines()), screen
        text = open(case, encoding="utf-8").read()
        for said in ('"62 ft"', '"104 °F"', '"48 ft"', '"120 V"', "directory = "):
            assert said in text, f"{said} in:\n{text}"
        checked = subprocess.run([program, "check", case], capture_output=True, text=True)
        assert checked.returncode == 0, checked.stdout + checked.stderr
        assert "nothing is said of the panel's directory" not in checked.stdout, checked.stdout
        os.remove(case)

        # The end of input in the middle, and an interrupt: nothing is left behind.
        for key, status in (("C-d", "status 2"), ("C-c", "status 130")):
            with Terminal(f"trap : INT; {command}", folder) as terminal:
                answer(terminal, ANSWERS[:5])
                terminal.wait("Volts on the nameplate?")
                terminal.press(key)
                terminal.wait(status)
            assert not os.listdir(folder), os.listdir(folder)
    print("ok")


main()
