// The room seen along its beams.
const drawSide = (view, row, width) => {
  const plain = width < 520; // a phone: the figure keeps its lines, the numbers stand in its caption
  const [left, right] = plain ? [14, 14] : [34, 34];
  const u = view.length_mm / (width - left - right);
  const floor = view.ceiling_mm;
  const flip = ([x, z]) => [x, floor - z];
  const out = [];

  const [fallFrom, fallTo] = [...view.fall_x_mm].sort((a, b) => a - b);
  out.push(svg.rect("fall", fallFrom, floor - 9 * u, fallTo - fallFrom, 9 * u));
  for (const box of view.boxes) {
    const cls = box.role === "mine" ? "beam mine" : box.role === "other" ? "beam" : box.role;
    out.push(svg.rect(cls, box.x_mm[0], floor - box.z_mm[1], box.x_mm[1] - box.x_mm[0], box.z_mm[1] - box.z_mm[0]));
  }
  for (const brace of view.braces_mm) out.push(svg.poly("beam", brace.map(flip)));
  const lowCeiling = Math.min(0, ...view.boxes.map((box) => floor - box.z_mm[1]));
  out.push(svg.rect("room", 0, 0, view.length_mm, floor));
  if (view.folded) out.push(...sideFolded(view, u, flip, plain));
  if (view.rope_mm.length) out.push(svg.path("rope", view.rope_mm.map(flip)), ...view.rope_mm.map((p) => svg.circle("block", ...flip(p), 3 * u)));
  out.push(...sideBoard(view, u, flip));
  if (view.tie_mm.length) out.push(svg.path("hanger", view.tie_mm.map(flip)), ...view.tie_mm.map((p) => svg.circle("block", ...flip(p), 3 * u)));
  out.push(...sideNames(view, u, floor, lowCeiling, plain));
  out.push(...sideDims(view, row, u, flip, floor, plain));
  const [top, below] = [20 * u, (plain ? 44 : 70) * u];
  const box = [-left * u, lowCeiling - top, view.length_mm + (left + right) * u, floor - lowCeiling + top + below];
  const title =
    `Side view of ${row.id}: a board of ${long(view.board_mm)} leans ${degrees(view.angle_deg)} out over a floor run of ` +
    `${long(row.floor_run_mm)}, with ${long(row.fall_space_mm)} of fall space in front of its lip` +
    (view.folded ? `, and folds up to leave ${long(view.folded.headroom_mm)} of headroom.` : ".");
  return svg.wrap(box, title, out.join(""));
};

const sideNames = (view, u, floor, lowCeiling, plain) => {
  const out = [];
  const named = (box) => (box.role === "mine" ? beamWords(box.name).replace(/^the /, "") : box.name);
  const at = (box) => Math.min(Math.max((box.x_mm[0] + box.x_mm[1]) / 2, 40 * u), view.length_mm - 40 * u);
  const hung = view.boxes.find((box) => box.role === "mine");
  // A letter is some 6 u wide: a name that would run into that of the wall's own beam is left out.
  const covered = (box) => hung && Math.abs(at(box) - at(hung)) < (named(box).length + named(hung).length + 2) * 3 * u;
  for (const box of view.boxes) {
    const middle = (box.x_mm[0] + box.x_mm[1]) / 2;
    const mine = box.role === "mine";
    if (mine || (box.role === "other" && !plain)) {
      if (mine || !covered(box)) out.push(svg.text(named(box), at(box), lowCeiling - 6 * u, 11 * u, { cls: mine ? "" : "soft" }));
    } else if (box.role === "solid" && box.x_mm[1] - box.x_mm[0] > 60 * u) {
      out.push(svg.text(box.name, middle, floor - box.z_mm[0] - 16 * u, 11 * u, { cls: "soft" }));
    } else if (box.role === "solid" && !plain) {
      const [x, z] = [middle, floor - (box.z_mm[0] + box.z_mm[1]) / 2];
      const edge = box.x_mm[1] > view.length_mm / 2 ? box.x_mm[0] - 5 * u : box.x_mm[1] + 14 * u;
      out.push(svg.text(box.name, box.x_mm[1] - box.x_mm[0] > 15 * u ? x + 4 * u : edge, z, 11 * u, { turn: -90, cls: "soft" }));
    }
  }
  return out;
};

