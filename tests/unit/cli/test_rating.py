"""`stripdown rating`: what it prints, what it gives to programs, how it refuses."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from stripdown.cli.main import main


def _flat(text: str) -> str:
    return " ".join(text.split())


def test_a_pair_is_printed_with_reason_standing_source_and_cautions(runner: CliRunner) -> None:
    """Everything that somebody needs who is about to reach for the bottle."""
    result = runner.invoke(main, ["rating", "PC", "ipa"])
    assert result.exit_code == 0
    said = _flat(result.stdout)
    for words in (
        "isopropyl alcohol on polycarbonate (PC): AVOID",
        "crack polycarbonate under stress",
        "taken as stressed",
        "Footing: published",
        "Source: a supplier of mould parts",
        "Also said, and less strict",
        "no flame or spark",
    ):
        assert words in said


def test_free_soaked_and_made_of_are_passed_on(runner: CliRunner) -> None:
    """Each changes the answer."""

    def verdict(*words: str) -> str:
        return str(json.loads(runner.invoke(main, ["rating", *words, "--json"]).stdout)["verdict"])

    assert verdict("PC", "IPA") == "avoid"
    assert verdict("PC", "IPA", "--free") == "with_care"
    assert verdict("PC", "IPA", "--free", "--soaked") == "avoid"
    assert verdict("nozzle", "IPA") == "avoid"
    assert verdict("nozzle", "IPA", "--made-of", "pom") == "suitable"


def test_a_pair_is_data(runner: CliRunner) -> None:
    """Verdict, standing and source by key, and all that was said."""
    answer = json.loads(runner.invoke(main, ["rating", "nitrile", "acetone", "--json"]).stdout)
    assert (answer["verdict"], answer["footing"], answer["source_key"]) == ("avoid", "published", "moulder_rubber_table")
    assert {ground["provenance"]["source"] for ground in answer["grounds"]} == {"moulder_rubber_table", "gasket_maker_acetone"}


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("EPDM", ["ethylene-propylene rubber (EPDM)", "Avoid", "Suitable", "silicone oil"]),
        ("silicone oil", ["Avoid (materials)", "silicone rubber (VMQ)", "Avoid (parts)", "hop-up rubber", "no ISO VG grade"]),
        ("nozzle", ["Met in polycarbonate", "keep it off", "taken as stressed"]),
    ],
)
def test_one_name_lists_everything(runner: CliRunner, name: str, words: list[str]) -> None:
    """By verdict, the worst first."""
    result = runner.invoke(main, ["rating", name])
    assert result.exit_code == 0
    said = _flat(result.stdout)
    assert [word for word in words if word not in said] == []
    assert said.index("Avoid") < said.index("Suitable")
    assert json.loads(runner.invoke(main, ["rating", name, "--json"]).stdout)["name"]


@pytest.mark.parametrize(
    ("arguments", "complaint"),
    [
        (["nitril", "IPA"], 'Nearest known: "nitrile"'),
        (["IPA", "NBR"], "is a fluid"),
        (["", "IPA"], "is empty"),
        (["silicone"], "may be a material and a fluid"),
        (["NBR", "IPA", "--made-of", "PC"], "a material already"),
        ([], "Missing argument"),
    ],
)
def test_a_mistake_ends_with_two_and_one_message(runner: CliRunner, arguments: list[str], complaint: str) -> None:
    """On standard error, with nothing on standard output."""
    result = runner.invoke(main, ["rating", *arguments])
    assert result.exit_code == 2
    assert complaint in result.stderr
    assert "Traceback" not in result.stderr
    assert result.stdout == ""
