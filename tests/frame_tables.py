"""A freestanding frame, and a beam on wall ledgers, as a room file tells it.

Their timber is sold by the shipped yard.
"""

FRAMES = """
[[frames]]
name = "frame"
first_mm = 2500
spacing_mm = 300
count = 3
underside_mm = 2200
width_mm = 100
depth_mm = 200
span_mm = 1700
grade = "C24"
post_mm = [100, 120]
brace_mm = [60, 120]
brace_up_mm = 1600
foot_mm = 1400
floor_rated_n = 2000

"""

LEDGERS = """
[[ledgers]]
name = "ledgers"
first_mm = 2600
spacing_mm = 300
count = 3
underside_mm = 2200
width_mm = 100
depth_mm = 200
grade = "C24"
ledger_mm = [60, 160]
wall = "studs"
fixings = 4
fixing_mm = 400
stud_width_mm = 60
screws_per_stud = 3

"""

SPREADERS = """
[[spreaders]]
name = "spreader"
first_mm = 2600
spacing_mm = 300
count = 3
width_mm = 100
depth_mm = 120
grade = "C24"
screw_mm = [10, 220]
joist_first_mm = 250
joist_spacing_mm = 500
joist_count = 6
joist_mm = [80, 240]
joist_span_mm = 6000
joist_grade = "C24"
joist_load_n_per_m = 400
lining_mm = 15
found = true

"""
