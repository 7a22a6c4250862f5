"""What differs between a commit and the work tree, on real repositories; nothing is judged."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from methodlint.changes.git import NoAnswer
from tests.changes.repositories import (
    CARD,
    LOST,
    OTHER,
    USERS,
    changed,
    commit,
    gate,
    git,
    make,
    places,
    told,
)  # fmt: skip


def test_nothing_differs_at_first(repository: Path) -> None:
    assert changed(repository) == []
    (repository / "README").write_text("no document\n", encoding="utf-8")
    os.chmod(repository / CARD, 0o755)
    os.utime(repository / OTHER)
    assert changed(repository) == []


@pytest.mark.parametrize("how", ["lies there", "is staged", "is committed"])
def test_changes_count_as_soon_as_they_lie_in_the_work_tree(repository: Path, how: str) -> None:
    (repository / "lab/columns/new.yaml").write_text("kind: column\n", encoding="utf-8")
    (repository / CARD).write_text("kind: column\n", encoding="utf-8")
    (repository / OTHER).unlink()
    if how != "lies there":
        git(repository, "add", "-A")
    if how == "is committed":
        commit(repository)
    assert changed(repository) == [CARD, "lab/columns/new.yaml", OTHER]


def test_what_was_changed_back_does_not_differ(repository: Path) -> None:
    text = (repository / CARD).read_text("utf-8")
    (repository / CARD).write_text("kind: column\n", encoding="utf-8")
    commit(repository)
    (repository / CARD).write_text(text, encoding="utf-8")
    assert changed(repository) == []


def test_a_rename_is_a_removal_and_an_addition(repository: Path) -> None:
    git(repository, "config", "diff.renames", "copies")
    git(repository, "mv", CARD, "lab/columns/other.yaml")
    commit(repository)
    assert changed(repository) == [CARD, "lab/columns/other.yaml"]


def test_what_is_ignored_is_no_part_of_a_change_unless_it_was_committed(repository: Path) -> None:
    (repository / ".gitignore").write_text("*.yaml\n", encoding="utf-8")
    (repository / "lab/methods/scratch.yaml").write_text("kind: method\n", encoding="utf-8")
    assert changed(repository) == []
    git(repository, "add", "-f", "lab/methods/scratch.yaml")
    assert changed(repository) == ["lab/methods/scratch.yaml"]
    (repository / CARD).write_text("kind: column\n", encoding="utf-8")
    assert changed(repository) == [CARD, "lab/methods/scratch.yaml"]


def test_nothing_hides_behind_a_flag_of_the_index(repository: Path) -> None:
    git(repository, "update-index", "--assume-unchanged", CARD)
    (repository / CARD).write_text("kind: column\n", encoding="utf-8")
    assert changed(repository) == [CARD]


def test_ends_of_lines_are_not_what_differs(repository: Path) -> None:
    text = (repository / CARD).read_bytes()
    (repository / CARD).write_bytes(text.replace(b"\n", b"\r\n"))
    assert changed(repository) == []
    (repository / CARD).write_bytes(text.replace(b"\n", b"\r\n") + b"\r\nx-more: 1\r\n")
    assert changed(repository) == [CARD]


def test_tables_and_links(repository: Path) -> None:
    (repository / "lab/methods/alias.yaml").symlink_to("dye-intermediates.yaml")
    (repository / "lab/Samples.CSV").write_text("sample\n", encoding="utf-8")
    commit(repository)
    assert changed(repository) == ["lab/Samples.CSV", "lab/methods/alias.yaml"]
    assert changed(repository, "HEAD") == []
    (repository / "lab/methods/alias.yaml").unlink()
    (repository / "lab/methods/alias.yaml").symlink_to("flavonoid-aglycones.yaml")
    assert changed(repository, "HEAD") == ["lab/methods/alias.yaml"]
    (repository / "lab/methods/alias.yaml").unlink()
    shutil.copy(repository / USERS[1], repository / "lab/methods/alias.yaml")
    assert changed(repository, "HEAD") == ["lab/methods/alias.yaml"]
    (repository / "lab/methods/alias.yaml").unlink()
    os.mkfifo(repository / "lab/methods/alias.yaml")
    assert changed(repository, "HEAD") == ["lab/methods/alias.yaml"]


def test_a_link_to_a_folder_of_cards_concerns_its_lab(repository: Path) -> None:
    lab = repository / "lab"
    (lab / "columns").rename(lab / "cards")
    shutil.copytree(lab / "cards", lab / "cards-2")
    (lab / "columns").symlink_to("cards")
    base = commit(repository)
    assert changed(repository, base) == []
    (lab / "columns").unlink()
    (lab / "columns").symlink_to("cards-2")
    assert set(changed(repository, base)) >= {OTHER, *USERS}


def test_changes_of_main_are_not_those_of_the_branch(repository: Path) -> None:
    (repository / CARD).write_text("kind: column\n", encoding="utf-8")
    commit(repository)
    git(repository, "checkout", "-q", "main")
    (repository / OTHER).write_text("kind: method\n", encoding="utf-8")
    commit(repository)
    git(repository, "checkout", "-q", "change")
    assert changed(repository) == [CARD]
    git(repository, "merge", "-q", "-m", "take in what main has", "main")
    assert changed(repository) == [CARD]
    # A queue of merges puts the change on the tip of main.
    git(repository, "checkout", "-q", "--detach", "main")
    git(repository, "merge", "-q", "--no-ff", "-m", "merge the change", "change")
    assert changed(repository) == [CARD]
    assert changed(repository, "HEAD^1") == [CARD]
    git(repository, "branch", "-q", "-f", "main", "HEAD")
    assert changed(repository) == [], "it is in main now"


def test_a_merge_that_is_not_resolved_is_what_lies_there(repository: Path) -> None:
    for branch in ("main", "change"):
        git(repository, "checkout", "-q", branch)
        (repository / CARD).write_text(f"kind: column\ntitle: {branch}\n", encoding="utf-8")
        commit(repository)
    with pytest.raises(AssertionError):
        git(repository, "merge", "-q", "main")
    assert "<<<<<<<" in (repository / CARD).read_text("utf-8")
    assert changed(repository) == [CARD]
    assert gate(repository).status == 2


# Sparse checkouts and submodules ------------------------------------------------------------


def test_a_sparse_checkout_without_what_is_concerned_is_refused(repository: Path) -> None:
    (repository / "elsewhere").mkdir()
    (repository / "elsewhere/values.yaml").write_text("a: 1\n", encoding="utf-8")
    git(repository, "checkout", "-q", "main")
    commit(repository)
    git(repository, "checkout", "-q", "-B", "change")
    git(repository, "sparse-checkout", "set", "lab")
    assert not (repository / "elsewhere").exists()
    assert changed(repository) == []
    (repository / CARD).write_text("kind: column\n", encoding="utf-8")
    assert changed(repository) == [CARD], "what is left out belongs to no lab of the change"
    git(repository, "checkout", "-q", CARD)
    git(repository, "sparse-checkout", "set", "lab/columns", "lab/instruments")
    assert changed(repository) == []
    (repository / CARD).write_text("kind: column\n", encoding="utf-8")
    with pytest.raises(NoAnswer, match="git sparse-checkout disable"):
        changed(repository)
    done = gate(repository)
    assert (done.status, done.out) == (2, b"")
    git(repository, "sparse-checkout", "disable")
    assert changed(repository) == [CARD]


def test_a_change_that_a_sparse_checkout_leaves_out_is_refused(repository: Path) -> None:
    (repository / OTHER).write_text("kind: method\n", encoding="utf-8")
    commit(repository)
    git(repository, "sparse-checkout", "set", "lab/columns")
    with pytest.raises(NoAnswer, match="left out of this sparse checkout"):
        changed(repository)


@pytest.fixture
def with_cards(tmp_path: Path) -> Path:
    """A repository whose columns are a submodule."""
    cards = tmp_path / "cards"
    whole = make(tmp_path / "repository")
    (whole / "lab/columns").rename(cards)
    git(cards, "init", "-q", "-b", "main")
    commit(cards)
    git(whole, "checkout", "-q", "main")
    commit(whole)
    git(whole, "submodule", "--quiet", "add", str(cards), "lab/columns")
    commit(whole)
    git(whole, "checkout", "-q", "-B", "change")
    return whole


def test_the_files_of_a_submodule_are_compared_with_the_commit_that_it_had(
    with_cards: Path,
) -> None:
    assert changed(with_cards) == []
    card = with_cards / CARD
    card.write_text(card.read_text("utf-8").replace("400 bar", "200 bar"), encoding="utf-8")
    assert changed(with_cards) == [CARD]
    commit(card.parent)
    commit(with_cards)
    assert changed(with_cards) == [CARD]
    assert gate(with_cards).status == 1
    assert changed(with_cards, "HEAD") == []


def test_a_submodule_that_is_not_there_is_refused_where_it_concerns_the_lab(
    with_cards: Path,
) -> None:
    git(with_cards, "submodule", "--quiet", "deinit", "--force", "lab/columns")
    assert changed(with_cards) == []
    (with_cards / OTHER).write_text("kind: method\n", encoding="utf-8")
    with pytest.raises(NoAnswer, match="git submodule update --init"):
        changed(with_cards)
    git(with_cards, "submodule", "--quiet", "update", "--init")
    assert changed(with_cards) == [OTHER]


def test_a_submodule_without_the_earlier_commit_is_told_how_to_mend_it(
    with_cards: Path, tmp_path: Path
) -> None:
    cards = tmp_path / "cards"
    (cards / "diol-3um.yaml").write_text("kind: column\n", encoding="utf-8")
    commit(cards)
    git(with_cards / "lab/columns", "pull", "-q", "origin", "main")
    commit(with_cards)
    git(tmp_path, "clone", "-q", f"file://{with_cards}", "clone")
    git(tmp_path / "clone", "branch", "-q", "main", "origin/main")
    git(
        tmp_path / "clone",
        "config",
        "-f",
        ".gitmodules",
        "submodule.lab/columns.url",
        f"file://{cards}",
    )
    git(tmp_path / "clone", "submodule", "--quiet", "update", "--init", "--depth", "1")
    with pytest.raises(NoAnswer, match="does not hold the commit that it had before") as refused:
        changed(tmp_path / "clone")
    command = str(refused.value).partition("run: git ")[2].split()
    git(tmp_path / "clone", *command)
    assert changed(tmp_path / "clone") == [CARD]


def test_a_submodule_of_others_does_not_hold_a_change(repository: Path, tmp_path: Path) -> None:
    theirs = tmp_path / "theirs"
    theirs.mkdir()
    git(theirs, "init", "-q", "-b", "main")
    first = commit(theirs)
    git(repository, "update-index", "--add", "--cacheinfo", f"160000,{first},vendor/theirs")
    git(repository, "commit", "-q", "-m", "theirs")
    (repository / "vendor/theirs").mkdir(parents=True)
    done = gate(repository)
    assert done.status == 0
    assert "the submodule vendor/theirs changes and is not checked out" in done.stderr


def test_a_removed_submodule_is_missed(with_cards: Path) -> None:
    git(with_cards, "rm", "-q", "-f", "lab/columns")
    git(with_cards, "commit", "-q", "-m", "away")
    data = told(with_cards)
    assert data["status"] == 2
    assert places(data, LOST) >= set(USERS)
