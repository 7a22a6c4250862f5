"""Rule folders that lab.yaml names lie in the lab's folder and can be loaded.

Reason
    A lab's own rules are part of what it trusts. A folder that is misspelt, a rule that does not
    load or one under a name that is taken already would be missing without a word. Rule files are
    code: they are run only when the command line allows their folder, too, and until then what
    they would say is not checked.

Unsound
    kind: lab
    rule_folders: [../rules-of-others]  # <- here

Sound
    kind: lab
    name: Separations laboratory

Remedy
    Put the rules in a folder beside lab.yaml, as family/what_is_wrong.py; run
    methodlint try-rules FOLDER to see what is wrong with them; allow them with
    --allow-rules FOLDER.

Source
    Common practice, no source.
"""

from collections.abc import Iterator

from methodlint.judging.ask.rule import DocumentCase, Finding, NotChecked, visible

SUBJECT = "document"
CLASSES = ("fault",)
NEEDS = ()


def judge(case: DocumentCase) -> Iterator[Finding | NotChecked]:
    """Say what became of each folder that the lab's document names."""
    for folder in case.rule_folders if case.document.kind == "lab" else ():
        at = case.at(case.document, ("rule_folders", folder.number))
        for message, remedy in folder.problems:
            yield case.finding(at, "fault", message, remedy=remedy)
        if not folder.allowed:
            name = visible(folder.name)
            yield case.not_checked(
                at,
                f"--allow-rules {name}",
                f"the lab's own rules in '{name}' are not applied: rule files are code and run "
                "only when the command line allows them",
            )
