"""The whole suite, and the fast part of it, runs in two processes; tests named by path in one."""

from __future__ import annotations

import pytest

PROCESSES = 2


@pytest.hookimpl(tryfirst=True)
def pytest_cmdline_main(config: pytest.Config) -> None:
    """Shares the tests out unless paths, a number of processes or the debugger was asked for."""
    whole = config.args_source is pytest.Config.ArgsSource.TESTPATHS
    shared = config.pluginmanager.hasplugin("xdist") and not hasattr(config, "workerinput")
    if whole and shared and config.option.numprocesses is None and not config.option.usepdb:
        config.option.numprocesses = PROCESSES
        config.option.dist = "worksteal"  # begins with halves, so that what a file keeps is made once
