from __future__ import annotations

from pathlib import Path

import pytest

from stripdown.catalogue.limits import load_limits
from stripdown.core.shot_statistics.conditions import FireMode, HopState, Occasion
from stripdown.core.shot_statistics.limits import LimitScope
from stripdown.errors import InputError
from stripdown.files.visit import load_case

DEMO = Path(__file__).parents[3] / "examples" / "brackenmoor-07"
GUN = '[gun]\nname = "Rack 7"\n[ball]\ndiameter = "5.93 mm"\n'
STRING = "98.1\n98.4\n97.9\n"


def _folder(place: Path, **files: str) -> Path:
    """A folder with the files given, by their names with a dot for each underscore."""
    folder = place / "my case"
    folder.mkdir()
    for name, text in files.items():
        (folder / name.replace("_", ".")).write_text(text, encoding="utf-8")
    return folder


def test_the_demo_case_says_everything() -> None:
    """Gun, two files of readings, limit, balls, chronograph, findings, and a shot set aside; nothing has to be assumed."""
    case = load_case(DEMO)
    assert case.invented
    assert case.gun is not None
    assert case.gun.invented
    assert case.limit is not None
    assert case.limit.energy == 1.1
    assert case.limit.measuring_distance == 0.3
    assert case.can_fire_automatic is True
    assert case.ball_masses is not None
    assert case.ball_masses[0] == pytest.approx(0.2e-3)
    assert len(case.found) == 3
    assert len(case.done) == 2
    assert case.notes == ()
    session = case.session
    assert session.chronograph.relative_uncertainty == pytest.approx(0.004)
    assert session.setup_uncertainty == 0.2
    assert session.ball_mass_uncertainty == pytest.approx(0.5e-6)
    before, after = ([one for one in session.strings if one.file == file] for file in ("before.csv", "after.csv"))
    assert {string.conditions.occasion for string in before} == {Occasion.BEFORE}
    assert {string.conditions.fire_mode for string in after} == {FireMode.SEMI, FireMode.AUTOMATIC}
    assert before[0].set_aside == {2: "two balls left at once"}
    assert after[0].set_aside == {}


def test_a_gun_and_readings_are_a_case(tmp_path: Path) -> None:
    """Without case.toml the files are found by name, the occasion too, and each assumption is said."""
    case = load_case(_folder(tmp_path, rack_toml=GUN, before_csv=STRING, after_csv=STRING, notes_txt="battery flat"))
    assert case.title == "Rack 7"
    assert [string.conditions.occasion for string in case.session.strings] == [Occasion.BEFORE, Occasion.AFTER]
    assert case.limit is None
    said = " ".join(case.notes)
    for words in ("taken: rack.toml", "taken: before.csv and after.csv", "before.csv: taken for readings before the work"):
        assert words in said


def test_an_empty_case_file_is_none(tmp_path: Path) -> None:
    """Nothing is written, so the files are found by name."""
    case = load_case(_folder(tmp_path, gun_toml=GUN, case_toml="\n  \n"))
    assert any("taken: gun.toml" in note for note in case.notes)


def test_what_a_file_says_of_itself_stands_above_its_name(tmp_path: Path) -> None:
    """A file called after.csv may hold strings from before."""
    case = load_case(_folder(tmp_path, gun_toml=GUN, after_csv=f"before\n{STRING}"))
    [string] = case.session.strings
    assert string.conditions.occasion is Occasion.BEFORE


def test_a_gun_alone_is_a_case_too(tmp_path: Path) -> None:
    """Nothing can be said of it, and that is said."""
    case = load_case(_folder(tmp_path, gun_toml=GUN))
    assert case.session.strings == ()
    assert "There is no file of readings." in case.notes


def test_what_the_case_says_of_all_strings_fills_their_gaps(tmp_path: Path) -> None:
    """Ball, distance, hop-up, selector, unit and temperature hold where a string does not say."""
    case_toml = """
[strings]
ball_mass = "0.25 g"
distance = "1 ft"
hop = "off"
fire_mode = "semi"
unit = "ft/s"
[day]
temperature = "12 degC"
"""
    folder = _folder(tmp_path, gun_toml=GUN, case_toml=case_toml, readings_csv="ball;speed\n;300\n0.20 g;330\n")
    case = load_case(folder)
    first, second = case.session.strings
    assert first.conditions.ball_mass == pytest.approx(0.25e-3)
    assert second.conditions.ball_mass == pytest.approx(0.20e-3)
    assert first.conditions.distance == pytest.approx(0.3048)
    assert first.conditions.hop is HopState.OFF
    assert first.conditions.fire_mode is FireMode.SEMI
    assert first.conditions.temperature == pytest.approx(285.15)
    assert first.speeds[0] == pytest.approx(91.44)
    assert case.day is not None
    assert case.day.temperature == pytest.approx(285.15)


