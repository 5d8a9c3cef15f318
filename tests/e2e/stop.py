"""Runs a command, sends it SIGINT (Ctrl-C) as soon as it says that it hears that, and leaves with its exit code.

    python3 stop.py PROGRAM [WORD ...]
"""
import signal
import subprocess
import sys
import time


def hears_interrupt(pid):
    """By the mask of caught signals in /proc (proc(5): SigCgt, bit n - 1 for signal n)."""
    with open(f"/proc/{pid}/status", encoding="ascii") as status:
        mask = next(int(line.split()[1], 16) for line in status if line.startswith("SigCgt:"))
    return mask >> (signal.SIGINT - 1) & 1


program = subprocess.Popen(sys.argv[1:])
while program.poll() is None and not hears_interrupt(program.pid):
    time.sleep(0.01)
program.send_signal(signal.SIGINT)
sys.exit(program.wait())
