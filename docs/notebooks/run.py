#!/usr/bin/python3
"""Runs notebooks as their readers do, in a Jupyter kernel for TypeScript, with the package as it would be published.

    npm run notebooks                    all of this folder
    npm run notebooks -- NAME.ipynb      some of them

Needs Debian's python3-nbclient; all else comes from package.json here. A notebook fails on an error, on a cell that does
not print what the comments beside its `console.log` say, on a `show(...)` at the end of a cell that shows no picture
or table, and where the compiler objects to its cells. Notebooks stay as they are, without outputs; run ones go to
out/notebooks. The last line is `N passed, N failed`.
"""

import json
import os
import re
import subprocess
import sys
import time
from pathlib import Path
from queue import Empty

import nbformat
from nbclient import NotebookClient
from nbclient.exceptions import CellExecutionComplete, CellExecutionError
from nbclient.util import ensure_async

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
OUT = ROOT / "out" / "notebooks"

# How long after the kernel says that it is idle a result may still come, one that is promised, and how long a cell may
# take; seconds.
SETTLE = 0.25
LATE = 10
LONGEST = 120


class Client(NotebookClient):
    """A client that bears with two habits of the kernel: outputs after its `idle`, and `"transient": null`."""

    def process_message(self, msg, cell, cell_index):
        if msg["content"].get("transient", {}) is None:
            msg["content"]["transient"] = {}
        return super().process_message(msg, cell, cell_index)

    async def _async_poll_output_msg(self, parent_msg_id, cell, cell_index):
        idle = None
        while True:
            try:
                msg = await ensure_async(self.kc.iopub_channel.get_msg(timeout=SETTLE if idle else None))
            except Empty:
                if time.monotonic() - idle > LATE or not any(missing_outputs(cell)):
                    return
                continue
            if msg["parent_header"].get("msg_id") != parent_msg_id:
                continue
            try:
                self.process_message(msg, cell, cell_index)
            except CellExecutionComplete:
                idle = time.monotonic()


def npm(*args, cwd):
    """Runs npm, quietly unless it fails."""
    done = subprocess.run(["npm", *args], cwd=cwd, text=True, capture_output=True)
    if done.returncode != 0:
        sys.exit(f"npm {' '.join(args)} failed\n{done.stdout}{done.stderr}")
    return done.stdout


def install():
    """Puts the kernel and the package, built and packed anew, into this folder; returns the kernel's home."""
    packed = OUT / "package"
    packed.mkdir(parents=True, exist_ok=True)
    npm("run", "build", cwd=ROOT)
    [made] = json.loads(npm("pack", "--json", "--pack-destination", str(packed), cwd=ROOT))
    quiet = ("--prefer-offline", "--no-audit", "--no-fund")
    npm("ci", *quiet, cwd=HERE)
    npm("install", "--no-save", *quiet, str(packed / made["filename"]), cwd=HERE)
    home = OUT / "jupyter"
    kernel = home / "kernels" / "deno"
    kernel.mkdir(parents=True, exist_ok=True)
    deno = HERE / "node_modules" / ".bin" / "deno"
    argv = [str(deno), "jupyter", "--kernel", "--conn", "{connection_file}"]
    spec = {"argv": argv, "display_name": "Deno", "language": "typescript"}
    (kernel / "kernel.json").write_text(json.dumps(spec))
    return home


def code_cells(notebook):
    return [cell for cell in notebook.cells if cell.cell_type == "code"]


def compiler_says(path, notebook):
    """What the compiler has against the cells, one after the other as one file."""
    cells = path.with_suffix(".cells.ts")
    cells.write_text("\n\n".join(cell.source for cell in code_cells(notebook)) + "\n")
    options = ["--noEmit", "--strict", "--skipLibCheck", "--target", "es2022", "--lib", "es2022,dom"]
    options += ["--module", "esnext", "--moduleResolution", "bundler", "--ignoreConfig"]
    try:
        tsc = ROOT / "node_modules" / ".bin" / "tsc"
        done = subprocess.run([tsc, *options, cells], cwd=HERE, text=True, capture_output=True)
        return [] if done.returncode == 0 else done.stdout.splitlines()
    finally:
        cells.unlink()


def missing_outputs(cell):
    """What a cell's outputs lack of what its source promises."""
    promised = re.findall(r"^\s*console\.log\(.*\); // (.*)$", cell.source, re.MULTILINE)
    printed = "".join(o.text for o in cell.outputs if o.output_type == "stream" and o.name == "stdout")
    if printed.splitlines() != promised:
        yield f"printed {printed.splitlines()} instead of {promised}"
    if any(o.output_type == "stream" and o.name == "stderr" for o in cell.outputs):
        yield "printed to stderr"
    if re.search(r"^show\(", cell.source, re.MULTILINE):
        shown = [o for o in cell.outputs if o.output_type in ("execute_result", "display_data")]
        if not any(re.search("<svg|<table|<li>", o.data.get("text/html", "")) for o in shown):
            yield "shows nothing"


def faults(path, home):
    """Runs a notebook; returns what is wrong with it."""
    notebook = nbformat.read(path, as_version=4)
    found = compiler_says(path, notebook)
    os.environ["JUPYTER_PATH"] = str(home)
    client = Client(
        notebook,
        kernel_name="deno",
        timeout=LONGEST,
        resources={"metadata": {"path": str(path.parent)}},
    )
    try:
        client.execute()
    except CellExecutionError as error:
        return [*found, str(error)]
    finally:
        nbformat.write(notebook, OUT / path.name)
    for k, cell in enumerate(code_cells(notebook), 1):
        found += [f"code cell {k}: {fault}" for fault in missing_outputs(cell)]
    return found


def main(names):
    paths = [HERE / name for name in names] or sorted(HERE.glob("*.ipynb"))
    if not paths:
        sys.exit("no notebook")
    home = install()
    failed = 0
    for path in paths:
        start = time.time()
        wrong = faults(path, home)
        failed += bool(wrong)
        print(f"{'FAILED' if wrong else 'ok    '} {path.name} ({time.time() - start:.1f} s)")
        for line in wrong:
            print(f"  {line}")
    print(f"{len(paths) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
