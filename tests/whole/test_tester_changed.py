"""A shop that says another tester while a test runs on the one before."""

from __future__ import annotations

from dataclasses import replace

from bench.shop.shop import built_in
from bench.stages.whole import walk
from tests.whole.repairer import fresh


def test_a_test_begun_on_a_tester_with_its_own_verdict_ends_on_it() -> None:
    """The hold that it keeps has no minutes, which a hold on the clock would need."""
    own = built_in()
    shop = replace(own, tester=replace(own.tester, gives="verdict"))
    repairer = fresh(shop=shop).on_to("empty_hold")
    assert "let the tester measure" in repairer.step.title
    repairer.answer()
    job = repairer.desk.job
    assert repairer.asked == "empty_result" and job is not None
    open_step = walk(job, replace(own, tester=replace(own.tester, gives="water"))).open
    assert open_step is not None and open_step.key == "empty_result"
    assert any("timed tester" in choice.with_it for choice in open_step.choices)
