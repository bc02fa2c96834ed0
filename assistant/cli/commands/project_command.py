"""`boxaloud job about`: what the reports of a job say of its project."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.cli.output import put
from boxaloud.assistant.reports.job_facts import project_block
from boxaloud.assistant.reports.report_delivery import project_of
from boxaloud.assistant.storage import repository
from boxaloud.assistant.storage.job_names import tidy
from boxaloud.assistant.storage.project_details import is_date
from boxaloud.assistant.storage.storage_messages import say
from boxaloud.assistant.text.problem import Problem


def about(
    name: str,
    site: str | None,
    address: str | None,
    permit: str | None,
    contractor: str | None,
    prepared_by: str | None,
    licence: str | None,
    date: str | None,
) -> int:
    """Keep what is given, drop what is given as nothing, leave what is None; then show it all."""
    place = repository.find(name)
    known = repository.project_of(place)
    given = {
        "site": site, "address": address, "permit": permit, "contractor": contractor,
        "prepared_by": prepared_by, "licence": licence, "date": date,
    }  # fmt: skip
    new = {field: tidy(words) for field, words in given.items() if words is not None}
    if new.get("date") and not is_date(new["date"]):
        raise Problem(say("job.date", date=new["date"]))
    if new:
        repository.describe(place, replace(known, **new))
    told = list(project_block(project_of(replace(known, **new))))
    put(say("job.about" if told else "job.about_nothing", job=place.name))
    for label, words in told:
        put(f"  {label}: {words}")
    return 0
