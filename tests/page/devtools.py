# SPDX-License-Identifier: MIT
"""Chromium driven through its own pipe (Chrome DevTools Protocol): no driver, no open port."""
import base64
import json
import os
import subprocess

FLAGS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
         "--disable-background-networking", "--disable-component-update", "--disable-sync",
         "--hide-scrollbars", "--remote-debugging-pipe", "about:blank"]
# Chromium listens on descriptor 3 and answers on 4.
START = 'exec chromium "$@" 3<&"$TRIALFIT_IN" 4>&"$TRIALFIT_OUT"'


class Browser:
    """One page at a time; keeps what went wrong on it."""

    def __init__(self, folder):
        ours_out, theirs_in = None, None
        theirs_in, ours_out = os.pipe()
        ours_in, theirs_out = os.pipe()
        environment = dict(os.environ, TRIALFIT_IN=str(theirs_in), TRIALFIT_OUT=str(theirs_out))
        self.child = subprocess.Popen(
            ["bash", "-c", START, "chromium", f"--user-data-dir={folder}/profile", *FLAGS],
            pass_fds=(theirs_in, theirs_out), env=environment, stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(theirs_in)
        os.close(theirs_out)
        self.out = os.fdopen(ours_out, "wb", buffering=0)
        self.inward = os.fdopen(ours_in, "rb", buffering=0)
        self.rest, self.count, self.session, self.events = b"", 0, None, []
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        self.session = self.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network", "Accessibility", "DOM"):
            self.call(domain + ".enable")

    def message(self):
        while b"\0" not in self.rest:
            got = self.inward.read(1 << 16)
            assert got, "chromium ended"
            self.rest += got
        text, self.rest = self.rest.split(b"\0", 1)
        return json.loads(text)

    def call(self, method, **given):
        self.count += 1
        asked = {"id": self.count, "method": method, "params": given}
        if self.session:
            asked["sessionId"] = self.session
        self.out.write(json.dumps(asked).encode() + b"\0")
        while True:
            said = self.message()
            if said.get("id") == self.count:
                assert "error" not in said, (method, said["error"])
                return said["result"]
            self.events.append(said)

    def wait(self, method):
        while not any(event.get("method") == method for event in self.events):
            self.events.append(self.message())

    def open(self, address, width, height=900, phone=False):
        """Shows the page, `width` CSS pixels wide."""
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=height,
                  deviceScaleFactor=2 if phone else 1, mobile=phone)
        self.events = []
        self.call("Page.navigate", url=address)
        self.wait("Page.loadEventFired")

    def evaluate(self, script):
        said = self.call("Runtime.evaluate", expression=script, returnByValue=True)
        assert "exceptionDetails" not in said, said
        return said["result"].get("value")

    def press_tab(self):
        for kind in ("rawKeyDown", "keyUp"):
            self.call("Input.dispatchKeyEvent", type=kind, key="Tab", code="Tab", windowsVirtualKeyCode=9)

    def complaints(self):
        """What the page wrote on the console or broke."""
        wrong = ("Runtime.consoleAPICalled", "Runtime.exceptionThrown", "Log.entryAdded")
        return [event["params"] for event in self.events if event.get("method") in wrong]

    def fetched(self):
        """Addresses that were asked for beside the page's own."""
        return [event["params"]["request"]["url"] for event in self.events
                if event.get("method") == "Network.requestWillBeSent"][1:]

    def tree(self):
        """The accessibility tree as a screen reader gets it."""
        return [node for node in self.call("Accessibility.getFullAXTree")["nodes"]
                if not node.get("ignored")]

    def pdf(self):
        return base64.b64decode(self.call("Page.printToPDF", preferCSSPageSize=True,
                                          printBackground=True)["data"])

    def picture(self):
        return base64.b64decode(self.call("Page.captureScreenshot", captureBeyondViewport=True,
                                          format="png")["data"])

    def end(self):
        self.session = None
        self.call("Browser.close")
        self.child.wait(timeout=30)
