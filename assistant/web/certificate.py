"""The certificate that `boxaloud serve --lan` shows: made on this machine, kept beside the jobs.

No authority signs it, so a browser warns once; it is kept so that it warns once only, and its
fingerprint is printed to be compared. Needs the optional `serve` part; imported when used.
"""

from __future__ import annotations

import ipaddress
import ssl
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path

from boxaloud.assistant.storage.data_folders import data_folder
from boxaloud.assistant.storage.private_files import private_folder
from boxaloud.assistant.text.atomic_file import write_whole
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

FILE = "serve-certificate.pem"
DAYS = 365


def context_for(addresses: Sequence[str]) -> tuple[ssl.SSLContext, str]:
    """What a server on these addresses shows, and the certificate's SHA-256 fingerprint.

    Raises OSError where it cannot be kept.
    """
    path = data_folder() / FILE
    if not _good_for(path, addresses):
        private_folder(path.parent)
        write_whole(path, _made(addresses).decode("ascii"))
    made = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    made.minimum_version = ssl.TLSVersion.TLSv1_2
    made.load_cert_chain(path)
    shown = x509.load_pem_x509_certificate(path.read_bytes()).fingerprint(hashes.SHA256())
    return made, shown.hex(":").upper()


def _good_for(path: Path, addresses: Sequence[str]) -> bool:
    """Whether the certificate kept is one of ours, in date, and for all these addresses."""
    try:
        raw = path.read_bytes()
        known = x509.load_pem_x509_certificate(raw)
        serialization.load_pem_private_key(raw, None)
        names = known.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except (OSError, ValueError, x509.ExtensionNotFound):
        return False
    held = {str(each) for each in names.get_values_for_type(x509.IPAddress)}
    left = known.not_valid_after_utc - datetime.now(UTC)
    return set(addresses) <= held and left > timedelta(days=1)


def _made(addresses: Sequence[str]) -> bytes:
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "Boxaloud on this network")])
    names = [x509.IPAddress(ipaddress.ip_address(each)) for each in addresses]
    now = datetime.now(UTC)
    made = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - timedelta(hours=1))
        .not_valid_after(now + timedelta(days=DAYS))
        .add_extension(x509.SubjectAlternativeName(names), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .sign(key, hashes.SHA256())
    )
    return made.public_bytes(serialization.Encoding.PEM) + key.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.NoEncryption(),
    )
