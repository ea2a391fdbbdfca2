"""Opens the shop: database, phone app, demo, web server, background worker, and a way in."""

import os
import sys
from argparse import ArgumentParser
from typing import Any

import segno
from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError

from shopapi.opening import addresses, phone_app, services
from shopapi.opening.processes import Children, Stopped


class Command(BaseCommand):
    help = "Makes everything ready and serves it, until Ctrl-C."
    requires_system_checks: list[str] = []  # start-up time; the tests run the checks

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--port", type=int, default=8000, help="where to listen (8000)")
        parser.add_argument("--data", metavar="DIR", help="the folder for database and photographs (./data)")
        parser.add_argument("--bare", action="store_true", help="start with an empty shop, without the demo")
        threads = 2 * (os.cpu_count() or 1) + 1
        parser.add_argument("--threads", type=int, default=threads, help=f"requests served at once ({threads})")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            services.data_folder_ready(settings.DATA_DIR)
            if not addresses.port_is_free(options["port"]):
                raise services.NotReadyError(
                    f"Port {options['port']} is taken by another program. Close that one, or choose another port: "
                    f"--port {options['port'] + 1}"
                )
            if phone_app.is_stale():
                phone_app.build(self.say)
            call_command("migrate", verbosity=0, interactive=False, skip_checks=True)
            owner = services.owner_ready(bare=options["bare"], say=self.say)
        except (services.NotReadyError, phone_app.BuildError) as error:
            raise CommandError(str(error), returncode=2) from error
        self.serve(owner, options)

    def serve(self, owner: Any, options: dict[str, Any]) -> None:
        try:
            with Children(port=options["port"], threads=options["threads"]) as children:
                if not children.wait_until_open():
                    raise CommandError("The web server did not start; its reason stands above.", returncode=2)
                self.welcome(owner, options["port"])
                children.watch(self.say)
                raise CommandError("The web server ended; its reason stands above.", returncode=1)
        except Stopped:
            self.say("\nThe shop is closed.")

    def welcome(self, owner: Any, port: int) -> None:
        here = f"http://localhost:{port}/"
        address = addresses.network_address()
        phone = f"http://{address}:{port}/" if address else None
        self.say(f"\nThe shop is open.\n  On this machine: {here}")
        self.say(f"  On a phone here: {phone or 'no network was found'}")
        self.say("\nSign in once, within the hour:")
        self.say(f"  On this machine: {here}#/enter/{services.way_in(owner)}")
        if phone:
            link = f"{phone}#/enter/{services.way_in(owner)}"
            self.say(f"  On a phone here: {link}\n  or scan this with it:\n")
            self.picture(link)
        self.say("Ctrl-C closes the shop.")

    def picture(self, link: str) -> None:
        try:
            segno.make(link, micro=False).terminal(out=sys.stdout, compact=True)
        except UnicodeEncodeError:
            self.say("  (this terminal cannot draw the code; type the address instead)")

    def say(self, line: str) -> None:
        self.stdout.write(line)
        self.stdout.flush()
