"""`rank --scheduler` on a local cluster of two workers in processes of their own."""

import json
import os
import shutil
import signal
import subprocess
import sys

import pytest

from tests import shapes
from tests.command.test_line import answers
from tests.command.test_rank import write
from viewer.app import main
from viewer.command import line, rank_cluster

OPENSSL = shutil.which("openssl")
WORDS = ["--directions", "12", "--keep", "1", "--machine", "Two nozzles, large", "--json"]
pytestmark = [
    pytest.mark.timeout(280),
    # What the cluster's own threads and sockets leave behind at its end is not ours.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
    pytest.mark.filterwarnings("ignore::ResourceWarning"),
]


@pytest.fixture(scope="module")
def distributed():
    """Loaded where it is used: it takes long."""
    return pytest.importorskip("distributed")


@pytest.fixture(scope="module")
def cluster(distributed):
    made = distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=":0",
        host="127.0.0.1", memory_limit=0,
    )  # fmt: skip
    yield made
    made.close()


@pytest.fixture
def files(tmp_path):
    """Three parts and, in between, one that is none."""
    meshes = {
        "bracket": shapes.l_bracket(), "wedge": shapes.wedge(20.0), "tunnel": shapes.tunnel()
    }  # fmt: skip
    paths = [write(mesh, tmp_path / f"{name}.stl") for name, mesh in meshes.items()]
    nothing = tmp_path / "nothing.stl"
    nothing.write_bytes(b"no part at all")
    return [paths[0], nothing, *paths[1:]]


def without_time(answer):
    return {key: value for key, value in answer.items() if key != "seconds"}


def test_the_same_answers_in_order_though_a_worker_is_killed_midway(
    cluster, distributed, files, capsys, monkeypatch
):
    here, err_here = answers(capsys, ["rank", *files, *WORDS], 1)
    address = cluster.scheduler_address
    with distributed.Client(address, set_as_default=False) as client:
        pids = client.run(os.getpid)
        doomed = next(iter(pids.values()))
        told = []
        real_print = print

        def killing_print(*words, **more):
            """The first answer is the sign for one of the workers to die with its part."""
            real_print(*words, **more)
            if not told:
                os.kill(doomed, signal.SIGKILL)
            told.append(words)

        monkeypatch.setattr(line, "print", killing_print, raising=False)
        there, err_there = answers(capsys, ["rank", *files, *WORDS, "--scheduler", address], 1)
        assert doomed not in client.run(os.getpid).values()
    assert [answer["file"] for answer in there] == ["bracket.stl", "wedge.stl", "tunnel.stl"]
    assert list(map(without_time, there)) == list(map(without_time, here))
    assert err_there == err_here
    assert err_here.startswith("nothing.stl: ")


def test_a_scheduler_that_is_not_there_and_an_extra_that_is_not_installed(
    files, capsys, monkeypatch
):
    monkeypatch.setattr(rank_cluster, "CONNECT_S", 1)
    words = ["rank", str(files[0]), "--json", "--scheduler"]
    assert main([*words, "tcp://127.0.0.1:1"]) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("No Dask scheduler answers at tcp://127.0.0.1:1 (")
    assert main([*words, "here"]) == 1
    assert len(capsys.readouterr().err.strip().splitlines()) == 1
    monkeypatch.setitem(sys.modules, "distributed", None)
    assert main([*words, "tcp://127.0.0.1:1"]) == 1
    assert 'extra "cluster"' in capsys.readouterr().err


@pytest.mark.skipif(OPENSSL is None, reason="openssl makes the certificates")
def test_certificates_are_those_of_dasks_own_settings(
    distributed, tmp_path, files, capsys, monkeypatch
):
    """A secured scheduler turns away who has no certificate, and answers who has."""
    certificate, key = tmp_path / "certificate.pem", tmp_path / "key.pem"
    subprocess.run(
        [OPENSSL, "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-subj",
         "/CN=dask", "-keyout", key, "-out", certificate],
        check=True, capture_output=True,
    )  # fmt: skip
    roles = {
        f"tls_{role}_{what}": str(path)
        for role in ("client", "scheduler", "worker")
        for what, path in (("cert", certificate), ("key", key))
    }
    security = distributed.security.Security(
        tls_ca_file=str(certificate), require_encryption=True, **roles
    )
    with distributed.LocalCluster(
        n_workers=1, threads_per_worker=1, processes=False, dashboard_address=":0",
        protocol="tls", security=security, host="127.0.0.1", memory_limit=0,
    ) as secured:  # fmt: skip
        words = ["rank", str(files[0]), "--directions", "12", "--keep", "1", "--json"]
        words += ["--scheduler", secured.scheduler_address]
        assert secured.scheduler_address.startswith("tls://")
        with monkeypatch.context() as hurried:
            hurried.setattr(rank_cluster, "CONNECT_S", 2)
            assert main(words) == 1
        assert "distributed.comm.tls" in capsys.readouterr().err
        with pytest.importorskip("dask").config.set(
            {
                "distributed.comm.tls.ca-file": str(certificate),
                "distributed.comm.tls.client.cert": str(certificate),
                "distributed.comm.tls.client.key": str(key),
            }
        ):
            assert main(words) == 0
    assert json.loads(capsys.readouterr().out)["file"] == "bracket.stl"
