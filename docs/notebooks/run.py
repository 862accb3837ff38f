#!/usr/bin/python3
"""Runs notebooks as their readers do, in a Jupyter kernel for TypeScript, with the package as it would be published.

    npm run notebooks                    all of this folder, and the one that docs/notebooks.md starts
    npm run notebooks -- NAME.ipynb      some of them; notebooks.md is that of the page

Needs Debian's python3-nbclient; all else comes from package.json here. A notebook fails on an error, on a cell that does
not print what the comments beside its `console.log` say, on a `show(...)` at the end of a cell that shows no picture
or table, and where the compiler objects to its cells. Notebooks stay as they are, without outputs; run ones go to
out/notebooks. The commands of docs/notebooks.md run in an empty home, with the packed package in place of the published
one, and its cell runs in the kernel that they set up. The last line is `N passed, N failed`.
"""

import json
import os
import re
import subprocess
import sys
import tempfile
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
GUIDE = ROOT / "docs" / "notebooks.md"

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


def pack():
    """Builds and packs the package; returns the file."""
    packed = OUT / "package"
    packed.mkdir(parents=True, exist_ok=True)
    npm("run", "build", cwd=ROOT)
    [made] = json.loads(npm("pack", "--json", "--pack-destination", str(packed), cwd=ROOT))
    return packed / made["filename"]


def install(package):
    """Puts the kernel and the package into this folder; returns where Jupyter finds the kernel."""
    quiet = ("--prefer-offline", "--no-audit", "--no-fund")
    npm("ci", *quiet, cwd=HERE)
    npm("install", "--no-save", *quiet, str(package), cwd=HERE)
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


def execute(notebook, folder, jupyter, name):
    """Runs a notebook in a folder, with the kernel that Jupyter finds; returns what is wrong with it."""
    os.environ["JUPYTER_PATH"] = str(jupyter)
    resources = {"metadata": {"path": str(folder)}}
    try:
        Client(notebook, kernel_name="deno", timeout=LONGEST, resources=resources).execute()
    except CellExecutionError as error:
        return [str(error)]
    finally:
        nbformat.write(notebook, OUT / name)
    cells = enumerate(code_cells(notebook), 1)
    return [f"code cell {k}: {fault}" for k, cell in cells for fault in missing_outputs(cell)]


def faults(path, jupyter):
    """What is wrong with a notebook of this folder."""
    notebook = nbformat.read(path, as_version=4)
    return [*compiler_says(path, notebook), *execute(notebook, HERE, jupyter, path.name)]


def faults_of_guide(package):
    """What is wrong with the guide: its commands in an empty home, then its cell as a notebook of the folder they made."""
    page = GUIDE.read_text()
    [commands] = re.findall(r"```sh\n(.*?)```", page, re.DOTALL)
    [cell] = re.findall(r"```typescript\n(.*?)```", page, re.DOTALL)
    if commands.count("install jounce ") != 1:
        return ["does not install the package"]
    commands = commands.replace("install jounce ", f"install {package} ")
    with tempfile.TemporaryDirectory() as home:
        cache = npm("config", "get", "cache", cwd=ROOT).strip()
        env = {k: v for k, v in os.environ.items() if not k.startswith(("JUPYTER", "XDG_", "DENO_", "npm_"))}
        env |= {"HOME": home, "npm_config_cache": cache, "npm_config_prefer_offline": "true"}
        done = subprocess.run(["bash", "-ec", commands], cwd=home, env=env, text=True, capture_output=True)
        if done.returncode != 0:
            return [f"{done.stdout}{done.stderr}"]
        [made] = [path for path in Path(home).iterdir() if (path / "package.json").exists()]
        notebook = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(cell.strip())])
        return execute(notebook, made, Path(home) / ".local" / "share" / "jupyter", "guide.ipynb")


def main(names):
    paths = [GUIDE if name == GUIDE.name else HERE / name for name in names]
    paths = paths or [GUIDE, *sorted(HERE.glob("*.ipynb"))]
    package = pack()
    jupyter = install(package)
    failed = 0
    for path in paths:
        start = time.time()
        wrong = faults_of_guide(package) if path == GUIDE else faults(path, jupyter)
        failed += bool(wrong)
        print(f"{'FAILED' if wrong else 'ok    '} {path.name} ({time.time() - start:.1f} s)")
        for line in wrong:
            print(f"  {line}")
    print(f"{len(paths) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
