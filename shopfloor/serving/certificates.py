"""The shop's own certificate authority, and the certificate of its server, as PEM files.

A browser asks for HTTPS before it lets a page use the camera or a gauge, also inside the shop, where no public authority
vouches for a name. So the shop vouches for itself, and each tablet is told once to trust it.
"""

import os
from datetime import datetime, timedelta
from ipaddress import ip_address
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

AUTHORITY_DAYS = 3650
SERVER_DAYS = 820  # tablets of one large maker refuse more than 825 (common practice, no source)
CLOCK_SKEW = timedelta(days=1)
USAGES = (
    *("digital_signature", "content_commitment", "key_encipherment", "data_encipherment", "key_agreement"),
    *("key_cert_sign", "crl_sign", "encipher_only", "decipher_only"),
)
Key = ec.EllipticCurvePrivateKey


class Exists(Exception):
    """A file that would be overwritten."""

    def __init__(self, path: Path) -> None:
        super().__init__(f"{path} exists. To renew it, move it and its key away first; the shop's authority can stay.")


class BadName(ValueError):
    """Not the name or address of a server."""


def make(names: list[str], folder: Path, at: datetime) -> list[Path]:
    """Write server.crt and server.key for `names`, and the authority where there is none; the new files.

    Raises Exists and BadName, and then nothing is written.
    """
    alternatives = [_name(name) for name in names]
    server, authority = folder / "server", folder / "shop-authority"
    for path in (server.with_suffix(".crt"), server.with_suffix(".key")):
        if path.exists():
            raise Exists(path)
    folder.mkdir(parents=True, exist_ok=True)
    made = [] if _kept(authority) else _keep(authority, *_new_authority(at))
    certificate = x509.load_pem_x509_certificate(authority.with_suffix(".crt").read_bytes())
    key = _read_key(authority.with_suffix(".key"))
    return made + _keep(server, *_new_server(alternatives, certificate, key, at), chain=[certificate])


def _name(text: str) -> x509.GeneralName:
    try:
        return x509.IPAddress(ip_address(text))
    except ValueError:
        pass
    labels = text.split(".")
    if not all(label and label.isascii() and label.replace("-", "").isalnum() for label in labels) or labels[-1].isdigit():
        raise BadName(f"{text!r} is neither a host name nor an IP address: write it as it stands in the address bar.")
    return x509.DNSName(text.lower())


def _kept(authority: Path) -> bool:
    """Both files are there; one without the other is a fault that must not be papered over."""
    paths = [authority.with_suffix(".crt"), authority.with_suffix(".key")]
    there = [path for path in paths if path.exists()]
    if len(there) == 1:
        raise Exists(there[0])
    return bool(there)


def _new_authority(at: datetime) -> tuple[x509.Certificate, Key]:
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, f"Main Journal shop authority {at:%Y-%m-%d}")])
    usage = _usage(key_cert_sign=True, crl_sign=True)
    builder = _builder(name, name, key.public_key(), key.public_key(), at, AUTHORITY_DAYS)
    builder = builder.add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True).add_extension(
        usage, critical=True
    )
    return builder.sign(key, hashes.SHA256()), key


def _new_server(
    names: list[x509.GeneralName], authority: x509.Certificate, signer: Key, at: datetime
) -> tuple[x509.Certificate, Key]:
    key = ec.generate_private_key(ec.SECP256R1())
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, str(names[0].value)[:64])])
    builder = (
        _builder(subject, authority.subject, key.public_key(), signer.public_key(), at, SERVER_DAYS)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(digital_signature=True), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(names), critical=False)
    )
    return builder.sign(signer, hashes.SHA256()), key


def _builder(
    subject: x509.Name,
    issuer: x509.Name,
    key: ec.EllipticCurvePublicKey,
    issuers_key: ec.EllipticCurvePublicKey,
    at: datetime,
    days: int,
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(at - CLOCK_SKEW)
        .not_valid_after(at + timedelta(days=days))
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(issuers_key), critical=False)
    )


def _usage(**allowed: bool) -> x509.KeyUsage:
    return x509.KeyUsage(**{name: allowed.get(name, False) for name in USAGES})


def _read_key(path: Path) -> Key:
    key = serialization.load_pem_private_key(path.read_bytes(), password=None)
    assert isinstance(key, ec.EllipticCurvePrivateKey)
    return key


def _keep(stem: Path, certificate: x509.Certificate, key: Key, chain: list[x509.Certificate] | None = None) -> list[Path]:
    pem = serialization.Encoding.PEM
    secret = key.private_bytes(pem, serialization.PrivateFormat.PKCS8, serialization.NoEncryption())
    shown = b"".join(each.public_bytes(pem) for each in [certificate, *(chain or [])])
    return [_write(stem.with_suffix(".key"), secret, 0o600), _write(stem.with_suffix(".crt"), shown, 0o644)]


def _write(path: Path, data: bytes, mode: int) -> Path:
    """Never over another file, and at no moment readable to more than `mode` says."""
    with open(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode), "wb") as file:
        file.write(data)
    path.chmod(mode)
    return path
