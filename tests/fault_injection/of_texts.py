"""Faults of the text itself: what a hand slips into when it types."""

from __future__ import annotations

from tests.fault_injection.fault import Kind, Rewritten

PLAIN = "lab dye flame flavonoid waxes sulfonamides"


def text(kind: str, old: str, *new: str):  # type: ignore[no-untyped-def]
    """Rewrite a piece of a text in one of some ways."""
    return lambda chance: [(kind, Rewritten(old, chance.choice(new)))]


TEXTS: tuple[Kind, ...] = (
    Kind(
        "document.unit-missing-or-wrong-kind",
        "lab flavonoid waxes sulfonamides",
        text(
            "method",
            "oven_temperature: 40 degC",
            "oven_temperature: 40",
            "oven_temperature: 40 bar",
            "oven_temperature: 40 mL/min",
        ),
        times=2,
    ),
    Kind(
        "document.unit-missing-or-wrong-kind",
        "lab waxes flavonoid",
        text(
            "method",
            "outlet_pressure: 150 bar",
            "outlet_pressure: 150",
            "outlet_pressure: 150 degC",
        ),
    ),
    Kind(
        "document.pressure-ambiguous",
        "lab waxes flavonoid",
        text(
            "method",
            "outlet_pressure: 150 bar",
            "outlet_pressure: 2200 bar",
            "outlet_pressure: 15 bar",
        ),
    ),
    Kind(
        "document.percent-basis-missing",
        "triazole flame",
        lambda c: [
            (
                "method.mobile_phase.modifier.additives",
                [{"additive": "formic acid", "level": f"0.{c.randint(1, 9)} %"}],
            )
        ],
    ),
    Kind(
        "document.range-or-about",
        "lab flavonoid waxes sulfonamides",
        text(
            "method",
            "oven_temperature: 40 degC",
            "oven_temperature: 35-40 degC",
            "oven_temperature: about 40 degC",
            "oven_temperature: RT",
            "oven_temperature: ambient",
        ),
        times=2,
    ),
    Kind(
        "document.value-implausible",
        "lab dye triazole",
        text("method", "wavelength: 2", "wavelength: 29"),
    ),
    Kind("document.reference-unresolved", PLAIN, text("method", "column: ", "column: un")),
    Kind(
        "document.unknown-key",
        PLAIN,
        text("method", "outlet_pressure:", "backpresure:", "outlet_presure:", "bpr:"),
    ),
    Kind(
        "document.duplicate-key-or-id",
        PLAIN,
        text("method", "run_length:", "flow: 1 mL/min\nrun_length:"),
    ),
    Kind(
        "document.type-trap",
        PLAIN,
        text(
            "method",
            "run_length: ",
            "run_length: 1:30 # ",
            "run_length: 1,5 min # ",
            "run_length: 1_2 min # ",
        ),
    ),
    Kind(
        "document.type-trap",
        "lab batch",
        text("sequence", "well: A1,", "well: 1E2,", "well: 2e1,"),
        times=3,
    ),
    Kind(
        "document.contradiction",
        "lab flavonoid waxes",
        text("method", "title: ", "title: At 55 C, ", "title: At 60 degC, "),
    ),
    Kind(
        "document.placeholder-left",
        PLAIN,
        text("method", "title: ", "title: Copy of ", "title: TBD # ", "title: ??? # "),
    ),
    Kind(
        "document.deviation-unjustified",
        PLAIN,
        text(
            "method",
            "kind: method\n",
            "kind: method\ndeviations: [{rule: phase.two-phase-at-outlet}]\n",
            "kind: method\ndeviations: [{rule: no.such-rule, reason: seen}]\n",
        ),
    ),
    Kind(
        "document.word-not-known",
        "lab dye flame flavonoid",
        text(
            "method",
            "stream: mixed",
            "stream: mixt",
            "stream: both",
        ),
    ),
    Kind("document.shape-wrong", "lab dye flavonoid", text("method", "{time: 0 min, ", "{")),
    Kind(
        "document.unreadable",
        PLAIN,
        text("method", "run_length: ", "run_length: [", 'run_length: "'),
    ),
    Kind(
        "document.hidden-character",
        PLAIN,
        text("method", "title: ", "title: \u200b", "title: \u202e"),
    ),
)