const sideBoard = (view, u, flip) => {
  const out = [];
  const [px, pz] = view.pivot_mm;
  for (const [cls, outline] of [
    ["bar", view.kicker_frame_mm],
    ["bar", view.frame_mm],
    ["sheet", view.kicker_sheet_mm],
    ["sheet", view.sheet_mm],
  ]) {
    if (outline.length) out.push(svg.poly(cls, outline.map(flip)));
  }
  out.push(svg.line("hanger", ...flip([px, view.hung_from_mm]), ...flip([px, pz])));
  out.push(svg.circle("mount", ...flip([px, pz]), 4.5 * u));
  return [...out, sideClimber(view, flip)];
};

const sideClimber = (view, flip) => {
  const { climber, foot_mm: foot, sign } = view;
  const size = climber.head_radius_mm;
  const t = (view.angle_deg * Math.PI) / 180;
  const [s, c] = [Math.sin(t), Math.cos(t)];
  const place = ([down, out]) => {
    const up = view.board_mm - down;
    return flip([foot[0] + sign * (up * s + out * c), foot[1] + up * c - out * s]);
  };
  const limb = (joints, thick) => svg.path("limb", joints.map(place)).replace("/>", ` stroke-width="${Math.round(size * thick)}"/>`);
  return (
    `<g class="climber far">${limb(climber.far_leg_mm, 0.9)}${limb(climber.far_arm_mm, 0.62)}</g>` +
    `<g class="climber">${limb(climber.leg_mm, 0.95)}${limb(climber.arm_mm, 0.66)}` +
    `${limb(climber.trunk_mm, 1.6)}${svg.circle("", ...place(climber.head_mm), size)}</g>`
  );
};

const sideFolded = (view, u, flip, plain) => {
  const { outline_mm: outline, sweep } = view.folded;
  const steps = 40;
  const arc = Array.from({ length: steps + 1 }, (_, i) => {
    const a = ((sweep.from_deg + ((sweep.to_deg - sweep.from_deg) * i) / steps) * Math.PI) / 180;
    return [
      sweep.centre_mm[0] + sweep.radius_mm * Math.cos(a),
      sweep.centre_mm[1] + sweep.radius_mm * Math.sin(a),
    ];
  }).filter(([x]) => x >= 0 && x <= view.length_mm);
  const low = Math.min(...outline.map(([, z]) => z));
  const foot = outline[0];
  const middle = (Math.min(...outline.map((p) => p[0])) + Math.max(...outline.map((p) => p[0]))) / 2;
  const lines = [svg.path("sweep", arc.map(flip)), svg.poly("parked", outline.map(flip))];
  if (plain) return lines;
  return [
    ...lines,
    svg.text("parked", ...flip([middle, low - 16 * u]), 12 * u, { cls: "sky-text" }),
    svg.line("dim", ...flip([foot[0] + view.sign * 30 * u, low]), ...flip([foot[0] + view.sign * 30 * u, 0])),
    svg.text(`headroom ${lengthOf(view.folded.headroom_mm)}`, ...flip([foot[0] + view.sign * 30 * u - 4 * u, low * 0.5]), 12 * u, { turn: -90, cls: "sky-text" }),
  ];
};

