#!/usr/bin/env python3
"""Runs the project's commands."""

import os
import sys


def data_folder(arguments: list[str]) -> str | None:
    """The DIR of --data DIR or --data=DIR: settings are read before the command can hand it on."""
    for position, argument in enumerate(arguments):
        if argument == "--data" and position + 1 < len(arguments):
            return arguments[position + 1]
        if argument.startswith("--data="):
            return argument.removeprefix("--data=")
    return None


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shopapi.settings")
    if folder := data_folder(sys.argv):
        os.environ["FLITCHBOOK_DATA"] = folder
    from django.core.management import execute_from_command_line

    execute_from_command_line(sys.argv)


if __name__ == "__main__":
    main()
