"""Has the layout's machine code made while the boards are being drawn: its first use on a machine takes long."""

import multiprocessing
from multiprocessing.process import BaseProcess


def start_compiling() -> BaseProcess:
    """A process that solves a tiny layout and leaves the compiled code in the cache. To be joined."""
    process = multiprocessing.get_context("spawn").Process(target=_solve_something, daemon=True)
    process.start()
    return process


def _solve_something() -> None:
    from shopapi.craft.layout import Flaw, Problem, Stock, Wanted, solve

    flaw = Flaw(400, 50, 60, 40)
    stocks = (Stock("one", 2000, 200, (flaw,)), Stock("two", 1800, 150))
    wanted = (Wanted("rail", 500, 60, 9, 300), Wanted("slat", 350, 45, 12, 160, clean_faces="one"))
    solve(Problem(stocks, wanted), seconds=1)
