"""Talks to the one Node.js process that runs the function library, a JSON line a request.

Nothing here waits without a limit: writing and reading happen in threads of their own, and the caller waits for an
answer only so long.
"""

import glob
import json
import math
import os
import queue
import re
import shutil
import subprocess
import sys
import tempfile
import threading
import time

NODE_VARIABLE = "HOME_TARIFF_NODE"
LIMIT_VARIABLE = "HOME_TARIFF_TIME_LIMIT"
OLDEST_NODE = 20
START_LIMIT_SECONDS = 10.0
DEFAULT_LIMIT_SECONDS = 30.0
# A sheet full of formulas shall not try a start that has just failed for every cell.
RETRY_AFTER_SECONDS = 1.0
DOWNLOAD_ADVICE = f"Install Node.js {OLDEST_NODE} or newer (nodejs.org), or set {NODE_VARIABLE} to its full path."


class WrongInput(Exception):
    """An argument cannot be used; the message names it."""


class NodeMissing(Exception):
    """No Node.js that can run the functions; the message says what to do."""


class HelperFailed(Exception):
    """The functions did not answer: too slow, or ended twice."""


class _Gone(Exception):
    """The process has ended."""


def usual_places():
    """Where installers put Node.js, for programs that are started without a shell's PATH."""
    home = os.path.expanduser("~")
    if sys.platform == "win32":
        folders = [os.environ.get(name, "") for name in ("ProgramFiles", "ProgramFiles(x86)", "LOCALAPPDATA")]
        return [os.path.join(folder, *tail, "nodejs", "node.exe") for folder in folders for tail in ((), ("Programs",))]
    managed = glob.glob(os.path.join(home, ".nvm", "versions", "node", "v*", "bin", "node"))
    managed.sort(key=lambda path: [int(number) for number in re.findall(r"\d+", path.split("/v")[-1])], reverse=True)
    fixed = ["/usr/local/bin/node", "/opt/homebrew/bin/node", "/usr/bin/node", os.path.join(home, ".volta/bin/node")]
    return fixed + managed


def find_node(environment=os.environ, places=None):
    """The path of Node.js: as the variable says, else from PATH, else from the usual places."""
    stated = environment.get(NODE_VARIABLE, "").strip()
    if stated:
        if os.access(stated, os.X_OK) and os.path.isfile(stated):
            return stated
        raise NodeMissing(f"Node.js is not at {stated}, where {NODE_VARIABLE} says. Correct it, or unset it.")
    found = shutil.which("node", path=environment.get("PATH", ""))
    if found:
        return found
    for place in usual_places() if places is None else places:
        if os.access(place, os.X_OK) and os.path.isfile(place):
            return place
    raise NodeMissing(f"These functions need Node.js, and it was not found. {DOWNLOAD_ADVICE}")


def time_limit(environment=os.environ):
    """Seconds that one function may take."""
    try:
        seconds = float(environment.get(LIMIT_VARIABLE, DEFAULT_LIMIT_SECONDS))
    except ValueError:
        return DEFAULT_LIMIT_SECONDS
    return seconds if 0 < seconds <= 3600 else DEFAULT_LIMIT_SECONDS


def _line(message):
    """A message as a line of JSON, which has no NaN: a cell that holds none is no number, and the function says so."""
    try:
        text = json.dumps(message, separators=(",", ":"), allow_nan=False)
    except ValueError:
        text = json.dumps(_finite(message), separators=(",", ":"))
    return text.encode("utf-8") + b"\n"


def _finite(value):
    if isinstance(value, dict):
        return {key: _finite(inner) for key, inner in value.items()}
    if isinstance(value, (list, tuple)):
        return [_finite(inner) for inner in value]
    if isinstance(value, float) and not math.isfinite(value):
        return "no number"
    return value


