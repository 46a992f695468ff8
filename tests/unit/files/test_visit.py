"""The folder of a visit: gun, strings and work together; each string that proves a check; old files read as they are."""

from __future__ import annotations

from pathlib import Path

import pytest

from stripdown.bench.visit import Visit
from stripdown.core.shot_statistics.conditions import Occasion
from stripdown.errors import InputError
from stripdown.files.gun import check_gun, load_gun
from stripdown.files.visit import load_case, load_job, load_visit
from stripdown.procedures.standing import Standing
from stripdown.studies.service_job import study_job
from stripdown.words.standing import gun_sentence

GUN = '[gun]\nname = "Rack 7"\n[variation]\nlayout = "version 3"\n'
READINGS = "string;speed m/s\nmorning;98.0\nmorning;98.2\nmorning;98.1\n"
VISIT = """
[visit]
title = "Rack 7: dull"
invented = true
found = "Ring flattened."
tools = ["chronograph"]

[limit]
energy = "1.1 J"

[request]
job = "full service"

[[event]]
number = 1
check = "string_hop_off"
kind = "as_found"
value = "0.1 %"
string = "morning"
"""


def _folder(place: Path, **files: str) -> Path:
    folder = place / "my visit"
    folder.mkdir(parents=True)
    for name, text in {"gun_toml": GUN, "before_csv": READINGS, "visit_toml": VISIT, **files}.items():
        if text:
            (folder / name.replace("_", ".")).write_text(text, encoding="utf-8")
    return folder


def test_one_folder_holds_gun_strings_and_work(tmp_path: Path) -> None:
    """Case and job are two looks at one visit, whichever way it is asked for."""
    folder = _folder(tmp_path)
    for visit in (load_visit(folder), load_case(folder), load_job(folder / "visit.toml")):
        assert (visit.title, visit.gun_name, visit.invented, visit.found) == (
            "Rack 7: dull",
            "Rack 7",
            True,
            ("Ring flattened.",),
        )
        assert visit.limit is not None
        assert visit.limit.energy == 1.1
        assert visit.tools == ("chronograph",)
        assert [string.conditions.occasion for string in visit.session.strings] == [Occasion.BEFORE]
        assert visit.variation.choices["layout"] == "version_3"
        assert visit.request.work
        assert len(visit.log) == 1


def test_the_log_names_the_string_that_proves_a_check(tmp_path: Path) -> None:
    """The string is found again, and nothing was disturbed since."""
    visit = load_visit(_folder(tmp_path))
    proof = visit.proof(visit.events[0])
    assert proof is not None
    assert proof.speeds == (98.0, 98.2, 98.1)
    assert visit.known["string_hop_off"].standing is Standing.FRESH
    assert study_job(visit).plan.steps


@pytest.mark.parametrize("name", ["before.csv", "before", "before.csv: morning"])
def test_a_string_may_be_named_by_its_file(tmp_path: Path, name: str) -> None:
    """If it is alone in it, or with what it is called there."""
    visit = load_visit(_folder(tmp_path, visit_toml=VISIT.replace('"morning"', f'"{name}"')))
    proof = visit.proof(visit.events[0])
    assert proof is not None
    assert proof.label == "morning"


@pytest.mark.parametrize(
    ("name", "after", "words", "hint"),
    [
        ("evening", "", "is no string of this visit.", 'Write one of "morning".'),
        ("morning", READINGS, "names 2 strings of this visit.", '"before.csv: morning"; "after.csv: morning"'),
    ],
)
def test_a_string_that_is_not_there_or_twice_there_is_refused(
    tmp_path: Path, name: str, after: str, words: str, hint: str
) -> None:
    """With the line of its event, and what could be meant."""
    folder = _folder(tmp_path, visit_toml=VISIT.replace('"morning"', f'"{name}"'), after_csv=after)
    with pytest.raises(InputError) as caught:
        load_visit(folder)
    assert caught.value.file == str(folder / "visit.toml")
    assert caught.value.line == 14
    assert words in caught.value.message
    assert hint in (caught.value.hint or "")


def test_a_string_proves_a_check_and_no_work(tmp_path: Path) -> None:
    """Beside an action it means nothing."""
    text = VISIT.replace('check = "string_hop_off"\nkind = "as_found"\nvalue = "0.1 %"', 'action = "open_up"\npart = "piston"')
    with pytest.raises(InputError, match='string "morning" means nothing without a check'):
        load_visit(_folder(tmp_path, visit_toml=text))


def test_two_variations_must_agree(tmp_path: Path) -> None:
    """In other words they may; if they do not, both places are named."""
    agreed = load_visit(_folder(tmp_path, visit_toml=VISIT + '[variation]\nlayout = "version_3"\n'))
    assert agreed.variation.choices["layout"] == "version_3"
    file = tmp_path / "my visit" / "visit.toml"
    file.write_text(VISIT + '[variation]\nlayout = "version 2"\n', encoding="utf-8")
    with pytest.raises(InputError, match=r'"version 2" is not what .* says: "version 3" \(gun\.toml, line 4\)') as caught:
        load_visit(file)
    assert caught.value.line == VISIT.count("\n") + 2


