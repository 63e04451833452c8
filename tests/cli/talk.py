"""
Runs a program in a terminal of its own and answers its questions. The standard input is JSON: `replies`, pairs of a text
that is shown with a question and what is typed then, each once; `otherwise`, what is typed to any other question; `last`,
what is typed once all replies were given. A question ends with "> ".
"""
import json
import os
import pty
import select
import sys
import time

PATIENCE = 20

talk = json.load(sys.stdin)
child, terminal = pty.fork()
if child == 0:
    os.execvp(sys.argv[1], sys.argv[1:])

shown = ""
seen = 0
end = time.monotonic() + PATIENCE
while time.monotonic() < end:
    question = shown[seen:]
    if question.rstrip("\x1b[0123456789GJ").endswith("> "):
        reply = next((pair for pair in talk["replies"] if pair[0] in question), None)
        typed = reply[1] if reply else talk["otherwise"] if talk["replies"] else talk["last"]
        if reply:
            talk["replies"].remove(reply)
        seen = len(shown)
        for key in typed:  # one by one: what comes in one piece counts as pasted, and Tab does not complete in it
            os.write(terminal, key.encode())
            time.sleep(0.05)
        end = time.monotonic() + PATIENCE
    ready, _, _ = select.select([terminal], [], [], 0.05)
    if not ready:
        continue
    try:
        data = os.read(terminal, 65536)
    except OSError:
        break
    if not data:
        break
    shown += data.decode(errors="replace")
else:
    sys.stderr.write(f"waited in vain after: {shown[-300:]}\n")
    os.kill(child, 9)
_, status = os.waitpid(child, 0)
sys.stdout.write(shown)
sys.exit(os.waitstatus_to_exitcode(status) & 0xFF)
