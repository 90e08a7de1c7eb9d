// Cut plans: every sheet with its pieces and cuts, every bar with its pieces.
const drawSheet = (sheet, width) => {
  const u = sheet.length_mm / (width - 58);
  const up = (y) => sheet.width_mm - y;
  const out = [svg.rect("waste", 0, 0, sheet.length_mm, sheet.width_mm)];
  for (const part of sheet.parts) {
    const [w, h] = [part.length_mm, part.width_mm];
    out.push(svg.rect("sheet", part.x_mm, up(part.y_mm + h), w, h));
    const [x, y] = [part.x_mm + w / 2, up(part.y_mm + h / 2)];
    if (part.up && Math.min(w, h) > 110 * u) out.push(sheetUp(part, up, u));
    const sides = `${lengthOf(w)} × ${lengthOf(h)}`;
    const turn = w < 90 * u && h > w ? -90 : 0;
    const room = turn ? w : h;
    if (room > 40 * u) {
      const shift = 11 * u;
      out.push(svg.text(part.mark, turn ? x - shift + 4 * u : x, turn ? y : y - shift + 5 * u, 18 * u, { turn, cls: "sheet-text bare" }));
      out.push(svg.text(sides, turn ? x + shift : x, turn ? y : y + shift + 3 * u, 12 * u, { turn, cls: "bare" }));
    } else {
      out.push(svg.text(`${part.mark}  ${sides}`, turn ? x + 4 * u : x, turn ? y : y + 4 * u, 11 * u, { turn, cls: "sheet-text bare" }));
    }
  }
  sheet.cuts.forEach((cut, index) => out.push(...sheetCut(cut, index + 1, up, u)));
  const base = sheet.width_mm;
  out.push(svg.dim(0, base + 16 * u, sheet.length_mm, base + 16 * u, lengthOf(sheet.length_mm), u, { side: 1 }));
  out.push(svg.dim(-14 * u, base, -14 * u, 0, lengthOf(sheet.width_mm), u));
  const title =
    `${sheet.what}, ${plural(sheet.count, "sheet")}: ` +
    sheet.parts.map((part) => `${part.mark} ${lengthOf(part.length_mm)} × ${lengthOf(part.width_mm)}`).join(", ") +
    `${inches ? "" : " mm"}, freed by ${plural(sheet.cuts.length, "cut")}.`;
  return svg.wrap([-36 * u, -16 * u, sheet.length_mm + 58 * u, base + 54 * u], title, out.join(""));
};

// Which way a piece of the board will point once it hangs.
const sheetUp = (part, up, u) => {
  const [x, y] = [part.x_mm + 16 * u, up(part.y_mm + 14 * u)];
  const tip = part.up === "x" ? [x + 30 * u, y] : [x, y - 30 * u];
  const [tx, ty] = part.up === "x" ? [x + 36 * u, y + 4 * u] : [x + 8 * u, y - 22 * u];
  return svg.arrow("upward", x, y, ...tip, 6 * u) + svg.text("up the wall", tx, ty, 11 * u, { anchor: "start", cls: "bare soft-on" });
};

const sheetCut = (cut, number, up, u) => {
  const [a, b] = cut.along_mm;
  const ends = cut.axis === "x" ? [cut.at_mm, up(a), cut.at_mm, up(b)] : [a, up(cut.at_mm), b, up(cut.at_mm)];
  const [x, y] = cut.axis === "x" ? [cut.at_mm, up(a + (b - a) * 0.22)] : [a + (b - a) * 0.72, up(cut.at_mm)];
  return [
    svg.line("cut", ...ends),
    svg.circle("badge", x, y, 8.5 * u),
    svg.text(String(number), x, y + 4 * u, 11 * u, { cls: "badge-text bare" }),
  ];
};

const sawOrder = (sheet) => {
  if (!sheet.cuts.length) return `<p class="note">No cut: the sheet is used whole.</p>`;
  const rows = sheet.cuts.map((cut, i) => {
    const way = cut.across ? "across the length" : "along the length";
    const block = cut.block_mm[0] ? `, on the part that begins at ${lengthOf(cut.block_mm[0])}` : "";
    return `<li><b>${i + 1}</b>Saw ${way}, fence at <strong>${long(cut.distance_mm)}</strong>${block}${cut.home ? " <em>(at home)</em>" : ""}</li>`;
  });
  return `<ol class="saw">${rows.join("")}</ol>`;
};

// Every kind of piece once, to tick off as it comes from the saw.
const pieceName = (name) => name.replace(/ \d+ x \d+$/, "");
const pieceRows = (view) =>
  view.lifts.map((x) => {
    const [length, width, thickness] = [x.length_mm, x.width_mm, x.thickness_mm].map((mm) => lengthOf(mm).replace(/ /g, "\u00a0"));
    const size = x.kind === "sheet" ? `${length} × ${width} × ${thickness}` : `${length} of ${thickness} × ${width}`;
    return { ...x, name: pieceName(x.name), size };
  });

const drawBars = (bars, width) => {
  const longest = Math.max(...bars.map((bar) => bar.stock_mm));
  const u = longest / (width - 8);
  const step = 62 * u;
  const out = [];
  bars.forEach((bar, index) => {
    const y = index * step;
    out.push(svg.text(`${bar.count} × ${bar.what}`, 0, y + 14 * u, 12 * u, { anchor: "start" }));
    out.push(svg.text(bar.rest_mm ? `rest ${lengthOf(bar.rest_mm)}` : "no rest", longest, y + 14 * u, 11 * u, { anchor: "end", cls: "soft" }));
    out.push(svg.rect("waste", 0, y + 20 * u, bar.stock_mm, 24 * u));
    for (const piece of bar.pieces) {
      out.push(svg.rect("sheet", piece.at_mm, y + 20 * u, piece.length_mm, 24 * u));
      const labels = [`${piece.mark}  ${piece.name}  ${lengthOf(piece.length_mm)}`, `${piece.mark}  ${lengthOf(piece.length_mm)}`, piece.mark];
      const label = labels.find((one) => piece.length_mm > (one.length * 6.8 + 8) * u);
      if (label) out.push(svg.text(label, piece.at_mm + piece.length_mm / 2, y + 36 * u, 11.5 * u, { cls: "bare sheet-text" }));
    }
  });
  const title = bars
    .map((bar) => `${bar.count} × ${long(bar.stock_mm)} into ${bar.pieces.map((p) => `${p.mark} ${lengthOf(p.length_mm)}`).join(", ")}`)
    .join("; ");
  return svg.wrap([-4 * u, 0, longest + 8 * u, bars.length * step], `Bars: ${title}.`, out.join(""));
};
