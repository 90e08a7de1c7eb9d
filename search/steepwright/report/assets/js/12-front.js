// The wall square to its face: sheets, the bars behind them, holds and mounts. At its sides, in
// pixels, stand dimensions; feet and inches are longer than millimetres.
const frontSides = [62, inches ? 88 : 42];
const frontTall = inches ? 36 : 0;
const drawFront = (view, row, width, more = {}) => {
  const [left, right] = frontSides;
  const u = view.width_mm / (width - left - right);
  const total = view.kicker_mm + view.board_mm;
  const up = (v) => total - v;
  const out = [];
  for (const [y, v, w, h] of view.panels) out.push(svg.rect("sheet", y, up(v + h), w, h));
  for (const [y, v, w, h] of view.bars) out.push(svg.rect("ghost", y, up(v + h), w, h));
  for (const y of view.seams_y_mm) out.push(svg.line("seam", y, 0, y, total));
  for (const v of view.seams_v_mm) out.push(svg.line("seam", 0, up(v), view.width_mm, up(v)));
  if (view.kicker_mm) out.push(svg.line("seam", 0, up(view.kicker_mm), view.width_mm, up(view.kicker_mm)));
  out.push(...frontHolds(view.holds, up, u));
  for (const y of view.mounts_y_mm) {
    out.push(svg.line("hanger", y, -16 * u, y, 0), svg.circle("mount", y, -16 * u, 4.5 * u));
  }
  out.push(...frontDims(view, up, u, total));
  const [above, below] = [70 + frontTall, 92 + frontTall];
  const box = [-left * u, -above * u, view.width_mm + (left + right) * u, total + (above + below) * u];
  const free = view.holds.y_mm.length * view.holds.v_mm.length - view.holds.blocked.length - view.holds.absent.length;
  const title =
    `Front view of ${row.id}, kicker and board in one plane: ${view.panels.length} sheet pieces on ` +
    `${view.stud_centres_mm.length} studs, ${free} free hold positions, ${view.holds.blocked.length} blocked by a bar.`;
  return svg.wrap(box, title, out.join(""), more.attributes);
};

// The widest drawing, in pixels, whose wall is at most `high` pixels tall.
const frontWidth = (view, width, high) =>
  Math.round(Math.min(width, frontSides[0] + frontSides[1] + (high * view.width_mm) / (view.kicker_mm + view.board_mm)));

const frontHolds = (holds, up, u) => {
  const key = ([i, j]) => `${i} ${j}`;
  const blocked = new Set(holds.blocked.map(key));
  const absent = new Set(holds.absent.map(key));
  const r = Math.max(14, 2.6 * u);
  const out = [];
  holds.y_mm.forEach((y, i) =>
    holds.v_mm.forEach((v, j) => {
      const at = key([i, j]);
      if (absent.has(at)) return;
      if (!blocked.has(at)) {
        out.push(svg.circle("hold", y, up(v), r));
        return;
      }
      const s = r * 1.15;
      out.push(svg.line("blocked", y - s, up(v) - s, y + s, up(v) + s), svg.line("blocked", y - s, up(v) + s, y + s, up(v) - s));
    }),
  );
  return out;
};

const frontDims = (view, up, u, total) => {
  const out = [];
  const chain = total + 14 * u;
  let last = -Infinity;
  for (const y of view.stud_centres_mm) {
    out.push(svg.line("ext", y, total, y, chain));
    if (y - last < 13 * u) continue;
    last = y;
    out.push(svg.text(lengthOf(Math.round(y)), y + 4 * u, chain + 6 * u, 11 * u, { turn: -90, anchor: "end" }));
  }
  last = -Infinity;
  for (const y of view.holds.y_mm) {
    if (y - last < 13 * u) continue;
    last = y;
    out.push(svg.text(lengthOf(y), y + 4 * u, -28 * u, 11 * u, { turn: -90, anchor: "start", cls: "soft" }));
  }
  out.push(svg.text("studs", -8 * u, chain + 20 * u, 11 * u, { anchor: "end" }));
  out.push(svg.text("holds", -8 * u, -36 * u, 11 * u, { anchor: "end", cls: "soft" }));
  out.push(svg.dim(0, total + (78 + frontTall) * u, view.width_mm, total + (78 + frontTall) * u, `width ${lengthOf(view.width_mm)}`, u));
  const rows = [0, view.kicker_mm, ...view.seams_v_mm, total].filter((v, i, all) => !i || v !== all[i - 1]);
  for (let i = 1; i < rows.length; i += 1) {
    const x = -14 * u;
    out.push(svg.line("ext", 0, up(rows[i]), x - 4 * u, up(rows[i])));
    out.push(svg.dim(x, up(rows[i - 1]), x, up(rows[i]), lengthOf(rows[i] - rows[i - 1]), u));
  }
  out.push(svg.dim(-42 * u, total, -42 * u, 0, `climbable ${lengthOf(total)}`, u));
  const x = view.width_mm + 6 * u;
  for (const v of view.holds.v_mm) {
    out.push(svg.text(lengthOf(v - view.kicker_mm), x, up(v) + 4 * u, 11 * u, { anchor: "start", cls: "soft" }));
  }
  return out;
};
