"""Whether a file that cannot be used is ours: silent for the YAML of others, never for our own."""

from pathlib import Path

import pytest

from methodlint.documents.library import FOLDERS
from methodlint.documents.text.reader import not_read, read_text
from methodlint.documents.whose import is_methodlint_file


def ours(data, file="notes/x.yaml", lab=True):
    data = data.encode() if isinstance(data, str) else data
    read = read_text(data, file)
    return is_methodlint_file(read, Path(file), folders=FOLDERS.values(), lab=lab)


@pytest.mark.parametrize(
    "text",
    [
        "name: build\non: [push]\n",
        "kind: Deployment\nspec: {replicas: 2}\n",
        "kind:\nspec: 1\n",
        "kind: 5\n",
        "{{ template }}\nkind: {{ x }}\n",
        "kind: Service\nport: @80\n",
        "- a\n- b\n",
        "",
        b"\xff\xfe\x00",
        "note: 'kind: method\n",
        "  kind: method\n\t- x\n",
    ],
)
def test_silent_for_yaml_of_others(text):
    assert not ours(text)
    assert not ours(text, lab=False)


def test_silent_for_a_sound_text_without_a_kind_wherever_it_lies():
    assert not ours("name: x\n", "methods/x.yaml")


@pytest.mark.parametrize(
    "text",
    [
        "kind: metod\nflow: 3 mL/min\n",
        "kind: Method\n",
        "kind: methods\n",
        "kind: instrumnt\n",
        "kind: method\nflow: @3\n",
        "'kind' : 'sequence'\nlines: [\n",
        "\ufeffkind: method\nflow: [\n",
        "kind: method\nflow: [\n".encode("utf-16"),
        b"kind: method\ntitle: caf\xe9\n",
    ],
)
def test_a_broken_document_that_says_a_kind_of_ours_is_ours(text):
    assert ours(text)
    assert ours(text, lab=False)


def test_what_cannot_be_read_in_a_folder_of_the_lab_is_ours():
    assert ours("{{ template\n", "methods/x.yaml")
    assert ours("kind: Deployment\n", "columns/x.yaml")
    assert not ours("{{ template\n", "methods/x.yaml", lab=False)
    assert not ours("{{ template\n", "methods/below/x.yaml")


def test_a_file_that_cannot_be_opened_is_ours_in_a_lab_alone():
    read = not_read(Path("notes/x.yaml"), "it may not be read", "check who may read it")
    for lab in (True, False):
        assert is_methodlint_file(read, Path("notes/x.yaml"), folders=(), lab=lab) is lab


def test_a_file_that_is_too_large_says_nothing_about_whose_it_is():
    assert not ours("kind: method\n#" + "x" * 3_000_000)
