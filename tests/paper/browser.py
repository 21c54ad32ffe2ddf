"""A browser without a window, driven over a pipe: no port, no network, no other library."""
import json
import os
import shutil
import subprocess
import tempfile

FLAGS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking",
         "--disable-component-update", "--disable-sync", "--no-first-run",
         "--disable-default-apps", "--disable-extensions", "--disable-dev-shm-usage",
         "--hide-scrollbars", "--force-color-profile=srgb", "--remote-debugging-pipe"]


class Browser:
    """One page. Messages of its console and addresses that it asks for are kept."""

    def __init__(self, program):
        self.profile = tempfile.mkdtemp(prefix="profile-", dir=os.getcwd())
        to_read, self.to = os.pipe()
        self.back, to_write = os.pipe()
        ends = {3: os.dup(to_read), 4: os.dup(to_write)}

        def place():
            for wanted, end in ends.items():
                os.dup2(end, wanted)

        keep = [3, 4, *ends.values()]
        self.process = subprocess.Popen(
            [program, *FLAGS, f"--user-data-dir={self.profile}", "about:blank"], preexec_fn=place,
            pass_fds=keep, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL)
        for end in (to_read, to_write, *ends.values()):
            os.close(end)
        self.number, self.pending, self.session = 0, b"", None
        self.console, self.asked = [], []
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        self.session = self.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Network", "Log"):
            self.call(domain + ".enable")

    def close(self):
        self.process.terminate()
        self.process.wait()
        shutil.rmtree(self.profile, ignore_errors=True)

    def call(self, method, **params):
        """One command and its answer; what happens meanwhile is noted."""
        self.number += 1
        message = {"id": self.number, "method": method, "params": params}
        if self.session:
            message["sessionId"] = self.session
        self._send(message)
        while True:
            answer = self._receive()
            if answer.get("id") == self.number:
                if "error" in answer:
                    raise RuntimeError(f"{method}: {answer['error']['message']}")
                return answer["result"]
            self._note(answer)

    def wait_for(self, event):
        while True:
            message = self._receive()
            self._note(message)
            if message.get("method") == event:
                return message["params"]

    def _send(self, message):
        data = json.dumps(message).encode() + b"\0"
        while data:
            data = data[os.write(self.to, data):]

    def _receive(self):
        while b"\0" not in self.pending:
            piece = os.read(self.back, 1 << 20)
            if not piece:
                raise RuntimeError("the browser ended")
            self.pending += piece
        first, self.pending = self.pending.split(b"\0", 1)
        return json.loads(first)

    def _note(self, message):
        method, params = message.get("method"), message.get("params", {})
        if method == "Runtime.consoleAPICalled":
            self.console.append(" ".join(str(a.get("value", a.get("description"))) for a in params["args"]))
        elif method == "Runtime.exceptionThrown":
            self.console.append(params["exceptionDetails"]["text"])
        elif method == "Log.entryAdded":
            self.console.append(params["entry"]["text"])
        elif method == "Network.requestWillBeSent":
            self.asked.append(params["request"]["url"])

    # ---- a page ------------------------------------------------------------------------------

    def size(self, width, height, mobile=False, media=""):
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=height,
                  deviceScaleFactor=1, mobile=mobile)
        self.call("Emulation.setEmulatedMedia", media=media)

    def open(self, path):
        self.console, self.asked = [], []
        self.call("Page.navigate", url="file://" + os.path.abspath(path))
        self.wait_for("Page.loadEventFired")

    def run(self, script, wait=False):
        """The value of a script in the page; a page that forbids scripts allows these."""
        result = self.call("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=wait)
        if "exceptionDetails" in result:
            raise RuntimeError(str(result["exceptionDetails"].get("exception", result["exceptionDetails"])))
        return result["result"].get("value")

    def picture(self, path, whole=False):
        import base64
        params = {"format": "png", "captureBeyondViewport": whole}
        with open(path, "wb") as out:
            out.write(base64.b64decode(self.call("Page.captureScreenshot", **params)["data"]))

    def pdf(self, path, width_in, height_in):
        import base64
        data = self.call("Page.printToPDF", paperWidth=width_in, paperHeight=height_in,
                         printBackground=True, preferCSSPageSize=False)["data"]
        with open(path, "wb") as out:
            out.write(base64.b64decode(data))
