"""Drives a program at a pseudo-terminal: steps as JSON on standard input, what came of it on standard output.

A step is one of
  {"see": TEXT}        wait until the text is on what was drawn since the last thing sent
  {"send": TEXT}       type it
  {"size": [C, R]}     change the size of the window
  {"stop": SIGNAL}     send a signal to the program
  {"run": [WORD]}      run another program meanwhile, which must end well
"""
import fcntl
import json
import os
import re
import select
import signal
import struct
import subprocess
import sys
import termios
import time

# Whatever hangs ends at some time; how fast a machine is decides nothing.
PATIENCE = 1800
CONTROLS = re.compile(r"\x1b\[[0-9;?]*[A-Za-z]")


class Terminal:
    def __init__(self, order):
        self.master, self.slave = os.openpty()
        self.resize(order.get("size", [80, 24]))
        self.modes = termios.tcgetattr(self.slave)
        self.restored = False
        self.output = b""
        self.mark = 0
        self.folder = order["folder"]
        self.program = subprocess.Popen(
            order["command"],
            cwd=order["folder"],
            env={**os.environ, "TERM": "xterm", **order.get("env", {})},
            stdin=self.slave,
            stdout=self.slave,
            stderr=self.slave,
            preexec_fn=self.take_control,
        )

    def take_control(self):
        os.setsid()
        fcntl.ioctl(0, termios.TIOCSCTTY, 0)

    def resize(self, size):
        columns, rows = size
        fcntl.ioctl(self.slave, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))

    def read(self, patience):
        ready, _, _ = select.select([self.master], [], [], patience)
        if ready:
            self.output += (new := os.read(self.master, 65536))
        return bool(ready and new)

    def text(self, start):
        return self.output[start:].decode("utf-8", "replace")

    def screen(self):
        return CONTROLS.sub("", self.text(0).split("\x1b[H")[-1])

    def see(self, wanted):
        until = time.monotonic() + PATIENCE
        while wanted not in CONTROLS.sub("", self.text(self.mark)):
            is_over = self.program.poll() is not None
            if not self.read(0.1) and (is_over or time.monotonic() > until):
                raise TimeoutError(f"not seen: {wanted!r} on {self.screen()!r}")

    def step(self, step):
        if "see" in step:
            self.see(step["see"])
            return
        self.mark = len(self.output)
        if "send" in step:
            os.write(self.master, step["send"].encode())
        elif "size" in step:
            self.resize(step["size"])
        elif "run" in step:
            subprocess.run(step["run"], cwd=self.folder, check=True, stdout=subprocess.DEVNULL)
        elif "stop" in step:
            self.program.send_signal(getattr(signal, step["stop"]))

    def finish(self):
        until = time.monotonic() + PATIENCE
        while self.program.poll() is None and time.monotonic() < until:
            self.read(0.05)
        if self.program.poll() is None:
            raise TimeoutError(f"still running: {self.screen()!r}")
        self.read_to_end()
        return self.program.returncode

    def read_to_end(self):
        """What a program wrote last may come after its end; once nobody has the terminal open, it has an end."""
        self.restored = termios.tcgetattr(self.slave) == self.modes
        os.close(self.slave)
        try:
            while self.read(None):
                pass
        except OSError:
            pass


def main():
    order = json.load(sys.stdin)
    terminal = Terminal(order)
    fault = None
    status = None
    try:
        for step in order["steps"]:
            terminal.step(step)
        status = terminal.finish()
    except TimeoutError as error:
        fault = str(error)
        terminal.program.kill()
    answer = {
        "status": status,
        "output": terminal.text(0),
        "restored": terminal.restored,
        "fault": fault,
    }
    json.dump(answer, sys.stdout)


main()
