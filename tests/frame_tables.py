"""A freestanding frame as a room file tells it, for every test that needs one.

Its timber is sold by the shipped yard.
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
