"""Effective width of the sheet between studs: limits fixed by statics, and its convergence."""

import pytest

from elastic import plate as module
from elastic.plate import Plate, central_load, effective_width_mm, sheet_plate


def test_without_stiffness_across_only_the_strip_under_the_patch_works():
    width = effective_width_mm(400.0, 18.0, 9000.0, 1e-3, 1e-3, 80.0)
    assert width.moment_mm == pytest.approx(80.0, rel=0.02)
    assert width.deflection_mm == pytest.approx(80.0, rel=0.02)


def test_width_grows_with_stiffness_across_and_with_span():
    soft = effective_width_mm(400.0, 17.6, 7452.0, 3000.0, 620.0, 60.0)
    birch = effective_width_mm(400.0, 17.6, 7452.0, 10048.0, 620.0, 60.0)
    wide = effective_width_mm(600.0, 17.6, 7452.0, 10048.0, 620.0, 60.0)
    assert soft.moment_mm < birch.moment_mm < wide.moment_mm
    assert birch.moment_mm < birch.deflection_mm  # bending gathers under the load


def test_width_does_not_depend_on_thickness():
    thin = effective_width_mm(400.0, 12.0, 7000.0, 10000.0, 620.0, 60.0)
    thick = effective_width_mm(400.0, 24.0, 7000.0, 10000.0, 620.0, 60.0)
    assert thin.moment_mm == pytest.approx(thick.moment_mm, rel=1e-9)


def test_series_has_converged(monkeypatch):
    plate = sheet_plate(400.0, 17.6, 7452.0, 10048.0, 620.0)
    first = central_load(plate, (40.0, 40.0))
    monkeypatch.setattr(module, "_TERMS_PER_PATCH", 24)
    second = central_load(plate, (40.0, 40.0))
    assert first.moment_nmm_per_mm == pytest.approx(second.moment_nmm_per_mm, rel=2e-3)
    assert first.deflection_mm == pytest.approx(second.deflection_mm, rel=1e-6)


def test_a_sheet_alike_in_all_directions_is_an_isotropic_plate():
    # Timoshenko: D1 = D2 = H = E t^3 / 12 (1 - nu^2); without Poisson's effect G = E / 2.
    plate = sheet_plate(400.0, 18.0, 9000.0, 9000.0, 4500.0)
    stiffness = 9000.0 * 18.0**3 / 12
    found = (plate.d_span_nmm, plate.d_length_nmm, plate.d_twist_nmm)
    assert found == pytest.approx((stiffness,) * 3)
    assert (plate.span_mm, plate.poisson) == (400.0, 0.0)
    grained = sheet_plate(400.0, 18.0, 9000.0, 3000.0, 600.0)
    assert grained.d_span_nmm == pytest.approx(3 * grained.d_length_nmm)
    assert grained.d_twist_nmm == pytest.approx(2 * 600 * 18**3 / 12)


def test_long_strip_stands_for_an_endless_one():
    strip = sheet_plate(400.0, 17.6, 7452.0, 10048.0, 620.0)
    longer = Plate(400.0, 4800.0, strip.d_span_nmm, strip.d_length_nmm, strip.d_twist_nmm)
    one, two = (central_load(p, (60.0, 60.0)).moment_nmm_per_mm for p in (strip, longer))
    assert one == pytest.approx(two, rel=1e-3)


def test_a_patch_may_be_as_small_as_one_likes():
    strip = sheet_plate(400.0, 18.0, 9000.0, 5000.0, 600.0)
    small, large = (central_load(strip, (size, size)) for size in (0.9, 20.0))
    assert small.moment_nmm_per_mm > large.moment_nmm_per_mm
    assert small.deflection_mm == pytest.approx(large.deflection_mm, rel=0.01)


@pytest.mark.parametrize("patch", [(0.0, 10.0), (500.0, 10.0)])
def test_a_patch_without_size_or_too_large_is_refused(patch):
    with pytest.raises(ValueError, match="patch"):
        central_load(sheet_plate(400.0, 18.0, 9000.0, 5000.0, 600.0), patch)
