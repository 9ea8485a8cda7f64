"""The shop's certificate. Outside source: OpenSSL, which shakes hands with it as a browser would, and refuses another name."""

import socket
import ssl
import stat
import threading
from datetime import UTC, datetime, timedelta

import pytest
from cryptography import x509
from django.core.management import CommandError, call_command

from shopfloor.serving import certificates

NOW = datetime.now(UTC)
NAMES = ["journal.shop", "192.168.7.10"]


@pytest.fixture
def folder(tmp_path):
    certificates.make(NAMES, tmp_path / "kept", NOW)
    return tmp_path / "kept"


def shake_hands(folder, name):
    """A TLS handshake on a socket pair; raises what the client's OpenSSL raises."""
    ours, theirs = socket.socketpair()
    server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    server.load_cert_chain(folder / "server.crt", folder / "server.key")
    client = ssl.create_default_context(cafile=folder / "shop-authority.crt")
    client.verify_flags |= ssl.VerifyFlags.VERIFY_X509_STRICT
    answering = threading.Thread(target=_answer, args=(server, theirs))
    answering.start()
    try:
        with ours, client.wrap_socket(ours, server_hostname=name) as secured:
            return secured.getpeercert()
    finally:
        ours.close()
        answering.join()


def _answer(context, end):
    try:
        with end, context.wrap_socket(end, server_side=True):
            pass
    except (ssl.SSLError, OSError):
        end.close()


@pytest.mark.parametrize("name", NAMES)
def test_a_device_that_trusts_the_authority_trusts_the_server(folder, name):
    assert shake_hands(folder, name)["subjectAltName"] == (("DNS", "journal.shop"), ("IP Address", "192.168.7.10"))


def test_another_name_is_not_trusted(folder):
    with pytest.raises(ssl.SSLCertVerificationError, match="Hostname mismatch"):
        shake_hands(folder, "elsewhere.shop")


def test_the_authority_of_another_shop_is_not_trusted(folder, tmp_path):
    certificates.make(NAMES, tmp_path / "other", NOW)
    (folder / "shop-authority.crt").write_bytes((tmp_path / "other/shop-authority.crt").read_bytes())
    with pytest.raises(ssl.SSLCertVerificationError):
        shake_hands(folder, NAMES[0])


def test_keys_are_for_their_owner_only(folder):
    modes = {path.name: oct(stat.S_IMODE(path.stat().st_mode)) for path in folder.iterdir()}
    assert modes == {
        "shop-authority.crt": "0o644",
        "shop-authority.key": "0o600",
        "server.crt": "0o644",
        "server.key": "0o600",
    }


def test_nothing_is_overwritten(folder):
    before = {path: path.read_bytes() for path in folder.iterdir()}
    with pytest.raises(CommandError, match=r"exists\. To renew it"):
        call_command("make_certificate", "journal.shop", folder=folder)
    assert {path: path.read_bytes() for path in folder.iterdir()} == before


def test_a_renewal_keeps_the_authority_that_the_tablets_trust(folder):
    authority = (folder / "shop-authority.crt").read_bytes()
    for name in ("server.crt", "server.key"):
        (folder / name).unlink()
    made = certificates.make(["journal.shop"], folder, NOW)
    assert [path.name for path in made] == ["server.key", "server.crt"]
    assert (folder / "shop-authority.crt").read_bytes() == authority
    assert shake_hands(folder, "journal.shop")


def test_half_an_authority_is_refused(folder):
    for name in ("server.crt", "server.key", "shop-authority.key"):
        (folder / name).unlink()
    with pytest.raises(certificates.Exists):
        certificates.make(["journal.shop"], folder, NOW)
    assert not (folder / "server.crt").exists()


@pytest.mark.parametrize(
    "name", ["https://journal.shop", "journal shop", "journal.shop:443", "", "300.1.1.1", "*.shop", "größe.shop"]
)
def test_what_is_no_name_is_refused(tmp_path, name):
    with pytest.raises(CommandError, match="is neither a host name nor an IP address"):
        call_command("make_certificate", name, folder=tmp_path / "kept")
    assert not (tmp_path / "kept").exists()


def test_how_long_it_is_good(folder):
    server = x509.load_pem_x509_certificate((folder / "server.crt").read_bytes())
    assert server.not_valid_after_utc - server.not_valid_before_utc <= timedelta(days=825)
    assert server.not_valid_before_utc < NOW


def test_the_reader_is_told_how_to_trust_it(tmp_path, capsys):
    call_command("make_certificate", "journal.shop", folder=tmp_path / "kept")
    told = capsys.readouterr().out
    assert f"Give {tmp_path / 'kept/shop-authority.crt'} to every tablet" in told
    assert "Keep" in told
    assert "shop-authority.key off the network" in told
