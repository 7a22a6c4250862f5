"""Findings without what they were computed from: small enough to keep and to send.

A finding points into its document. Of a judged document only the nodes stay that a place or a
fingerprint of its findings is made of; shared cards stay whole, since findings of several batches
may point into them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from methodlint.checking.report import PlainBatch, PlainRun
from methodlint.documents.kinds.base import Document
from methodlint.documents.loading import Loaded
from methodlint.documents.text.nodes import Mapping as MappingNode
from methodlint.documents.text.nodes import Node, Scalar, SequenceNode, child
from methodlint.documents.text.places import Path
from methodlint.judging.case import BatchCase, RunCase
from methodlint.judging.finding import At, Finding, NotChecked
from methodlint.judging.judged import SetAside

_NO_VALUES = Document.model_construct()


@dataclass
class Shelf:
    """Exchanges the documents that findings point into.

    Attributes
    ----------
    exchanged
        Gives the document to point into instead of another one.
    """

    exchanged: Callable[[Loaded], Loaded]

    def at(self, at: At) -> At:
        """Point into the other document."""
        return replace(at, document=self.exchanged(at.document))

    def finding(self, finding: Finding) -> Finding:
        """The finding with all its places in other documents."""
        return replace(
            finding,
            at=self.at(finding.at),
            candidates=(),
            solutions=(),
            also=tuple(self.at(at) for at in finding.also),
            because=tuple(self.finding(child) for child in finding.because),
            moved=finding.moved and replace(finding.moved, at=self.at(finding.moved.at)),
        )

    def not_checked(self, item: NotChecked) -> NotChecked:
        """The same in other documents."""
        return replace(item, at=self.at(item.at))

    def set_aside(self, item: SetAside) -> SetAside:
        """The same in other documents."""
        return replace(
            item, finding=self.finding(item.finding), document=self.exchanged(item.document)
        )


class Pruner:
    """Makes plain documents, one for each text: values may differ, places do not.

    Parameters
    ----------
    wanted
        Paths that findings point to, for each document that loses its other nodes.
    """

    def __init__(self, wanted: Mapping[TextKey, Iterable[Path]]) -> None:
        self._wanted = wanted
        self._made: dict[TextKey, Loaded] = {}

    def __call__(self, document: Loaded) -> Loaded:
        """The plain document of one."""
        key = text_key(document)
        if key not in self._made:
            self._made[key] = plain_document(document, self._wanted.get(key))
        return self._made[key]


TextKey = tuple[str, int]


def text_key(document: Loaded) -> TextKey:
    """What documents with the same places share: a sequence whose lines are laid out has others."""
    return document.path, id(document.read.root)


def plain_document(document: Loaded, paths: Iterable[Path] | None) -> Loaded:
    """Take a document's values away, and all of its nodes but those at some paths.

    Parameters
    ----------
    paths
        Paths whose places will be asked for; None keeps every node.
    """
    read = document.read
    if paths is not None and read.root is not None:
        read = replace(read, root=_pruned(read.root, set(paths)))
    return replace(
        document,
        model=_NO_VALUES,
        data={},
        read=replace(read, broken={}),
        tables=tuple(replace(table, data=b"") for table in document.tables),
    )


def _pruned(node: Node, paths: set[Path], *, item: bool = False) -> Node:
    if isinstance(node, Scalar) or (item and () in paths):
        return node
    below: dict[str | int, set[Path]] = {}
    for path in paths:
        if path:
            below.setdefault(path[0], set()).add(path[1:])
    if isinstance(node, SequenceNode):
        # Items keep their numbers: those before them stay as empty places.
        last = max((step for step in below if isinstance(step, int)), default=-1)
        empty = SequenceNode([], node.place)
        items: list[Node] = [empty] * min(last + 1, len(node.items))
        for step, rest in below.items():
            found = child(node, step)
            if found is not None and isinstance(step, int):
                items[step] = _pruned(found, rest, item=True)
        return SequenceNode(items, node.place)
    entries: dict[str, Node] = {}
    for key, value in node.entries.items():
        if key in below:
            entries[key] = _pruned(value, below[key])
        elif item and isinstance(value, Scalar):
            # List items are named by their scalars.
            entries[key] = value
    places = {key: place for key, place in node.key_places.items() if key in below}
    return MappingNode(entries, places, node.place)


def places_of(findings: Iterable[Finding]) -> Iterator[At]:
    """Yield every place that findings point to."""
    for finding in findings:
        yield from (finding.at, *finding.also)
        yield from places_of(finding.because)


def plain_run(run: RunCase) -> PlainRun:
    """Say of a run what reports say of it."""
    from methodlint.reports.card.pressures import run_summary
    from methodlint.reports.consequences import run_data
    from methodlint.reports.overview import run_row

    instrument = run.documents.get("instrument")
    done = run.rehearsal is not None and run.run.done
    return PlainRun(
        key=(run.documents["method"].path, instrument.path if instrument else ""),
        name=run.name,
        instrument=instrument.name if instrument else "",
        with_bench="sequence" in run.documents,
        summary=run_summary(run) if done else "",
        data=run_data(run),
        row=run_row(run),
    )


def plain_batch(batch: BatchCase) -> PlainBatch:
    """Say of a sequence what reports say of it."""
    from methodlint.reports.card.contents import card_blocks
    from methodlint.reports.card.stamp import documents_hash
    from methodlint.reports.consequences import batch_data
    from methodlint.reports.overview import batch_row

    data, card = batch_data(batch), tuple(card_blocks(batch))
    return PlainBatch(batch.name, data, card, documents_hash(batch), batch_row(batch))
