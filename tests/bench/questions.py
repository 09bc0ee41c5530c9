"""Answers a program's questions at a pseudo-terminal, and times each from Enter to the next question.

Standard input: {"command": [WORD], "kind": KIND, "answers": {PROMPT: [ANSWER]}}; an answer to "KIND PROMPT"
goes before one to "PROMPT". Standard output: {"times": [{"prompt": PROMPT, "ms": MS}], "end": PROMPT}.
"""
import fcntl
import json
import os
import pty
import re
import select
import signal
import struct
import sys
import termios
import time

PATIENCE = 60
CONTROLS = re.compile(r"\x1b\[[0-9;?]*[A-Za-z]")
# From the top of the screen to where the cursor is put at the end.
FRAME = re.compile(r"\x1b\[H((?:(?!\x1b\[H).)*)\x1b\[J\x1b\[\d+;\d+H", re.DOTALL)
LAST = "Save, change or discard?"
RULE = re.compile(r"[-\u2500]{9,}")


class Terminal:
    def __init__(self, command):
        self.process, self.master = pty.fork()
        if self.process == 0:
            os.execvpe(command[0], command, {**os.environ, "TERM": "xterm"})
        fcntl.ioctl(self.master, termios.TIOCSWINSZ, struct.pack("HHHH", 50, 120, 0, 0))
        self.output = ""
        self.screen = ""

    def next_frame(self):
        """Waits until the screen is drawn anew."""
        until = time.monotonic() + PATIENCE
        while not (frame := FRAME.search(self.output)):
            if time.monotonic() > until or not self.read(PATIENCE):
                raise TimeoutError(f"nothing came after: {self.prompt()!r}")
        self.screen, self.output = frame[1], self.output[frame.end() :]

    def read(self, patience):
        if not select.select([self.master], [], [], patience)[0]:
            return False
        try:
            self.output += os.read(self.master, 65536).decode("utf-8", "replace")
        except OSError:
            return False
        return True

    def prompt(self):
        """The field on the screen: its name stands below the rule."""
        lines = [line.strip("\r") for line in CONTROLS.sub("", self.screen).split("\n")]
        if any(LAST in line for line in lines):
            return LAST
        rules = [at for at, line in enumerate(lines) if RULE.fullmatch(line)]
        below = lines[rules[0] + 1 :] if rules else [""]
        return below[0].split(": ")[0]

    def send(self, text):
        os.write(self.master, text.encode())

    def close(self):
        os.kill(self.process, signal.SIGKILL)
        os.waitpid(self.process, 0)


def answer_to(order, prompt, left):
    key = f"{order['kind']} {prompt}"
    key = key if key in order["answers"] else prompt
    answers = left.setdefault(key, list(order["answers"].get(key, [])))
    return answers.pop(0) if answers else ""


def main():
    order = json.load(sys.stdin)
    terminal = Terminal(order["command"])
    times, left = [], {}
    try:
        terminal.next_frame()
        while terminal.prompt() != LAST and len(times) < 60:
            prompt = terminal.prompt()
            text = answer_to(order, prompt, left)
            for sign in text:
                terminal.send(sign)
                terminal.next_frame()
            start = time.monotonic()
            terminal.send("\r")
            terminal.next_frame()
            if terminal.prompt() == prompt and text == "":
                break
            times.append({"prompt": prompt, "ms": (time.monotonic() - start) * 1000})
    finally:
        terminal.close()
    json.dump({"times": times, "end": terminal.prompt()}, sys.stdout)


main()