def test_the_air_and_the_ball_of_the_day_decide_the_way_to_the_chronograph(tmp_path: Path) -> None:
    """Cold air is denser; the diameter is that of the gun's file."""
    warm = load_case(_folder(tmp_path, gun_toml=GUN)).session.flight
    cold = load_case(_cold(tmp_path)).session.flight
    assert warm.ball_diameter == cold.ball_diameter == pytest.approx(0.00593)
    # The ideal gas: density goes with the inverse of the temperature.
    assert cold.air_density / warm.air_density == pytest.approx(293.15 / 273.15, rel=0.01)


def _cold(place: Path) -> Path:
    folder = place / "cold"
    folder.mkdir()
    (folder / "gun.toml").write_text(GUN, encoding="utf-8")
    (folder / "case.toml").write_text('[day]\ntemperature = "0 degC"\n', encoding="utf-8")
    return folder


def test_a_limit_may_be_one_of_the_catalogue(tmp_path: Path) -> None:
    """By its key; its source comes along."""
    case = load_case(_folder(tmp_path, gun_toml=GUN, case_toml='[limit]\nkey = "italy"\n'))
    assert case.limit == load_limits()["italy"].limit
    assert case.limit_source == load_limits()["italy"].provenance.source


def test_a_limit_may_be_the_sites_own_rule(tmp_path: Path) -> None:
    """A speed with its ball means an energy; place, scope and date are kept."""
    rule = (
        '[limit]\nspeed = "350 ft/s"\nball_mass = "0.20 g"\nscope = "semi_fire"\nplace = "Our wood"\ndate = "2026"\n'
        'measured_at = "1 m"\n'
    )
    limit = load_case(_folder(tmp_path, gun_toml=GUN, case_toml=rule)).limit
    assert limit is not None
    assert limit.energy == pytest.approx(0.5 * 0.2e-3 * (350 * 0.3048) ** 2)
    assert limit.scope is LimitScope.SEMI_FIRE
    assert (limit.place, limit.date, limit.measuring_distance) == ("Our wood", "2026", 1.0)


def test_paragraphs_may_be_one_text_or_a_list(tmp_path: Path) -> None:
    """Blank lines part paragraphs, a line break inside one does not."""
    text = '[case]\nfound = """\nDry ring,\nflat.\n\nLips worn.\n"""\ndone = ["New ring."]\n'
    case = load_case(_folder(tmp_path, gun_toml=GUN, case_toml=text))
    assert case.found == ("Dry ring, flat.", "Lips worn.")
    assert case.done == ("New ring.",)


def test_hostile_text_stays_text(tmp_path: Path) -> None:
    """Markup of terminals, pages and documents is kept as it was typed."""
    hostile = "#import [b]<script>{{x}} $(rm) %s \\u202e *_`"
    case = load_case(_folder(tmp_path, gun_toml=GUN, case_toml=f"[case]\ntitle = '{hostile}'\nfound = ['{hostile}']\n"))
    assert case.title == hostile
    assert case.found == (hostile,)


def test_the_digest_covers_every_file_and_no_folder(tmp_path: Path) -> None:
    """The same files elsewhere have the same digest; any change changes it."""
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    here = load_case(_folder(tmp_path / "a", gun_toml=GUN, after_csv=STRING)).digest
    there = _folder(tmp_path / "b", gun_toml=GUN, after_csv=STRING)
    assert load_case(there).digest == here
    (there / "after.csv").write_text(f"{STRING}98.0\n", encoding="utf-8")
    assert load_case(there).digest != here


