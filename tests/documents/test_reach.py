"""What may be reached from a folder: hazards of names, links and rights, and never an exception."""

import os
import sys

import pytest

from methodlint.documents.text.reach import is_file, is_folder, is_link, leaves, names_in, real

IMPOSSIBLE = ["x" * 5_000, "a\0b", "/".join(["x" * 200] * 100)]


@pytest.mark.parametrize("name", IMPOSSIBLE, ids=["too-long", "NUL", "too-deep"])
def test_names_that_no_file_can_have_are_nothing(tmp_path, name):
    file = tmp_path / name
    assert not is_file(file)
    assert not is_folder(file)
    assert names_in(file) == []
    # Nothing is known of it but where it would stand.
    assert real(file).is_absolute()


def test_files_folders_and_links_are_told_apart(tmp_path):
    (tmp_path / "b.yaml").write_text("", encoding="utf-8")
    (tmp_path / "a").mkdir()
    (tmp_path / "link").symlink_to("b.yaml")
    (tmp_path / "nowhere").symlink_to("gone")
    assert names_in(tmp_path) == ["a", "b.yaml", "link", "nowhere"]
    assert [is_file(tmp_path / name) for name in names_in(tmp_path)] == [False, True, True, False]
    assert [is_folder(tmp_path / name) for name in names_in(tmp_path)] == [
        True,
        False,
        False,
        False,
    ]
    assert [is_link(tmp_path / name) for name in names_in(tmp_path)] == [False, False, True, True]
    assert real(tmp_path / "link") == real(tmp_path) / "b.yaml"


def test_a_link_in_a_circle_is_no_file(tmp_path):
    (tmp_path / "one").symlink_to("two")
    (tmp_path / "two").symlink_to("one")
    assert not is_file(tmp_path / "one")
    assert names_in(tmp_path / "one") == []
    assert not leaves(tmp_path / "one", tmp_path)


def test_links_that_lead_out_of_a_folder_are_known(tmp_path):
    lab = tmp_path / "lab"
    (lab / "methods").mkdir(parents=True)
    (tmp_path / "outside.yaml").write_text("", encoding="utf-8")
    (lab / "out").symlink_to("..")
    (lab / "inside").symlink_to("methods")
    (tmp_path / "same").symlink_to("lab")
    assert leaves(lab / "out" / "outside.yaml", lab)
    assert leaves(lab / ".." / "outside.yaml", lab)
    assert not leaves(lab / "inside" / "x.yaml", lab)
    # The folder may be a link itself.
    assert not leaves(lab / "x.yaml", tmp_path / "same")
    # A neighbour whose name begins alike is outside.
    assert leaves(tmp_path / "lab-two" / "x.yaml", lab)


@pytest.mark.skipif(
    sys.platform == "win32" or os.geteuid() == 0, reason="whoever may do all enters every folder"
)
def test_a_folder_that_may_not_be_entered_is_empty(tmp_path):
    closed = tmp_path / "closed"
    closed.mkdir()
    (closed / "x").write_text("", encoding="utf-8")
    closed.chmod(0)
    try:
        assert names_in(closed) == []
        assert not is_file(closed / "x")
    finally:
        closed.chmod(0o700)
