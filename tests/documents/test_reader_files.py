"""Opening: only regular files, each failure one problem, and never a wait."""

import os
import socket

import pytest

from methodlint.documents.text.reader import read_document


def only_problem(file):
    read = read_document(file)
    (problem,) = read.problems
    assert problem.rule == "document.unreadable"
    assert problem.breaks
    assert (read.root, read.plain(), read.data, read.sha256) == (None, None, b"", "")
    assert read.broken[()] is problem
    return problem.message


def test_a_file_is_read(tmp_path):
    file = tmp_path / "method.yaml"
    file.write_bytes(b"\xef\xbb\xbfkind: method\r\n")
    read = read_document(file)
    assert (read.plain(), read.name, read.problems) == ({"kind": "method"}, str(file), [])


def test_a_link_to_a_file_is_followed(tmp_path):
    (tmp_path / "a.yaml").write_text("a: 1\n")
    (tmp_path / "b.yaml").symlink_to("a.yaml")
    assert read_document(tmp_path / "b.yaml").plain() == {"a": 1}


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
def test_a_named_pipe_does_not_hang(tmp_path):
    pipe = tmp_path / "pipe.yaml"
    os.mkfifo(pipe)
    assert "no regular file" in only_problem(pipe)


def test_a_socket_a_device_and_a_folder(tmp_path, monkeypatch):
    assert "folder" in only_problem(tmp_path)
    if os.path.exists("/dev/zero"):
        assert "no regular file" in only_problem("/dev/zero")
    monkeypatch.chdir(tmp_path)
    with socket.socket(socket.AF_UNIX) as listener:
        listener.bind("s")
        assert only_problem(tmp_path / "s")


def test_missing_circular_and_impossible_names(tmp_path):
    assert "no such file" in only_problem(tmp_path / "none.yaml")
    (tmp_path / "loop").symlink_to("loop")
    assert "circle" in only_problem(tmp_path / "loop")
    (tmp_path / "file").write_text("a: 1\n")
    assert "no such file" in only_problem(tmp_path / "file" / "below.yaml")
    assert "name" in only_problem(tmp_path / ("x" * 5000))
    assert "name" in only_problem(str(tmp_path) + "\0")
    assert "name" in only_problem(str(tmp_path / "\ud800"))


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may read all")
def test_a_file_that_may_not_be_read(tmp_path):
    file = tmp_path / "secret.yaml"
    file.write_text("a: 1\n")
    file.chmod(0)
    assert "may not be read" in only_problem(file)


def test_refusals_of_the_system_are_put_in_words(tmp_path, monkeypatch):
    file = tmp_path / "a.yaml"
    file.write_text("a: 1\n")

    def deny(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "open", deny)
    assert "may not be read" in only_problem(file)


def test_a_file_that_fails_while_it_is_read(tmp_path, monkeypatch):
    file = tmp_path / "a.yaml"
    file.write_text("a: 1\n")

    def fail(*_):
        raise OSError(5, "Input/output error")

    monkeypatch.setattr(os, "read", fail)
    assert "to its end" in only_problem(file)
