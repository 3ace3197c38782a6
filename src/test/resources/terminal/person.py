"""A person at a terminal: runs a program on a pseudo-terminal of its own and does as it is told.

Usage: person.py COLUMNS PROGRAM ARGUMENT...

One order a line on standard input:
  begin       starts the program
  type TEXT   types TEXT, a Python string literal
  stand       the terminal takes nothing more, as if its connection were stalled
  go          it goes on
  wide N      the window is N columns wide now
  gone        the terminal is closed

What the terminal shows goes to standard output as it is. What happens goes to standard error, one line
each: "started PID", "left MODE" (how the program left the terminal: "lines" or "keys"), "ended CODE", and
"alone" once nobody has the terminal open any more, which whatever the program started may have longer.
"""

import ast
import errno
import fcntl
import os
import select
import signal
import struct
import sys
import termios


def say(text):
    os.write(2, (text + "\n").encode())


def size(fd, columns):
    fcntl.ioctl(fd, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))


def start(slave, program):
    child = os.fork()
    if child == 0:
        os.setsid()
        fcntl.ioctl(slave, termios.TIOCSCTTY, 0)
        for fd in (0, 1, 2):
            os.dup2(slave, fd)
        os.closerange(3, 64)
        # Whoever runs the tests may ignore some of these, and what is ignored stays so in a program.
        for each in (signal.SIGHUP, signal.SIGINT, signal.SIGTERM):
            signal.signal(each, signal.SIG_DFL)
        os.execvp(program[0], program)
    say("started %d" % child)
    return child


def main():
    master, slave = os.openpty()
    size(slave, int(sys.argv[1]))
    program = sys.argv[2:]
    child, stands, gone, orders = None, False, False, b""
    listening = True
    while True:
        ears = ([0] if listening else []) + ([] if stands or gone else [master])
        ready, _, _ = select.select(ears, [], [], 0.05)
        if master in ready:
            os.write(1, os.read(master, 65536))
        if 0 in ready:
            read = os.read(0, 65536)
            listening = bool(read)
            orders += read
        while b"\n" in orders:
            line, orders = orders.split(b"\n", 1)
            word, _, rest = line.decode().partition(" ")
            if word == "begin":
                child = start(slave, program)
            elif word == "type":
                os.write(master, ast.literal_eval(rest).encode())
            elif word == "stand":
                # Nobody reads, and nothing gets into what the system keeps for the reader, either.
                stands = True
                termios.tcflow(slave, termios.TCOOFF)
            elif word == "go":
                stands = False
                termios.tcflow(slave, termios.TCOON)
            elif word == "wide":
                size(slave, int(rest))
            elif word == "gone":
                gone = True
                os.close(slave)
                os.close(master)
        if child is not None:
            ended, status = os.waitpid(child, os.WNOHANG)
            if ended:
                break
    if not gone:
        stands or drain(master)
        lines = termios.tcgetattr(slave)[3] & termios.ICANON
        say("left " + ("lines" if lines else "keys"))
    say("ended %d" % os.waitstatus_to_exitcode(status))
    if not (gone or stands):
        os.close(slave)
        await_nobody(master)
        say("alone")


def drain(master):
    while select.select([master], [], [], 0.2)[0]:
        os.write(1, os.read(master, 65536))


def await_nobody(master):
    try:
        while True:
            os.write(1, os.read(master, 65536))
    except OSError as last_one_gone:
        if last_one_gone.errno != errno.EIO:
            raise


main()
