"""A watch over toy processes, to be started by a test: python toy_shop.py FOLDER MOST_FALLS process…

`steady` has a child of its own and lives; `falling` ends at once; `stubborn` does not listen to SIGTERM.
Each writes its number, and that of its child, into the folder.
"""

import os
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[3]))
from shopfloor.serving import supervisor
from shopfloor.serving.processes import Process

NOTE = "import os, pathlib, time, signal, subprocess; folder = pathlib.Path(r'{folder}'); "
NOTE += "(folder / f'{name}-{{os.getpid()}}').touch(); "
TOYS = {
    "steady": NOTE + "child = subprocess.Popen(['sleep', '300']); (folder / f'child-{{child.pid}}').touch(); child.wait()",
    "falling": NOTE + "raise SystemExit(7)",
    "stubborn": NOTE + "signal.signal(signal.SIGTERM, signal.SIG_IGN); time.sleep(300)",
}


def main(folder: str, most_falls: str, *names: str) -> None:
    supervisor.PATIENCE_SECONDS = 1
    toys = [Process(name, (sys.executable, "-c", TOYS[name].format(folder=folder, name=name))) for name in names]
    watch = supervisor.Supervisor(toys, tell=lambda sentence: print(sentence, flush=True), most_falls=int(most_falls))
    try:
        watch.run(environment=os.environ, is_ready=lambda: True, announce=lambda: print("ready", flush=True))
    except supervisor.GaveUp as fault:
        sys.exit(str(fault))
    print("stopped", flush=True)


main(*sys.argv[1:])
