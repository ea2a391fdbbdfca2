"""Load the demo into an empty database; what was loaded is JSON on standard output."""

import json
import sys
from typing import Any

from django.core.management.base import BaseCommand
from django.db import DatabaseError

from shopapi.demo.services import DemoRefusedError, load_demo


class Command(BaseCommand):
    help = "Load the demo: an invented workshop with boards, photographs and commissions."

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            loaded = load_demo()
        except DemoRefusedError as refusal:
            self.stderr.write(str(refusal))
            sys.exit(2)
        except DatabaseError as error:
            self.stderr.write(f"The database is not ready ({error}). Run manage.py migrate first.")
            sys.exit(2)
        answer = {
            "workshop": str(loaded.workshop.pk),
            "owner": loaded.owner.user.get_username(),
            "helper": loaded.helper.user.get_username(),
            "commissions": {name: str(row.pk) for name, row in loaded.commissions.items()},
            "boards": loaded.boards,
            "shots": loaded.shots,
            "marks": loaded.marks,
        }
        self.stdout.write(json.dumps(answer))
