"""Small text sketches of what is to be measured, one for each step of the guided session."""

from __future__ import annotations

SKETCHES = {
    "room": r"""
        from above                      from the side
   y  +---------------------+        +---------------------+ -+
   ^  |                     | width  |                     |  | ceiling
   |  +---------------------+        +---------------------+ -+ (finished floor)
   0  0 --> x   length
""",
    "beams": r"""
      from the side                  across the room (along the beam)
   |<-- x_mm -->|                    wall                     wall
   |          +---+ -+               +-----------------------------+
   |          |   |  | depth         |            beam             |
   |          +---+ -+               +-----------------------------+
   |           width  underside      left end (y = 0)     right end
   |  (to its middle)  above floor   |<----------- span ----------->|
""",
    "joists": r"""
      from the side: joists hidden above the ceiling, evenly spaced
   |<- first ->|<- spacing ->|
   |         +---+         +---+         +---+ -+
   |         |   |         |   |         |   |  | depth      span: between their supports,
   |         +---+         +---+         +---+ -+            across the room
   |============================================== lining: all between joists and room
   |         width                                (knock, drill small holes: both edges)
""",
    "slabs": r"""
      from the side: a concrete ceiling, and where anchors could go
   |<- first ->|<- spacing ->|
   |##############################  -+
   |##############################   | thickness: concrete alone, no screed, no plaster
   |##########|#############|#####  -+
   |          v             v         rated load: what the anchor's approval says
""",
    "frames": r"""
      from the side                  from the front (across the room)
   |<- first ->|                       +=============================+ -+ head beam: width,
   |         [###] head beam           |                             |  | depth
   |           |                       +=+=========================+=+ -+
   |      \    |    /                    | |                         | | |
   |       \   |   / braces              | |  posts                  | | | underside
   |        \  |  /  (up: where          | |<--------- span -------->| | | above the floor
   |         \ | /    they meet)         | |                         | | |
   |    ========#======== foot         ==+=+==                     ==+=+== -+
               |<- foot ->|
""",
    "climber": r"""
    \                       o                       /
     \______________________|______________________/
      <------------ span: finger tips ------------>
""",
    "wall": r"""
          beam [#]                 angle: from the plumb line; 0 is upright, 45 is steep
            lip /|                 kicker: the upright strip below the board
               / | plumb line      width: across the room
         board/  |                 fall space: clear floor in front of the lip
             /   |
     kicker |    |<- fall space ->
    ________|_____________________ floor
""",
    "access": r"""
     the door               the largest flat piece that ever went in
    +--width--+            +-----------------------+
    |         | height     |                       | shorter side
    |         |            +-----------------------+
    +---------+                   longer side
""",
    "yard": r"""
     what fits flat into your vehicle, longer side first
    +-----------------------+
    |                       |
    +-----------------------+
""",
}
"""By the table of the room file that the question belongs to."""
