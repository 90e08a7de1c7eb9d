// The floor seen from above.
const drawTop = (view, row, width) => {
  const [left, right] = [32, 16];
  const u = view.length_mm / (width - left - right);
  const up = (y) => view.width_mm - y;
  const out = [];
  const area = (cls, a) => svg.rect(cls, a.x_mm[0], up(a.y_mm[1]), a.x_mm[1] - a.x_mm[0], a.y_mm[1] - a.y_mm[0]);
  const middle = (a) => [(a.x_mm[0] + a.x_mm[1]) / 2, up((a.y_mm[0] + a.y_mm[1]) / 2)];
  out.push(area("fall", view.fall), ...view.laid.map((pad) => area("pad", pad)), area("bar", view.frame), area("sheet", view.wall));
  for (const solid of view.solids) out.push(area("solid", solid));
  for (const beam of view.beams) out.push(area(beam.name === row.beam ? "ghost" : "beside", beam));
  out.push(area("pads", view.pads), svg.rect("room", 0, 0, view.length_mm, view.width_mm));
  const [fx, fy] = middle(view.fall);
  const [wx, wy] = middle(view.wall);
  out.push(...topWay(view, up, u));
  out.push(svg.text("fall space", fx, fy - 4 * u, 13 * u), svg.text(lengthOf(row.fall_space_mm), fx, fy + 12 * u, 13 * u));
  out.push(svg.text("under", wx, wy - 4 * u, 13 * u, { cls: "sheet-text" }), svg.text("the board", wx, wy + 12 * u, 13 * u, { cls: "sheet-text" }));
  for (const solid of view.solids) {
    const [x, y] = middle(solid);
    const narrow = solid.x_mm[1] - solid.x_mm[0] < solid.name.length * 6.5 * u;
    const flat = solid.y_mm[1] - solid.y_mm[0] < solid.name.length * 6.5 * u;
    const edge = solid.name.length * 3.2 * u;
    const inside = Math.min(Math.max(x, edge), view.length_mm - edge);
    out.push(
      narrow && !flat
        ? topNarrow(solid, view, up, u)
        : svg.text(solid.name, inside, y + 4 * u, 11 * u, { cls: "soft" }),
    );
  }
  const mid = wx;
  const [y0, y1] = view.wall.y_mm;
  const side = (from, to, clear) => {
    if (clear < Math.max(24, 6.2 * lengthOf(clear).length) * u) return;
    out.push(svg.dim(mid, up(from), mid, up(to), lengthOf(clear), u));
  };
  side(y0 - view.left_mm, y0, view.left_mm);
  side(y1, y1 + view.right_mm, view.right_mm);
  out.push(svg.text("pads", view.pads.x_mm[0] + 8 * u, up(view.pads.y_mm[1]) + 18 * u, 12 * u, { cls: "pads-text", anchor: "start" }));
  const base = view.width_mm + 16 * u;
  out.push(svg.dim(0, base, view.length_mm, base, `room ${lengthOf(view.length_mm)}`, u, { side: 1 }));
  out.push(svg.dim(-14 * u, view.width_mm, -14 * u, 0, lengthOf(view.width_mm), u));
  const title =
    `Floor plan of ${row.id}: ${long(view.left_mm)} clear on one side of the wall, ${long(view.right_mm)} on the other, ` +
    `${long(row.fall_space_mm)} in front of the lip; the widest way past is ${long(view.passage_mm)}${view.laid.length ? `; ${plural(view.laid.length, "pad")} on the floor` : ""}.`;
  return svg.wrap([-left * u, -10 * u, view.length_mm + (left + right) * u, view.width_mm + 48 * u], title, out.join(""));
};

// The name of a narrow solid stands in it, or, in one that is narrower than letters, beyond its end
// along the wall.
const topNarrow = (solid, view, up, u) => {
  const x = Math.max((solid.x_mm[0] + solid.x_mm[1]) / 2 + 4 * u, 12 * u);
  if (solid.x_mm[1] - solid.x_mm[0] > 14 * u) {
    return svg.text(solid.name, x, up((solid.y_mm[0] + solid.y_mm[1]) / 2), 11 * u, { turn: -90, cls: "soft" });
  }
  const below = view.width_mm - solid.y_mm[1] < solid.name.length * 6.5 * u;
  const y = below ? up(solid.y_mm[0]) + 5 * u : up(solid.y_mm[1]) - 5 * u;
  return svg.text(solid.name, x, y, 11 * u, { turn: -90, cls: "soft", anchor: below ? "end" : "start" });
};

// The widest way past the wall, as an arrow from before it to behind it.
const topWay = (view, up, u) => {
  const [y0, y1] = view.wall.y_mm;
  const y = view.left_mm >= view.right_mm ? y0 - view.left_mm * 0.74 : y1 + view.right_mm * 0.74;
  if (view.passage_mm < 30 * u) return [];
  const [lip, foot] = view.sign > 0 ? [view.wall.x_mm[1], view.wall.x_mm[0]] : view.wall.x_mm;
  const inside = (x) => Math.min(Math.max(x, 8 * u), view.length_mm - 8 * u);
  const [from, to] = [inside(lip + view.sign * 26 * u), inside(foot - view.sign * 46 * u)];
  return [
    svg.arrow("way", from, up(y), to, up(y), 9 * u),
    svg.text("way past", to, up(y) - 7 * u, 11 * u, { cls: "soft", anchor: view.sign > 0 ? "start" : "end" }),
  ];
};