@pytest.mark.parametrize(
    ("text", "line", "words", "hint"),
    [
        ("[cas]\n", 1, "[cas] is no table of a case's file.", "Did you mean case?"),
        ("title = 'x'\n", 1, "title stands above all tables.", "Move it under [case]."),
        ("case = 7\n", 1, "case is a table, not a value.", "Write [case]"),
        ("[case]\nfond = 'x'\n", 2, "[case] has no field fond.", "Did you mean found?"),
        ("[case]\ntitle = 7\n", 2, "case.title = 7 is not a text.", "Write words in quotes."),
        ("[case]\nfound = ['x', 7]\n", 2, "case.found = 7 is not a text.", "Write words in quotes."),
        ('[case]\nfound = "\\u001b[31m"\n', 2, "case.found holds a control character (U+001B).", "Write plain text."),
        ("[case]\ninvented = 'yes'\n", 2, 'case.invented = "yes" is neither yes nor no.', "Write true or false"),
        (
            "[case]\n\ngun = 'gum.toml'\n",
            3,
            '"gum.toml": there is no such file',
            "Did you mean gun.toml?",
        ),
        (
            "[case]\nreadings = ['x.csv', 'y.csv']\n",
            2,
            '"x.csv": there is no such file',
            "after.csv",
        ),
        ("[case]\nreadings = ['after.csv', 'after.csv']\n", 2, '"after.csv" is named twice.', ""),
        ("[limit]\nkey = 'itlay'\n", 2, 'limit.key = "itlay" is not in the catalogue.', "Did you mean italy?"),
        (
            "[limit]\nkey = 'italy'\nenergy = '1 J'\n",
            3,
            "stands alone, but energy is there too.",
            "Keep",
        ),
        ("[limit]\nspeed = '350 ft/s'\n", 1, "A limit of 350 ft/s means nothing without its ball.", "0.20 g"),
        ("[limit]\nplace = 'here'\n", 1, "A site's rule is one energy or one speed.", "1.14 J"),
        ("[limit]\n\nenergy = '1.14'\n", 3, "1.14", "J"),
        ("[limit]\nenergy = '1 J'\nscope = 'all'\n", 3, 'limit.scope = "all" is not known.', "every_shot"),
        ("[balls]\nmay_bring = ['0.20 g', '2 g']\n", 2, "is impossible", "It must lie between"),
        ("[balls]\nmay_bring = ['0.20']\n", 2, "has no unit", ""),
        ("[chronograph]\nrelative_uncertainty = '60 %'\n", 2, "is impossible", "It must lie between 0 and 50 %"),
        ("[strings]\nunit = 'knots'\n", 2, 'strings.unit = "knots" is no unit of speed.', "m/s"),
        ("[strings]\nhop = 'half'\n", 2, 'strings.hop = "half" is not known.', '"off", "set"'),
        ("[day]\ntemperature = '12'\n", 2, "has no unit", ""),
        ("set_aside = 7\n", 1, "set_aside is a list of tables.", "two brackets"),
        ("[[set_aside]]\nline = 2\n", 1, "[[set_aside]] has no reason.", "Add it."),
        ("[[set_aside]]\nline = 0\nreason = 'x'\n", 2, "set_aside.line = 0 is no line number.", "from 1"),
        ("[[set_aside]]\nline = 9\nreason = 'x'\n", 2, "holds no reading that counts.", "lines 1 to 3"),
        ("[[set_aside]]\nfile = 'aft.csv'\nline = 2\nreason = 'x'\n", 3, "is no file of this visit's readings.", "after.csv"),
    ],
)
def test_a_mistake_is_told_with_its_line_and_what_would_be_right(
    tmp_path: Path, text: str, line: int, words: str, hint: str
) -> None:
    """One mistake: file, line, what is wrong, what would be right."""
    folder = _folder(tmp_path, gun_toml=GUN, after_csv=STRING, case_toml=text)
    with pytest.raises(InputError) as caught:
        load_case(folder)
    mistake = caught.value
    assert mistake.file == str(folder / "case.toml")
    assert mistake.line == line
    assert words in mistake.message
    assert hint in (mistake.hint or "")


def test_every_reading_of_a_string_cannot_be_set_aside(tmp_path: Path) -> None:
    """What is left would be no string."""
    asides = "".join(f"[[set_aside]]\nline = {line}\nreason = 'x'\n" for line in (1, 2, 3))
    with pytest.raises(InputError, match="every reading of after is set aside") as caught:
        load_case(_folder(tmp_path, gun_toml=GUN, after_csv=STRING, case_toml=asides))
    assert caught.value.line == 8