def test_the_record_keeps_both_guns(tmp_path: Path) -> None:
    """The visit says what the gun was on arrival, its file what the log has made of it; plan and standing are of the new one."""
    gun = GUN + 'guide = "quick-change"\n'
    asked = '[variation]\nguide = "fixed"\n[request]\nwork = ["fit_quick_change_guide"]'
    said = VISIT.replace('[request]\njob = "full service"', asked)
    opened = '\n[[event]]\nnumber = {}\naction = "open_up"\npart = "{}"\n'
    moves = opened.format(2, "guide_bearing") + opened.format(3, "main_spring")
    fitted = '[[event]]\nnumber = 4\naction = "fit_quick_change_guide"\n'
    before = load_visit(_folder(tmp_path / "1", gun_toml=gun, visit_toml=said + moves))
    assert "first_cycles" not in before.known
    assert study_job(before).plan.becomes == {"guide": "quick_change_guide"}
    after = load_visit(_folder(tmp_path / "2", gun_toml=gun, visit_toml=said + moves + fitted))
    study = study_job(after)
    assert (after.variation.choices["guide"], after.procedure.choices["guide"].key) == ("fixed_guide", "quick_change_guide")
    assert after.known["first_cycles"].is_owed
    assert after.remaining.work == ()
    assert study.plan.becomes == {}
    assert {"make:first_cycles", "put_back:main_spring"} <= {step.step.name for step in study.plan.steps}
    assert "Since event 4: quick-change spring guide in place of fixed spring guide." in gun_sentence(study).full
    with pytest.raises(InputError, match="belongs to another variation"):
        load_visit(_folder(tmp_path / "3", gun_toml=gun, visit_toml=said.replace('guide = "fixed"\n', "") + moves + fitted))


def test_a_visit_names_the_body_around_the_box(tmp_path: Path) -> None:
    """With its ready steps, which are told; a body that nobody knows is told with its line."""
    told = load_visit(_folder(tmp_path, visit_toml=VISIT.replace("invented = true", 'body = "two receivers joined by pins"')))
    assert "stock_tube" in told.procedure.parts
    assert "Steps for the body were added: two receivers joined by pins." in told.notes
    with pytest.raises(InputError, match='no body with ready steps is called "three receivers"') as caught:
        load_visit(_folder(tmp_path / "2", visit_toml=VISIT.replace("invented = true", 'body = "three receivers"')))
    assert caught.value.line == 4


def test_an_old_job_beside_a_gun_must_agree_with_it_too(tmp_path: Path) -> None:
    """The gun's file says what sort it is; the job that is named alone may leave it out."""
    folder = _folder(tmp_path, visit_toml="", job_toml='[job]\ntitle = "x"\n')
    assert load_job(folder / "job.toml").variation.choices["layout"] == "version_3"
    (folder / "job.toml").write_text('[variation]\nlayout = "version 2"\n', encoding="utf-8")
    with pytest.raises(InputError, match=r"gun\.toml, line 4"):
        load_job(folder / "job.toml")


def test_a_misspelt_choice_in_a_guns_file_is_told_with_its_line(tmp_path: Path) -> None:
    """Before a plan is made by it."""
    file = tmp_path / "gun.toml"
    file.write_text(GUN.replace("version 3", "version 33"), encoding="utf-8")
    [wrong] = check_gun(file).wrong
    assert wrong.line == 4
    file.write_text(GUN, encoding="utf-8")
    assert load_gun(file).variation == {"layout": "version 3"}


def test_an_old_case_and_an_old_job_in_one_folder_are_one_visit(tmp_path: Path) -> None:
    """Each is read as it is."""
    case, job = VISIT.split("[request]")
    case = case.replace("[visit]", "[case]").replace('tools = ["chronograph"]\n', "")
    folder = _folder(tmp_path, visit_toml="", case_toml=case, job_toml=f'[job]\ntools = ["chronograph"]\n[request]{job}')
    old, new = load_visit(folder), load_visit(_folder(tmp_path / "new"))
    same = ("title", "invented", "found", "limit", "tools", "variation", "request", "events", "session")
    assert {name: getattr(old, name) for name in same} == {name: getattr(new, name) for name in same}


def test_new_and_old_files_do_not_stand_side_by_side(tmp_path: Path) -> None:
    """Nobody could say which counts."""
    with pytest.raises(InputError, match=r"has a visit\.toml and a job\.toml too"):
        load_visit(_folder(tmp_path, job_toml="[job]\n"))


@pytest.mark.parametrize(
    ("text", "line", "words", "hint"),
    [
        ("[vist]\n", 1, "vist is no table of a visit file.", "Did you mean visit?"),
        ("[visit]\ntitel = 'x'\n", 2, "[visit] has no field titel.", "Did you mean title?"),
        ("[request]\njobs = 'x'\n", 2, "request.jobs is no field.", "Did you mean job?"),
        ("[visit]\nshims = 'nowhere.toml'\n", 2, 'names "nowhere.toml"', "TOML files in that folder"),
    ],
)
def test_a_mistake_in_a_visit_is_told_with_its_line(tmp_path: Path, text: str, line: int, words: str, hint: str) -> None:
    """Whichever of its tables it is in."""
    with pytest.raises(InputError) as caught:
        load_visit(_folder(tmp_path, visit_toml=text))
    assert (caught.value.line, words in caught.value.message, hint in (caught.value.hint or "")) == (line, True, True)


def test_a_visit_may_be_assembled_without_any_file(tmp_path: Path) -> None:
    """A record does: the same nouns, and the same rules."""
    read = load_visit(_folder(tmp_path))
    assembled = Visit(
        title="from a record",
        inspection=read.inspection,
        variation=read.variation,
        session=read.session,
        events=read.events,
    )
    assembled.check_log()
    assert assembled.known == read.known