const sideDims = (view, row, u, flip, floor, plain) => {
  const out = [];
  const [footX, footZ] = view.foot_mm;
  const [lipX, lipZ] = view.lip_mm;
  const [first, second] = [floor + 22 * u, floor + 48 * u];
  const ext = (x, z, to) => out.push(svg.line("ext", x, floor - z, x, to + 5 * u));
  ext(footX, 0, plain ? first : second);
  ext(lipX, 0, first);
  out.push(svg.line("plumb", lipX, floor - lipZ, lipX, floor));
  out.push(svg.dim(footX, first, lipX, first, `${plain ? "run" : "floor run"} ${lengthOf(row.floor_run_mm)}`, u, { side: 1 }));
  const end = view.fall_x_mm[1];
  out.push(svg.dim(lipX, first, end, first, `${plain ? "fall" : "fall space"} ${lengthOf(row.fall_space_mm)}`, u, { side: 1 }));
  if (!plain) {
    ext(0, 0, second);
    out.push(svg.dim(0, second, footX, second, `kicker’s face ${lengthOf(footX)} from x = 0`, u, { side: 1, where: Math.max(0.5, (90 * u) / footX) }));
    const right = view.length_mm + 26 * u;
    out.push(svg.dim(right, floor, right, 0, `ceiling ${lengthOf(view.ceiling_mm)}`, u, { where: 0.32 }));
    const pivot = -14 * u;
    out.push(svg.dim(pivot, floor, pivot, floor - view.pivot_mm[1], `pivots ${lengthOf(view.pivot_mm[1])} above the floor`, u));
    out.push(svg.line("ext", pivot - 4 * u, floor - view.pivot_mm[1], 0, floor - view.pivot_mm[1]));
  }
  // The angle from the vertical, at the foot.
  const t = (view.angle_deg * Math.PI) / 180;
  const radius = Math.min(view.board_mm * 0.34, Math.max(800, 95 * u));
  const arc = Array.from({ length: 17 }, (_, i) => {
    const a = (t * i) / 16;
    return flip([footX + view.sign * radius * Math.sin(a), footZ + radius * Math.cos(a)]);
  });
  out.push(svg.line("plumb", ...flip([footX, footZ]), ...flip([footX, footZ + radius * 1.15])));
  out.push(svg.path("angle", arc));
  const half = t * 0.5;
  const label = flip([footX + view.sign * (radius + 20 * u) * Math.sin(half), footZ + (radius + 16 * u) * Math.cos(half)]);
  out.push(svg.text(degrees(view.angle_deg), ...label, 15 * u, { cls: "angle-text" }));
  if (plain) return out;
  // The board's length, behind the frame.
  const frame = view.frame_mm.map(flip);
  const off = ([x, y]) => [x - view.sign * Math.cos(t) * 12 * u, y - Math.sin(t) * 12 * u];
  out.push(svg.dim(...off(frame[3]), ...off(frame[2]), `board ${lengthOf(view.board_mm)}`, u, { where: 0.7 }));
  if (row.kicker_mm) {
    const x = view.kicker_frame_mm[3][0] - view.sign * 10 * u;
    out.push(svg.dim(x, floor, x, floor - row.kicker_mm, lengthOf(row.kicker_mm), u, { side: -view.sign }));
  }
  out.push(svg.text(`lip ${lengthOf(row.lip_height_mm)} above the floor`, lipX + (view.sign > 0 ? 16 : -7) * u, floor - lipZ * 0.42, 11 * u, { turn: -90, cls: "soft" }));
  return out;
};

const sideWords = (view, row) => {
  const beside = view.boxes.filter((box) => box.role === "beside").map((box) => box.name);
  return (
    `Board ${long(row.board_mm)}, ${row.kicker_mm ? `kicker ${long(row.kicker_mm)}, ` : ""}lip ${long(row.lip_height_mm)} and pivot ${long(view.pivot_mm[1])} above the floor; all sizes in ${unitWords}.` +
    (view.folded ? ` Dotted: the way up; dashed: parked, with ${long(view.folded.headroom_mm)} of headroom.` : "") +
    (view.rope_mm.length ? " Thin line: the rope from the board’s eye to its block." : "") +
    (view.tie_mm.length ? ` Thick line behind the board: a tie at every stud${view.folded ? "; undo all before you fold it up" : ""}.` : "") +
    (beside.length ? ` In thin dots, beside the wall: ${beside.join(", ")}.` : "")
  );
};