class _Process:
    """One running Node.js with a thread for each of its streams."""

    def __init__(self, node, script):
        environment = {name: value for name, value in os.environ.items() if name != "NODE_OPTIONS"}
        hidden = {"creationflags": subprocess.CREATE_NO_WINDOW} if sys.platform == "win32" else {}
        try:
            self._child = subprocess.Popen(
                [node, script],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.PIPE,
                cwd=tempfile.gettempdir(),
                env=environment,
                **hidden,
            )
        except OSError as error:
            raise NodeMissing(f"{node} could not be started ({error.strerror}). {DOWNLOAD_ADVICE}") from error
        self._requests = queue.Queue()
        self._answers = queue.Queue()
        self._complaint = b""
        self._threads = [
            threading.Thread(target=work, daemon=True) for work in (self._write, self._read, self._listen)
        ]
        for thread in self._threads:
            thread.start()

    def send(self, message):
        self._requests.put(_line(message))

    def receive(self, seconds):
        """The next answer; None when the time is over."""
        try:
            line = self._answers.get(timeout=seconds)
        except queue.Empty:
            return None
        if line is None:
            raise _Gone()
        return json.loads(line)

    @property
    def alive(self):
        return self._child.poll() is None

    def complaint(self):
        self._threads[-1].join(0.2)
        lines = self._complaint.decode("utf-8", "replace").strip().splitlines()
        return next((line for line in lines if "Error" in line), lines[-1] if lines else "it said nothing")

    def end(self):
        self._requests.put(None)
        if self.alive:
            self._child.kill()
        try:
            self._child.wait(2)
        except subprocess.TimeoutExpired:
            pass

    def _write(self):
        stream = self._child.stdin
        try:
            for line in iter(self._requests.get, None):
                stream.write(line)
                stream.flush()
            stream.close()
        except OSError:
            pass  # The reader notices that the process has gone.

    def _read(self):
        for line in self._child.stdout:
            self._answers.put(line)
        self._answers.put(None)

    def _listen(self):
        for line in self._child.stderr:
            self._complaint = (self._complaint + line)[-4000:]


class Helper:
    """The function library as one process: started when first needed, started anew when it has died."""

    def __init__(self, script):
        self._script = script
        self._process = None
        self._lock = threading.Lock()
        self._next_id = 1
        self._failure = None
        self._failed_at = 0.0

    def call(self, name, args):
        """The value of a function; raises WrongInput, NodeMissing or HelperFailed."""
        limit = time_limit()
        if not self._lock.acquire(timeout=limit):
            raise HelperFailed(f"{name} waited {limit:g} s for another function. Calculate again.")
        try:
            for _ in range(2):  # Once more where the process has died since the last answer.
                try:
                    return self._ask(self._running(), name, args, limit)
                except _Gone:
                    self.stop()
            raise HelperFailed(f"The functions ended twice while they worked out {name}. Point at fewer cells.")
        finally:
            self._lock.release()

    def stop(self):
        if self._process is not None:
            self._process.end()
            self._process = None

    def _running(self):
        if self._process is not None and self._process.alive:
            return self._process
        self.stop()
        if self._failure is not None and time.monotonic() - self._failed_at < RETRY_AFTER_SECONDS:
            raise self._failure
        try:
            self._process = self._started()
            self._failure = None
        except NodeMissing as missing:
            self._failure, self._failed_at = missing, time.monotonic()
            raise
        return self._process

    def _started(self):
        node = find_node()
        process = _Process(node, self._script)
        try:
            hello = process.receive(START_LIMIT_SECONDS)
        except _Gone:
            process.end()
            raise NodeMissing(f"{node} cannot run these functions: {process.complaint()}. {DOWNLOAD_ADVICE}") from None
        if hello is None:
            process.end()
            raise NodeMissing(f"{node} did not start within {START_LIMIT_SECONDS:g} s. {DOWNLOAD_ADVICE}")
        version = str(hello.get("ready"))
        if int(version.split(".")[0]) < OLDEST_NODE:
            process.end()
            raise NodeMissing(f"{node} is Node.js {version}, too old. {DOWNLOAD_ADVICE}")
        return process

    def _ask(self, process, name, args, limit):
        request = self._next_id
        self._next_id += 1
        process.send({"id": request, "name": name, "args": args})
        answer = process.receive(limit)
        if answer is None:
            self.stop()
            raise HelperFailed(
                f"{name} took longer than {limit:g} s and was stopped. Point at fewer cells, or raise {LIMIT_VARIABLE}."
            )
        if answer.get("id") != request:
            self.stop()
            raise HelperFailed(f"{name} got an answer that was not its own. Calculate again.")
        if "wrong" in answer:
            raise WrongInput(answer["wrong"])
        if "failed" in answer:
            raise HelperFailed(answer["failed"])
        return answer["value"]
