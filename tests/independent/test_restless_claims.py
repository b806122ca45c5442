"""Jobs that are corrected and opened again, and whose clock jumps, claim no more than their entries hold."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from tests.campaigns.restless_claims import LEAST, MOST, run
from tests.campaigns.sheet_claims import Case, lacking, shop_of
from tests.independent.claims_over import shop_complaints
from tests.independent.sheet_claims import complaints

pytestmark = pytest.mark.xdist_group("restless claims")

Jobs = tuple[Counter[str], list[str], list[Case]]
"""States reached, complaints and cases."""
FIRST = 213


@pytest.fixture(scope="module")
def jobs() -> Jobs:
    """The jobs with their sheets."""
    return run(MOST, first=FIRST, until_enough=True)


def test_restless_jobs_claim_what_their_entries_hold(jobs: Jobs) -> None:
    reached, found, cases = jobs
    print(f"{len(cases)} jobs; {dict(reached)}")
    assert found == []
    too_seldom = lacking(reached, LEAST)
    assert not too_seldom, f"too seldom reached in {len(cases)} jobs: {too_seldom}"


def test_what_is_hidden_or_invented_in_them_is_found(jobs: Jobs, tmp_path: Path) -> None:
    path, planted = tmp_path / "job.toml", 0
    for sheet, text, raw in jobs[2]:
        path.write_text(raw, encoding="utf-8")
        page = shop_of(path, tmp_path)
        if sheet["corrections"]:
            planted += 1
            assert complaints({**sheet, "corrections": sheet["corrections"][1:]}, text, path)
            assert shop_complaints(page.replace("first given as", "given as"), path)
        if sheet["tests"]:
            planted += 1
            turned = {"pass": "fail", "fail": "pass", "not_judged": "pass"}
            last = {**sheet["tests"][-1], "result": turned[sheet["tests"][-1]["result"]]}
            assert complaints({**sheet, "tests": [*sheet["tests"][:-1], last]}, text, path)
    assert planted >= 3
