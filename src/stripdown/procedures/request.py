"""What is asked for: is it known, and does it agree with itself?"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from stripdown.errors import InputError
from stripdown.procedures.description import Procedures
from stripdown.procedures.jobs import NamedJob
from stripdown.procedures.procedure import Procedure
from stripdown.tables.nearest import nearest_entry


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """What is asked for.

    Parameters
    ----------
    work
        Actions to do.
    wanted
        Checks to be fresh at the end.
    as_found
        Checks to read before anything disturbs them.
    is_graded
        Whether each part is to be graded while it is in the hand.
    troubles
        What the gun has that is brought for this: the planner treats it as told on arrival.
    """

    work: tuple[str, ...] = ()
    wanted: tuple[str, ...] = ()
    as_found: tuple[str, ...] = ()
    is_graded: bool = False
    troubles: tuple[str, ...] = ()

    def with_job(self, job: NamedJob) -> Request:
        """The request with what a named job asks for.

        Parameters
        ----------
        job
            The job.

        Returns
        -------
        Request
        """
        return self.joined(Request(work=job.work, wanted=job.wanted, as_found=job.as_found, is_graded=job.is_graded))

    def joined(self, other: Request) -> Request:
        """Two requests as one.

        Parameters
        ----------
        other
            The other one.

        Returns
        -------
        Request
            What both ask for, each thing once.
        """
        return Request(
            work=tuple(dict.fromkeys((*self.work, *other.work))),
            wanted=tuple(dict.fromkeys((*self.wanted, *other.wanted))),
            as_found=tuple(dict.fromkeys((*self.as_found, *other.as_found))),
            is_graded=self.is_graded or other.is_graded,
            troubles=tuple(dict.fromkeys((*self.troubles, *other.troubles))),
        )

    def of_gun(self, procedure: Procedure) -> Request:
        """The request without what neither a gun knows nor the one that the work makes of it.

        Parameters
        ----------
        procedure
            Procedures of the gun.

        Returns
        -------
        Request
            The readings as found are of the gun as it is, the checks of the gun that it will be.
        """
        will_be = procedure.after(self.work)
        return replace(
            self,
            work=tuple(key for key in self.work if key in procedure.actions or key in will_be.actions),
            wanted=tuple(key for key in self.wanted if key in will_be.checks),
            as_found=tuple(key for key in self.as_found if key in procedure.checks),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class TooLate:
    """A reading as found that is lost: it can no longer be taken, or should not be.

    Parameters
    ----------
    check
        Key of the check.
    reason
        Why, in one sentence.
    part
        Key of the part that is off, or was changed; empty if it is not for a part.
    """

    check: str
    reason: str
    part: str = ""


def check_request(procedure: Procedure, request: Request, procedures: Procedures | None = None) -> None:
    """Refuse a request that names what neither this gun has nor the one that it will be, or contradicts itself."""
    will_be = procedure.after(request.work)
    works = {**procedure.actions, **will_be.actions}
    actions = ({key: one.name for key, one in works.items()}, procedures.actions if procedures else {})
    checks = ({key: one.name for key, one in procedure.checks.items()}, procedures.checks if procedures else {})
    new_checks = {key: one.name for key, one in will_be.checks.items()}
    _all_known(procedure, ("work", "action"), request.work, actions)
    _all_known(procedure, ("wanted", "check"), request.wanted, ({**checks[0], **new_checks}, checks[1]))
    _all_known(procedure, ("as_found", "check"), request.as_found, checks)
    for key in request.work:
        for other in request.work:
            one_way, other_way = works[key], works[other]
            clash = {feature for feature, choice in one_way.becomes.items() if other_way.becomes.get(feature, choice) != choice}
            if clash or other in one_way.excludes:
                one, two = one_way.name, other_way.name
                raise InputError(
                    f'the work contradicts itself: "{one}" and "{two}" cannot both be asked for.',
                    field="work",
                    value=key,
                    hint=f"Keep one of {key} and {other}.",
                )


def _all_known(
    procedure: Procedure,
    asked: tuple[str, str],
    keys: Iterable[str],
    known: tuple[Mapping[str, str], Mapping[str, object]],
) -> None:
    field, noun = asked
    here, anywhere = known
    for key in keys:
        if key in here:
            continue
        if key in anywhere:
            raise InputError(f'"{key}" belongs to another variation; this gun is: {procedure.variation}.', field=field, value=key)
        raise InputError(f'"{key}" is no {noun} of this gun.', field=field, value=key, hint=nearest_entry(key, here))
