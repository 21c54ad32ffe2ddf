"""A program at a pseudo-terminal of 80 columns, for tests that type."""
import fcntl
import os
import pty
import re
import select
import struct
import subprocess
import termios
import time

PATIENCE = 120  # seconds; a busy machine is slow, not wrong


class Terminal:
    def __init__(self, *command, **environment):
        self.master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 40, 80, 0, 0))

        def lead():  # its own group, so that ^C reaches it and nobody else
            os.setsid()
            fcntl.ioctl(0, termios.TIOCSCTTY, 0)

        self.program = subprocess.Popen(command, stdin=slave, stdout=slave, stderr=slave, preexec_fn=lead,
                                        env={**os.environ, "TERM": "vt100", **environment})
        os.close(slave)
        self.heard, self.taken = b"", 0

    def give_up(self, why):
        self.program.kill()
        raise SystemExit(f"{why} after:\n{self.heard.decode(errors='replace')}")

    def listen(self):
        """More of what it says; False when it has ended."""
        if not select.select([self.master], [], [], PATIENCE)[0]:
            self.give_up("nothing more")
        try:
            piece = os.read(self.master, 4096)
        except OSError:
            return False
        self.heard += piece
        return bool(piece)

    def until(self, mark):
        """What is said up to a mark (a pattern of bytes), with it; None where it ended before."""
        while (found := re.compile(mark).search(self.heard, self.taken)) is None:
            if not self.listen():
                return None
        said = self.heard[self.taken:found.end()]
        self.taken = found.end()
        return said

    def type(self, keys):
        """Once the program reads by the key: before, the terminal would keep a ^D to itself."""
        end = time.monotonic() + PATIENCE
        while termios.tcgetattr(self.master)[3] & termios.ICANON and self.program.poll() is None:
            if time.monotonic() > end:
                self.give_up("no line editor")
            time.sleep(0.01)
        os.write(self.master, keys)

    def end(self):
        """The exit status, and all that was said."""
        while self.listen():
            pass
        return self.program.wait(), self.heard.decode()