def test_with_two_files_a_line_alone_is_not_enough(tmp_path: Path) -> None:
    """Which file is meant has to be said."""
    text = "[[set_aside]]\nline = 2\nreason = 'two balls'\n"
    with pytest.raises(InputError, match="line 2 is to be set aside, but of which file"):
        load_case(_folder(tmp_path, gun_toml=GUN, before_csv=STRING, after_csv=STRING, case_toml=text))


def test_several_mistakes_are_counted(tmp_path: Path) -> None:
    """The first is told whole, the lines of the others are named."""
    text = "[case]\ntitle = 7\n[limit]\nkey = 'x'\n[day]\npressure = '1'\n"
    with pytest.raises(InputError, match=r"case\.title = 7 .* There are 2 more mistakes: lines 4, 6\.$"):
        load_case(_folder(tmp_path, gun_toml=GUN, case_toml=text))


@pytest.mark.parametrize(
    ("files", "words"),
    [
        ({}, "there is no gun's file in this folder."),
        ({"a_toml": GUN, "b_toml": GUN}, "several files could be the gun's."),
        ({"gun_toml": GUN, "monday_csv": STRING, "tuesday_csv": STRING}, "several files could hold readings."),
        ({"gun_toml": GUN, "after_csv": "no reading here\n"}, "the file has no readings."),
        ({"gun_toml": "[spring]\nrat = '5 N/m'\n"}, "[spring] has no field rat."),
        ({"gun_toml": GUN, "case_toml": "[case"}, "this is not TOML"),
    ],
)
def test_a_folder_that_is_no_case_says_why(tmp_path: Path, files: dict[str, str], words: str) -> None:
    """No gun, several guns, several files of readings, readings without a reading, a gun with a mistake, no TOML."""
    with pytest.raises(InputError) as caught:
        load_case(_folder(tmp_path, **files))
    assert words in caught.value.message


def test_a_folder_that_is_not_there_and_a_file_in_its_place_are_told_apart(tmp_path: Path) -> None:
    """Each has its own words, and the second says which folder to give."""
    with pytest.raises(InputError, match="there is no such folder"):
        load_case(tmp_path / "nowhere")
    file = tmp_path / "case.toml"
    file.write_text("", encoding="utf-8")
    with pytest.raises(InputError, match="this is a file, not the folder of a case"):
        load_case(file)
    with pytest.raises(InputError):
        load_case("a\0b")


@pytest.mark.parametrize("field", ["gun", "readings"])
def test_a_case_stays_in_its_folder(tmp_path: Path, field: str) -> None:
    """A folder from a stranger names no file outside it, and no line of such a file is shown."""
    (tmp_path / "secret.csv").write_text("the word is swordfish\n", encoding="utf-8")
    outside = '"../secret.csv"' if field == "gun" else '["../secret.csv"]'
    folder = _folder(tmp_path, rack_toml=GUN, before_csv=STRING, case_toml=f"[case]\n{field} = {outside}\n")
    with pytest.raises(InputError, match="there is no such file in the folder") as caught:
        load_case(folder)
    assert "swordfish" not in str(caught.value)


@pytest.mark.parametrize("target", ["../secret.csv", "nowhere.csv", "after.csv"])
def test_a_link_that_leads_out_of_the_folder_or_nowhere_is_refused(tmp_path: Path, target: str) -> None:
    """Whether or not anybody named it: ``after.csv`` is a link to itself here."""
    (tmp_path / "secret.csv").write_text("the word is swordfish\n", encoding="utf-8")
    folder = _folder(tmp_path, rack_toml=GUN, before_csv=STRING)
    (folder / "after.csv").symlink_to(target)
    with pytest.raises(InputError, match=r"after\.csv is a link that leads out of the folder, or nowhere"):
        load_case(folder)


def test_what_was_measured_before_the_work_and_what_days_differ_by_are_read(tmp_path: Path) -> None:
    """A table of readings as found, in units; days differ by half a per cent unless the file says what they do."""
    told = "[as_found]\npiston_drag = '13 N'\nspring_free_length = '6 mm'\n"
    folder = _folder(tmp_path, gun_toml=GUN, before_csv=STRING, case_toml=told)
    visit = load_case(folder)
    assert visit.read_as_found == {"piston_drag": 13.0, "spring_free_length": pytest.approx(0.006)}
    assert visit.session.between_days == 0.005
    (folder / "case.toml").write_text("[chronograph]\nbetween_days = '0.3 %'\n", encoding="utf-8")
    assert load_case(folder).session.between_days == pytest.approx(0.003)
