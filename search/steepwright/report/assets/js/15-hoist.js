// The pull over the lift: in the lines and by hand, from standing to parked.
const drawHoist = (view, width) => {
  const { hoist, row } = view;
  const [left, right, top, high] = [46, 14, 26, 190];
  const [lines, hand] = [hoist.lines_n, hoist.hand_n].map((values) => values.map(forceOf));
  const limit = forceOf(hoist.hand_limit_n);
  const most = Math.max(...lines, limit) * 1.08;
  const last = hoist.lines_n.length - 1;
  const x = (i) => left + ((width - left - right) * i) / last;
  const y = (n) => top + high - (high * n) / most;
  const curve = (cls, values) => svg.path(`pull ${cls}`, values.map((n, i) => [x(i), y(n)]));
  const out = [];
  const step = [20, 50, 100, 200, 500, 1000, 2000].find((one) => most / one <= 6) || 5000;
  for (let n = 0; n < most; n += step) {
    out.push(svg.line("ext", left, y(n), width - right, y(n)), svg.text(`${n}`, left - 6, y(n) + 4, 11, { anchor: "end", cls: "soft" }));
  }
  out.push(svg.text(forceUnit, left - 6, top - 10, 11, { anchor: "end", cls: "soft" }));
  out.push(svg.line("pull limit", left, y(limit), width - right, y(limit)));
  out.push(curve("lines", lines), curve("hand", hand));
  const say = (words, n, cls) => svg.text(words, (left + width - right) / 2, y(n) - 7, 12, { cls });
  const middle = Math.round(last / 2);
  out.push(say(hoist.lines > 1 ? "in all lines" : "in the line", lines[middle], ""));
  out.push(say("by hand", hand[middle], "angle-text"));
  out.push(svg.text(`what one may pull: ${limit}`, width - right, y(limit) - 6, 11, { anchor: "end", cls: "sky-text" }));
  const base = top + high + 17;
  out.push(svg.text(`standing, ${degrees(hoist.from_deg)}`, left, base, 11, { anchor: "start" }));
  out.push(svg.text(`parked, ${degrees(hoist.to_deg)}`, width - right, base, 11, { anchor: "end" }));
  return svg.wrap([0, 0, width, base + 8], `Pull while lifting ${row.id}: ${hoistWords(hoist, view.side)}`, out.join(""));
};

// A weight in lb is the same figure as its force in lbf.
const weightOf = (n) => (inches ? `${forceOf(n)} lb` : `${Math.ceil(n / 9.81)} kg`);
const hoistWords = (hoist, side) => {
  const most = Math.max(...hoist.hand_n);
  const hangs = hoist.beam ? beamWords(hoist.beam) : "the ceiling";
  const beside = side.block_up_mm
    ? `The parked board leaves no room below ${hangs}: the blocks hang at its side, ${long(side.block_up_mm)} ${isHidden(hoist.beam) ? "above the ceiling, which has to be open there" : "above its underside"}. `
    : "";
  return (
    `${plural(hoist.lines, "line")} from ${hangs} to the eyes at the board’s back, ${long(hoist.eye_mm)} down from the mounts’ pivot, through a tackle of ${plural(hoist.parts, "part")}. The pull by hand begins at ` +
    `${pull(hoist.hand_n[0])} and is ${pull(most)} at most, like lifting ${weightOf(most)}: for ${people(hoist.people)}. ${beside}` +
    `${hoist.lines > 1 ? `Should one line be lost, the other carries up to ${pull(hoist.line_lost_n)}. ` : ""}If the brake fails, ${pull(hoist.without_brake_n)} are in your hand (${weightOf(hoist.without_brake_n)}): keep it on the rope until the latches have closed.`
  );
};

const hoistTable = (hoist) => {
  const last = hoist.lines_n.length - 1;
  const rows = hoist.lines_n.map((n, i) => {
    const angle = hoist.from_deg + ((hoist.to_deg - hoist.from_deg) * i) / last;
    return `<tr><th scope="row" class="number">${degrees(angle)}</th><td class="number">${forceOf(n)}</td><td class="number">${forceOf(hoist.hand_n[i])}</td></tr>`;
  });
  return (
    `<details><summary>The numbers</summary><table><caption>Slow lifting; forces in ${forceUnit}</caption><thead><tr><th scope="col" class="number">Angle</th>` +
    `<th scope="col" class="number">In all lines</th><th scope="col" class="number">By hand</th></tr></thead><tbody>${rows.join("")}</tbody></table></details>`
  );
};
