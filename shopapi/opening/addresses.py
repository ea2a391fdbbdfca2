"""Under which addresses a phone in the same network reaches this machine."""

import socket


def network_address() -> str | None:
    """This machine's address in its network; nothing is sent to find it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # an address reserved for documentation: only the route is looked up
            address = probe.getsockname()[0]
        except OSError:
            return None
    return None if address.startswith(("127.", "0.")) else address


def port_is_free(port: int) -> bool:
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as probe:
        # A port that a server left a moment ago is free; on Windows this option would also allow a taken one.
        if hasattr(socket, "SO_REUSEPORT"):
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind(("0.0.0.0", port))  # noqa: S104 - the server will listen there too
        except OSError:
            return False
    return True


def answers(port: int) -> bool:
    try:
        with socket.create_connection(("127.0.0.1", port), timeout=0.5):
            return True
    except OSError:
        return False
