"""The terminal lays out what an answer says, and adds nothing but the command of the next act."""

from __future__ import annotations

import io

from rich.console import Console

from stripdown.cli.rendered import print_answer
from stripdown.words.answer import Answer, Cell, Column, Figure, Named, Sentence, Step, Table


def _printed(answer: Answer, *, in_full: tuple[str, ...] = ()) -> str:
    console = Console(file=io.StringIO(), width=60, highlight=False, markup=False)
    print_answer(console, answer, in_full=in_full)
    assert isinstance(console.file, io.StringIO)
    return console.file.getvalue()


def test_everything_that_is_said_is_printed_in_its_order() -> None:
    """Title, lead, names, figures, tables, notes, parts, cautions, what it rests on."""
    answer = Answer(
        key="a",
        title="Title",
        lead=(Sentence(full="Lead."),),
        named=(Named(name="limit", text="1 J"),),
        figures=(Figure(key="f", label="force", text="3 N"),),
        tables=(Table(key="t", columns=(Column(head="head"),), rows=((Cell(text="cell", small="small"),),)),),
        notes=(Sentence(full="Note."),),
        parts=(Answer(key="b", title="Part"),),
        cautions=(Sentence(full="Heed."),),
        rests_on=(Named(name="Source", text="none"),),
    )
    said = _printed(answer)
    order = ["Title", "Lead.", "limit: 1 J", "force  3 N", "head", "cell", "small", "- Note.", "Part", "Cautions", "- Heed."]
    places = [said.index(words) for words in [*order, "Source: none"]]
    assert places == sorted(places)


def test_a_long_note_is_short_until_it_is_asked_for() -> None:
    """The short form names the command that shows the whole."""
    note = Sentence(key="assumed", full="Assumed: a, b.", short="Assumed: 2.", act="list_assumed")
    answer = Answer(key="a", title="", notes=(note,))
    assert _printed(answer) == "\n- Assumed: 2. (--assumed lists them.)\n"
    assert _printed(answer, in_full=("assumed",)) == "\n- Assumed: a, b.\n"


def test_a_caution_stands_in_full_once() -> None:
    """Afterwards by its short form."""
    caution = Sentence(full="Eye protection, for everybody near.", short="Eye protection.")
    part = Answer(key="b", title="Part", cautions=(caution,))
    said = _printed(Answer(key="a", title="", parts=(part, part)))
    assert said.count("- Eye protection, for everybody near.") == 1
    assert said.count("- Eye protection.") == 1


def test_a_column_that_says_nothing_is_left_out_and_a_long_key_is_whole() -> None:
    """A key is there to be typed: it goes on in the next line rather than being cut."""
    columns = (Column(head="Key"), Column(head="Also called"), Column(head="Name"))
    rows = ((Cell(text="k" * 50), Cell(), Cell(text="a name of several words")),)
    said = _printed(Answer(key="a", title="", tables=(Table(key="t", columns=columns, rows=rows),)))
    assert "Also called" not in said
    assert (said.count("k"), "…" in said) == (50, False)


def test_a_share_is_drawn_as_a_bar() -> None:
    """In eighths of a character of twenty-six: a half is thirteen whole ones; less than nothing draws nothing."""
    rows = tuple((Cell(text=f"{share}"), Cell(share=share)) for share in (0.5, 1 / 26 + 1 / 208, -0.1))
    lines = _printed(Answer(key="a", title="", tables=(Table(key="t", columns=(Column(head=""),) * 2, rows=rows),))).splitlines()
    assert [line.split()[1:] for line in lines if line.strip()] == [["█" * 13], ["█▏"], []]


def test_heads_of_figures_are_folded_and_end_at_the_same_line() -> None:
    """A long name above a narrow column."""
    columns = (Column(head="what"), Column(head="The one that came back", is_figure=True))
    said = _printed(
        Answer(key="a", title="", tables=(Table(key="t", columns=columns, rows=((Cell(text="m"), Cell(text="1")),)),))
    )
    assert [line.split() for line in said.splitlines()[1:]] == [["The", "one", "that"], ["what", "came", "back"], ["m", "1"]]


def test_typed_text_cannot_steer_the_terminal() -> None:
    """A control character in a name or a cell is shown as a mark."""
    hostile = "a\x1b[31mb"
    table = Table(key="t", columns=(Column(head="x"),), rows=((Cell(text=hostile),),))
    answer = Answer(key="a", title=hostile, lead=(Sentence(full=hostile),), tables=(table,), notes=(Sentence(full=hostile),))
    assert "\x1b" not in _printed(answer)


def test_steps_stand_by_place_with_box_purpose_and_cautions() -> None:
    """A caution in full at its first step, in short at the next; how only if it is asked for; the calculator as its command."""
    caution = Sentence(full="Eye protection: the spring flies.", short="Eye protection")
    one = Step(
        number=1, key="make:a", kind="make", name="Prove a", place="Mat", purpose="asked for", how="Look.", cautions=(caution,)
    )
    two = Step(number=2, key="do:b", kind="do", name="Do b", place="Mat", cautions=(caution,), calculator="ring")
    answer = Answer(key="a", title="", steps=(one, two))
    lines = [line.strip() for line in _printed(answer).splitlines()]
    assert lines == [
        "Mat",
        "[ ]   1 Prove a (asked for) [make:a]",
        "! Eye protection: the spring flies.",
        "[ ]   2 Do b [do:b]",
        "! Eye protection",
        "Calculate: stripdown seal ring",
    ]
    assert "Look." in _printed(answer, in_full=("how",))


def test_what_is_filled_in_by_hand_is_left_to_paper() -> None:
    """A column of boxes is not printed, nor a table that is nothing else; without heads there is no line for them."""
    tick = Column(head="fresh", by_hand="tick")
    rows = ((Cell(text="seal"), Cell(text="")),)
    assert (
        _printed(Answer(key="a", title="T", tables=(Table(key="t", columns=(Column(head=""), tick), rows=rows),))) == "T\nseal\n"
    )
    assert _printed(Answer(key="a", title="T", tables=(Table(key="t", columns=(tick,), rows=((Cell(text=""),),)),))) == "T\n"
