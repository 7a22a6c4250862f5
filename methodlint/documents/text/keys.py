"""Keys that do not say what they seem to say."""

from __future__ import annotations

import unicodedata

from methodlint.documents.text.visible import code_points, is_hidden, retyped, visible

# Letters of other scripts that look like one of ASCII. Source: Unicode Technical Standard 39,
# confusables (a selection; unverified); full-width and mathematical letters fold by NFKC.
_LOOK_ALIKES = str.maketrans(
    "аеорсхуіјѕһԁԛԝҽɡııɑοαеνρικτυχγηАВЕКМНОРСТХІЈЅΑΒΕΖΗΙΚΜΝΟΡΤΥΧաոօսℓ∕‐‑‒–—−_",
    "aeopcxyijshdqwegiiaoaevpiktuxynABEKMHOPCTXIJSABEZHIKMNOPTYXanoul/------_",
)  # fmt: skip


def key_trouble(key: str) -> tuple[str, str] | None:
    """Say what is deceptive about a key: message and remedy, or None.

    Hidden characters anywhere, and letters of another script in a key that reads as plain ASCII.
    A key that is honestly in another script passes.
    """
    if key.isascii() and key.isprintable():
        return None
    if any(is_hidden(character) for character in key):
        bare = visible(retyped(key[:80]))
        if key[0].isspace():
            return (
                f"the line begins with unusual spaces ({code_points(key[:1])}), which indent nothing",
                f'indent it with the space bar; the key is "{bare}"',
            )
        if key[0] == "-" and key[1:2].isspace():
            return (
                f"an unusual space ({code_points(key[1:2])}) follows the dash of a list",
                "type the space again with the space bar",
            )
        return (
            f'the key "{visible(key[:80])}" holds hidden characters',
            f'type it again: "{bare}"',
        )
    folded = unicodedata.normalize("NFKC", key).translate(_LOOK_ALIKES)
    if folded.isascii() and not key.isascii():
        return (
            f'the key "{visible(key[:80])}" holds look-alike letters ({code_points(key[:80])})',
            f'type it again: "{visible(folded[:80])}"',
        )
    return None
