"""What is assumed is told where it is assumed, and nowhere else."""

import dataclasses

from steepwright.structure import assumptions


def told(tables):
    text = " ".join(assumptions(tables))
    return {word for word in ("Lifting:", "Hidden joists:", "Concrete slab:") if word in text}


def with_beams(tables, **changed):
    return dataclasses.replace(tables, beams=dataclasses.replace(tables.beams, **changed))


def test_the_lift_is_told_of_where_the_wall_folds(tables):
    loads = tables.loads
    for folds in (True, False):
        changed = dataclasses.replace(loads, fold_up=folds)
        found = told(dataclasses.replace(tables, loads=changed))
        assert found == ({"Lifting:"} if folds else set())


def test_lining_and_slab_are_told_of_where_there_is_one(tables):
    plain = told(tables)
    lined, slab = tables.beams.lining_mm.copy(), tables.beams.slab.copy()
    lined[1], slab[0] = 12.5, True
    assert told(with_beams(tables, lining_mm=lined)) - plain == {"Hidden joists:"}
    assert told(with_beams(tables, slab=slab)) - plain == {"Concrete slab:"}


def test_climbers_are_counted_in_words(make_tables):
    assert "Loads: 1 climber of 80" in assumptions(make_tables())[0]
    assert "Loads: 2 climbers of 80" in assumptions(make_tables(climbers=2))[0]
