"""Plays a plan on all cores."""

import multiprocessing
import os
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor, as_completed
from typing import Any

from helmwright.study.results import Results
from helmwright.study.task import Task, played

Rows = list[dict[str, Any]]


def run(tasks: list[Task], results: Results, done: Callable[[], None]) -> None:
    """Play what is lacking and keep it, head by head.

    Parameters
    ----------
    tasks, results
        What is to be played, and where it goes.
    done
        Called after each head.
    """
    for rows in _all_played(tasks):
        results.add(rows)
        done()


def _all_played(tasks: list[Task]) -> Iterator[Rows]:
    """Every task's rows, as they come; one process for each core.

    Notes
    -----
    Processes, since half of a visit is spent outside the compiled code, where threads wait for
    each other.
    """
    workers = min(os.cpu_count() or 1, len(tasks))
    if workers <= 1:
        yield from map(played, tasks)
        return
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(workers, mp_context=context) as pool:
        waiting = [pool.submit(played, task) for task in tasks]
        try:
            for done in as_completed(waiting):
                yield done.result()
        finally:
            pool.shutdown(wait=False, cancel_futures=True)
