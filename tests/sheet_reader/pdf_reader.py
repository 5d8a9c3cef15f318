"""Runs the built pdf_dump.c on a file and gives what it printed."""
import json
import subprocess

SECONDS = 60  # no file may take longer, sanitizers and all


class Hung(Exception):
    pass


def read(program, path, password=None, dpi=None):
    arguments = [program, path] + ([] if password is None and dpi is None else [password or ""])
    arguments += [] if dpi is None else [str(dpi)]
    try:
        done = subprocess.run(arguments, capture_output=True, timeout=SECONDS)
    except subprocess.TimeoutExpired as slow:
        raise Hung(f"{path}: more than {SECONDS} s") from slow
    if done.returncode != 0:
        raise AssertionError(f"{path}: the reader left with {done.returncode}: {done.stderr.decode(errors='replace')[:2000]}")
    return json.loads(done.stdout.decode())


def paths_on(sheet, layer):
    return sum(item["kind"] == "path" and item["layer"] == layer for item in sheet["items"])
