"""Where a request came from, as a keyed hash: enough to count by, and no address is kept."""

import ipaddress

from django.http import HttpRequest
from django.utils.crypto import salted_hmac

# One household or one phone has at least so many leading bits of an IPv6 address to itself (RFC 6177).
IPV6_PREFIX = 64


def source(request: HttpRequest) -> str:
    """Return the hash of the request's network address; REMOTE_ADDR is already what a trusted proxy says."""
    network = _network(request.META.get("REMOTE_ADDR", ""))
    # The salt names the first room that counted; kept rows are told apart by it.
    return salted_hmac("orders.sources", network, algorithm="sha256").hexdigest()


def _network(address: str) -> str:
    try:
        ip = ipaddress.ip_address(address)
    except ValueError:
        return address
    if isinstance(ip, ipaddress.IPv6Address):
        if ip.ipv4_mapped:
            return str(ip.ipv4_mapped)
        return str(ipaddress.ip_network((int(ip), IPV6_PREFIX), strict=False))
    return str(ip)
