"""Look-up tables: wrong input is refused with the reason; missing screws hold nothing."""

import dataclasses

import pytest

from steepwright.catalog import read_materials
from steepwright.errors import InputError
from steepwright.structure import build_tables, uses
from steepwright.structure.tabulate_beams import beam_class
from steepwright.structure.timber import kh_solid, splitting_n
from steepwright.structure.types import NO_CAPACITY


def change(catalog, group, **fields):
    first, *rest = getattr(catalog, group)
    return dataclasses.replace(catalog, **{group: (dataclasses.replace(first, **fields), *rest)})


@pytest.mark.parametrize(
    ("group", "fields", "reason"),
    [
        ("timber", {"width_mm": 0}, "width_mm must be greater than 0"),
        ("timber", {"depth_mm": -95}, "depth_mm must be greater than 0"),
        ("timber", {"strength_class": "C99"}, "strength class 'C99'"),
        ("sheets", {"panel": "cheese-18"}, "panel 'cheese-18'"),
        ("mounts", {"diameter_mm": 0.0}, "mount_diameter_mm must be greater than 0"),
        ("mounts", {"thread_mm": float("nan")}, "mount_thread_mm must be greater than 0"),
        ("mounts", {"screws": 0}, "screws must be greater than 0"),
    ],
)
def test_what_is_not_physical_is_refused_with_the_reason(
    group, fields, reason, catalog, make_tables
):
    with pytest.raises(InputError, match=reason):
        make_tables(change(catalog, group, **fields))


@pytest.mark.parametrize("climber", [{"mass_kg": 0.0}, {"dynamic_factor": -1.0}, {"climbers": 0}])
def test_a_climber_who_weighs_nothing_is_refused(climber, make_tables):
    with pytest.raises(InputError, match="must be greater than 0"):
        make_tables(**climber)


def test_a_beam_of_unheard_grade_or_negative_load_is_refused(catalog, make_room):
    room = make_room()
    for change_, reason in [
        ({"grade": "X1"}, "grade 'X1' of beam 'known'"),
        ({"existing_load_n_per_m": -5.0}, "existing load of beam 'known'"),
        ({"depth_mm": 0}, "beam_depth_mm must be greater than 0"),
    ]:
        beams = (dataclasses.replace(room.beams[0], **change_), room.beams[1])
        with pytest.raises(InputError, match=reason):
            build_tables(catalog, dataclasses.replace(room, beams=beams), (), ())


def test_without_a_screw_nothing_holds(catalog, make_tables, make_batch):
    bare = make_tables(dataclasses.replace(catalog, screws=()))
    found = uses(bare, make_batch())
    for name in ("sheet screw pull-out", "sheet screw shear", "stud to rail joint"):
        assert found[name][0] == NO_CAPACITY


def test_a_thicker_screw_holds_more_in_every_joint(catalog, make_tables):
    thicker = tuple(
        dataclasses.replace(s, diameter_mm=s.diameter_mm * 1.1, root_mm=s.root_mm * 1.1)
        for s in catalog.screws
    )
    old, new = make_tables(), make_tables(dataclasses.replace(catalog, screws=thicker))
    assert (new.joints.lateral_n > old.joints.lateral_n).all()
    assert (new.joints.axial_n >= old.joints.axial_n).all()


def test_unknown_grade_is_never_better_than_a_known_one(make_tables):
    tables = make_tables()
    classes = read_materials().timber_classes.values()
    weakest = min(c.fm_k_mpa for c in classes if c.source.startswith("en338"))
    strength = tables.beams.moment_d_nmm[1] / (100 * 200**2 / 6)
    assert strength <= weakest * 0.9 / 1.3


@pytest.mark.parametrize(("sold", "source"), [("C24", "en338"), ("DF-L No.2", "nds")])
def test_unknown_grade_is_the_least_of_the_yards_own_standard(catalog, make_room, sold, source):
    timber = tuple(dataclasses.replace(bar, strength_class=sold) for bar in catalog.timber)
    here = dataclasses.replace(catalog, timber=timber)
    found = beam_class(here, make_room().beams[1])
    own = [c for c in catalog.materials.timber_classes.values() if c.source.startswith(source)]
    for name in ("fm_k_mpa", "fv_k_mpa", "fc90_k_mpa", "e0_mean_mpa", "e0_05_mpa", "rho_k_kg_m3"):
        assert getattr(found, name) == min(getattr(c, name) for c in own), name
    assert found.rho_mean_kg_m3 == max(c.rho_mean_kg_m3 for c in own)


def test_unknown_grade_of_a_yard_without_timber_is_the_least_of_all(catalog, make_room):
    found = beam_class(dataclasses.replace(catalog, timber=()), make_room().beams[1])
    everyone = catalog.materials.timber_classes.values()
    assert found.fm_k_mpa == min(c.fm_k_mpa for c in everyone)
    assert found.fv_k_mpa == min(c.fv_k_mpa for c in everyone)


def test_functions_refuse_sizes_of_nothing():
    with pytest.raises(ValueError, match="depth_mm must be greater than 0, not 0"):
        kh_solid(0.0)
    with pytest.raises(ValueError, match="must be less than the depth"):
        splitting_n(45.0, 95.0, 95.0)
