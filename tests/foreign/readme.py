"""Runs the clients of the README as they are printed there, and compares what they print with what it promises.

Usage: readme.py README FOLDER
The `sh` blocks run in order in one shell, the first in the repository's root and the others in FOLDER, where `proto` is;
each program runs after the block that installs what it needs. Prints a line for each, then "N passed, N failed".
"""

import pathlib
import re
import subprocess
import sys

README, FOLDER = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
TIMEOUT = 600


def blocks():
    """The code blocks of the README, in order: language and text."""
    return re.findall(r"^```(\w+)\n(.*?)^```$", README.read_text(encoding="utf-8"), re.MULTILINE | re.DOTALL)


def script(found):
    """One shell script of all blocks that run, with a mark between the outputs."""
    lines = ["set -euo pipefail", "trap 'kill $(jobs -p) 2>/dev/null || true' EXIT"]
    programs = {"python": ("client.py", "python"), "javascript": ("client.mjs", "node")}
    started = False
    for language, text in found:
        if language == "sh":
            lines.append(text)
            if not started:
                lines.append(f"cd '{FOLDER}'")
                started = True
        elif language in programs:
            name, interpreter = programs[language]
            (FOLDER / name).write_text(text, encoding="utf-8")
            lines.append(f"{interpreter} {name} >{name}.out")
    return "\n".join(lines) + "\n"


def main():
    found = blocks()
    promised = [text for language, text in found if language == "text"]
    ran = subprocess.run(
        ["bash", "-c", script(found)], cwd=README.parent, timeout=TIMEOUT, text=True, capture_output=True, check=False
    )
    failed = 0
    if ran.returncode != 0:
        failed += 1
        print(f"FAILED  the blocks of the README: exit status {ran.returncode}\n{ran.stdout}{ran.stderr}")
    else:
        print("ok      the blocks of the README run")
    for name in ["client.py", "client.mjs"]:
        output = FOLDER / f"{name}.out"
        printed = output.read_text(encoding="utf-8") if output.exists() else "nothing"
        if [printed] == promised:
            print(f"ok      {name} prints what is promised")
        else:
            failed += 1
            print(f"FAILED  {name} prints\n{printed}instead of\n{''.join(promised)}")
    answer = (FOLDER / "answer.json").read_text(encoding="utf-8") if (FOLDER / "answer.json").exists() else ""
    if ran.returncode == 0 and "exit status 4" in ran.stdout and "VERDICT_FITS_WITH_EXTRA_PARTS" in answer:
        print("ok      the shell's exit status and answer")
    else:
        failed += 1
        print(f"FAILED  the shell's exit status and answer: {ran.stdout}{answer}")
    if '"verdict": "VERDICT_' in ran.stdout:
        print("ok      a tool that knows reflection")
    else:
        failed += 1
        print(f"FAILED  a tool that knows reflection: {ran.stdout}")
    print(f"{5 - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
