"""Judge many methods on a cluster, kill one of its workers on the way, and compare the reports.

The cluster is one of this machine; a client of any other will do, if its workers see the same files
under the same paths. Needs the extra: pip install 'methodlint[dask]'

    python example_methods/check_on_a_cluster.py --methods 10000
"""

from __future__ import annotations

import argparse
import os
import shutil
import signal
import tempfile
import threading
import time
from pathlib import Path

from distributed import Client, LocalCluster

import methodlint

EXAMPLES = Path(__file__).resolve().parent
CARDS = ("columns", "instruments", "rooms", "solvents", "supplies")
METHOD = EXAMPLES / "methods" / "triazole-enantiomers.yaml"


def lab_of(folder: Path, count: int) -> Path:
    """A lab folder with the example's cards and so many methods, no two alike."""
    lab = folder / "lab"
    (lab / "methods").mkdir(parents=True)
    shutil.copy(EXAMPLES / "lab.yaml", lab)
    for name in CARDS:
        shutil.copytree(EXAMPLES / name, lab / name)
    text = METHOD.read_text(encoding="utf-8")
    for number in range(count):
        flow = f"flow: {1.5 + 0.5 * number / count:.5f} mL/min"
        own = text.replace("flow: 2.0 mL/min", flow)
        (lab / "methods" / f"method-{number:05d}.yaml").write_text(own, encoding="utf-8")
    return lab


def kill_a_worker(client: Client, after: float) -> None:
    """Kill one worker as if its machine went down; its batches go to another one."""
    time.sleep(after)
    process = next(iter(client.run(os.getpid).values()))
    print(f"worker {process} killed")
    os.kill(process, signal.SIGKILL)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--methods", type=int, default=10_000)
    parser.add_argument("--after", type=float, default=2.0, help="seconds until the kill")
    asked = parser.parse_args()
    with (
        tempfile.TemporaryDirectory() as scratch,
        LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as cluster,
        Client(cluster) as client,
    ):
        lab = lab_of(Path(scratch), asked.methods)
        killing = threading.Thread(target=kill_a_worker, args=(client, asked.after))
        killing.start()
        began = time.perf_counter()
        on_cluster = methodlint.check_many([lab / "methods"], client)
        print(f"{asked.methods} methods on the cluster: {time.perf_counter() - began:.0f} s")
        killing.join()
        here = methodlint.check_many([lab / "methods"])
        same = on_cluster.to_dict() == here.to_dict()
        print(
            f"{on_cluster.verdict}; the report of one process is {'the same' if same else 'ANOTHER'}"
        )
        if not same:
            raise SystemExit(1)


if __name__ == "__main__":
    main()
