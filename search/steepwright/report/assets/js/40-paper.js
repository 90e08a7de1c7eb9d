// The building sheets: made when the browser is about to print, taken away afterwards.
const paper = (() => {
  const across = 700; // CSS pixels in 185 mm, the narrower of A4 and Letter between the margins
  const leaf = (title, row, body) =>
    `<section class="leaf"><header><p><strong>${esc(row.id)}</strong> · ${esc(data.room.name)} · ${degrees(row.angle_deg)} · ${money(store.now.cost.get(row.id))}</p>` +
    `<p>A plan, not an approval. Local codes and a licensed engineer come first.</p></header><h2>${title}</h2>${body}</section>`;

  const table = (heads, rows) =>
    `<table><thead><tr>${heads.map(([name, cls]) => `<th scope="col" class="${cls || ""}">${name}</th>`).join("")}</tr></thead>` +
    `<tbody>${rows.map((cells) => `<tr>${cells.map((cell, i) => `<td class="${heads[i][1] || ""}">${cell}</td>`).join("")}</tr>`).join("")}</tbody></table>`;

  const summary = (view, now) => {
    const { row, top } = view;
    const facts = [
      ["Cost of everything on the list", money(now.cost.get(row.id))],
      ["Overhang angle, from the vertical", degrees(row.angle_deg)],
      ["Board, width, kicker", `${lengthOf(row.board_mm)} × ${long(row.width_mm)}, ${long(row.kicker_mm)}`],
      ["Fall space in front of the lip", `${long(row.fall_space_mm)} (guidance ${long(row.asked_front_mm)})`],
      ["Clear floor at the sides", `${long(top.left_mm)} and ${long(top.right_mm)} (guidance ${long(top.asked_side_mm)})`],
      ["Floor run, lip above the floor", `${long(row.floor_run_mm)}, ${long(row.lip_height_mm)}`],
      ["Beam, and the way to fall", `${row.beam}, to the ${falls(row.facing)}`],
      ["Mass of sheets, frame and fittings", masses(row)],
      ["Tightest check", `${row.governing_check}, ${percent(row.use)}`],
    ].map(([name, value]) => [esc(name), `<strong>${esc(value)}</strong>`]);
    const notes = controls.notes(view).concat(data.cautions);
    return leaf(
      "What is to be built",
      row,
      `<div class="caution-box"><ul>${notes.map((note) => `<li>${esc(note)}</li>`).join("")}</ul></div>` +
        drawSide(view.side, row, across) +
        `<div class="facts-plan"><div class="dense">${table([["Measure"], ["This wall"]], facts)}</div><div><h3>The floor</h3>${drawTop(top, row, across * 0.46)}<p class="note">Dashed: pads, ${long(top.asked_mat_mm)} thick by the guidance for public walls.</p></div></div>`,
    );
  };

  const elsewhere = (view) => {
    const rows = view.open.map((item) => ["☐", item.count, esc(item.what), esc(item.why)]);
    return rows.length ? `<h3>${openTitle}</h3>${table([["", "tick"], ["Get", "number"], ["What"], ["For"]], rows)}` : "";
  };

  const shopping = (view, state, now) => {
    const yards = [...new Set(view.bill.map((line) => line.yard))].sort((a, b) => (a === "") - (b === "") || a.localeCompare(b));
    const heading = (yard) => yard || (view.bill.some((line) => !line.yard && line.group !== "charges") ? "Your own stock, and charges" : "Charges");
    const parts = yards.map((yard) => {
      const lines = view.bill.filter((line) => line.yard === yard);
      const unit = (line) => state.prices.get(line.sku) ?? line.unit_cents;
      const sum = lines.reduce((total, line) => total + unit(line) * line.quantity, 0);
      const rows = lines.map((line) => ["☐", line.quantity, esc(capital(line.what)), esc(line.sku), amount(unit(line)), amount(unit(line) * line.quantity)]);
      rows.push(["", "", "<strong>Sum</strong>", "", "", `<strong>${amount(sum)}</strong>`]);
      return `<h3>${esc(heading(yard))}</h3>${table([["", "tick"], ["Buy", "number"], ["Article"], ["Number"], ["Each", "number"], ["Amount", "number"]], rows)}`;
    });
    const { name, date, note } = data.catalog;
    return leaf(
      "Shopping list",
      view.row,
      `<p>Prices in ${esc(data.currency)} from ${esc(name)} ${esc(date)}${state.prices.size ? ", some changed by hand" : ""}. ${esc(capital(note))}${note ? "." : ""} Holds${view.row.pads_on_bill ? "" : " and pads"} are not on the list.</p>${parts.join("")}` +
        `<p class="sum">Total ${money(now.cost.get(view.row.id))}</p>${notInSum(view.row)}${elsewhere(view)}`,
    );
  };

  const sheetWidth = (sheet) => Math.min(across * 0.64, 58 + (330 * sheet.length_mm) / sheet.width_mm);

  // What comes from these sheets, each kind of piece once.
  const pieceTable = (view, sheets) => {
    const count = (mark) => sheets.reduce((sum, sheet) => sum + sheet.count * sheet.parts.filter((part) => part.mark === mark).length, 0);
    const pieces = pieceRows(view).filter((x) => x.kind === "sheet" && count(x.mark));
    return table(
      [["", "tick"], ["Mark"], ["Piece"], ["Pieces", "number"], [`Size${inMm}`], [`${massUnit} each`, "number"]],
      pieces.map((x) => ["☐", `<strong>${esc(x.mark)}</strong>`, esc(x.name), count(x.mark), x.size, massOf(x.mass_kg)]),
    );
  };

  const atHome = (sheet) => sheet.sku.startsWith("offcut-") || (sheet.cuts.length > 0 && sheet.cuts.every((cut) => cut.home));
  const sheetBlock = (sheet) =>
    `<div class="block"><h3>${sheet.count} × ${esc(capital(sheet.what))} <span class="note">${esc(sheet.sku)}</span></h3><div class="beside-order"><div style="width:${Math.round(sheetWidth(sheet))}px">${drawSheet(sheet, sheetWidth(sheet))}</div>${sawOrder(sheet)}</div></div>`;
  const sheetBlocks = (view, sheets) => sheets.map(sheetBlock).join("") + `<div class="block"><h3>Pieces of sheet</h3>${pieceTable(view, sheets)}</div>`;
  const howToSaw = (kerf) =>
    `Every cut runs from edge to edge of what is on the saw, in the numbered order. Kerf ${long(kerf)}. Sizes in ${unitWords} as laid on the sheet, finished: the kerf lies outside the piece. Saw each to within ${long(data.saw_tolerance_mm)}. The sheet’s own edges stay on: a piece at an edge keeps it, and nothing is trimmed off before. If a sheet is smaller than drawn or an edge is damaged, ask before sawing.`;

  const cutSheets = (view) => {
    const sheets = view.sheets.filter((sheet) => !atHome(sheet));
    if (!sheets.length) return "";
    const cuts = sheets.reduce((sum, sheet) => sum + sheet.count * sheet.cuts.filter((cut) => !cut.home).length, 0);
    return leaf(
      "Cut sheet for the shop’s saw",
      view.row,
      `<p>${plural(cuts, "cut")} to be made at the shop. ${howToSaw(sheets[0].kerf_mm)} Please write the letter on each piece; what is left over goes with the customer.</p>${sheetBlocks(view, sheets)}`,
    );
  };

  const sawing = (view) => {
    const sheets = view.sheets.filter(atHome);
    return leaf(
      "Sawing at home",
      view.row,
      (sheets.length ? `<p>${howToSaw(sheets[0].kerf_mm)}</p>${sheetBlocks(view, sheets)}` : "") +
        `<h3>Bars</h3><p>Saw from the left, kerf ${long(view.bars[0] ? view.bars[0].kerf_mm : 0)}; write the mark on each piece. Grey is left over.</p>${drawBars(view.bars, across)}`,
    );
  };

  // A bar that shows the scale of the print: 100 mm, and 4 in where the room is in inches.
  const ruler = (name, long_mm, ticks, tall) => {
    const marks = Array.from({ length: ticks + 1 }, (_, i) => {
      const x = Math.round((10 + (i * long_mm) / ticks) * 1000) / 1000;
      return `<line x1="${x}" y1="${i % tall ? 5 : 3}" x2="${x}" y2="9"/>`;
    });
    return `<svg class="control" width="120mm" height="12mm" viewBox="0 0 120 12" role="img"><title>A bar of exactly ${name}</title><rect x="10" y="6" width="${long_mm}" height="3"/>${marks.join("")}</svg>`;
  };
  const controlBar = () =>
    ruler("100 mm", 100, 10, 5) +
    (inches ? ruler("4 in", 101.6, 16, 4) : "") +
    `<p class="note">Measure ${inches ? "these bars: they are 100 mm and 4 in long" : "this bar: it is 100 mm long"} if the sheet was printed at 100 %.</p>`;

  const frame = (view) => {
    const { front, row } = view;
    const shown = frontWidth(front, across, 430);
    const scale = Math.round(front.width_mm / ((shown - frontSides[0] - frontSides[1]) * (25.4 / 96)));
    const { holds } = front;
    const list = (values) => values.map((value) => lengthOf(Math.round(value))).join(", ");
    const blocked = holds.blocked.map(([i, j]) => `${lengthOf(holds.y_mm[i])}${inches ? " / " : "/"}${lengthOf(holds.v_mm[j] - front.kicker_mm)}`).join(", ");
    return leaf(
      "Frame and drilling",
      row,
      `${controlBar()}<div class="centred" style="width:${shown}px">${drawFront(front, row, shown)}</div><p class="note">About 1 : ${scale}. Don’t take sizes off the drawing; use the numbers.</p>` +
        table(
          [["From where"], [`Distances in ${unitWords}`]],
          [
            ["Stud centres from the left edge", list(front.stud_centres_mm)],
            ["Mounts from the left edge", list(front.mounts_y_mm)],
            ["Each pivot below the beam’s underside there", list(front.hung_mm)],
            ["Columns of holds from the left edge", list(holds.y_mm)],
            ["Rows of holds up the board from its lower end", list(holds.v_mm.map((v) => v - front.kicker_mm))],
            ["Don’t drill (across/up): a bar lies behind", blocked || "none"],
            ["Holes for T-nuts", `${lengthOf(data.tnut_hole_mm)} in diameter; try one in an offcut first`],
          ],
        ),
    );
  };

  const building = (view) =>
    leaf("Order of building", view.row, `${design.stepList(view)}<h3>Pieces to lift and carry</h3>${design.liftTable(view)}${view.hoist ? `<h3>Lifting it out of the way</h3><p>${esc(hoistWords(view.hoist, view.side))}</p>` : ""}${design.notes(view)}`);

  // Assumptions repeat from check to check: each is told once and referred to by its number.
  const engineer = (view) => {
    const notes = [];
    const number = (text) => {
      if (!notes.includes(text)) notes.push(text);
      return notes.indexOf(text) + 1;
    };
    const refer = (check) => check.assumption.split("; ").filter(Boolean).map(number).join(", ");
    const heads = [["Check"], ["Clause"], ["Demand", "number"], ["Capacity", "number"], ["Unit"], ["Use", "number"], ["State"], ["Rests on"]];
    const rows = checksOf(view).map((check) => [esc(capital(check.name)), esc(check.clause), check.demand, check.capacity, esc(check.unit), percent(check.use), check.state, refer(check)]);
    const given = data.assumptions.map((text) => `<li>${esc(text)}</li>`).join("");
    return leaf(
      "Check sheet for an engineer",
      view.row,
      `<div class="dense"><p>Computed by steepwright; nobody has checked it. Sizes in ${unitWords}.</p>` +
        `<div class="as-built">${table([["Part"], ["As planned"]], asBuilt(view).map(([name, value]) => [esc(name), esc(value)]))}<div>${drawSide(view.side, view.row, 330)}</div></div>` +
        table(heads, rows) +
        `<div class="signs"><p class="remarks">Remarks</p><p>Looked at by</p><p>Date</p></div>` +
        `<h3>What each check rests on</h3><ol class="rests">${notes.map((text) => `<li>${esc(text)}</li>`).join("")}</ol><h3>What all of it rests on</h3><ul class="rests">${given}</ul></div>`,
    );
  };

  // What an engineer would take off the drawings to check the sums.
  const asBuilt = (view) => {
    const { front, row, side } = view;
    const { climber } = data.room;
    const list = (values) => values.map((value) => lengthOf(Math.round(value))).join(", ");
    const force = Math.round(climber.mass_kg * 9.81 * climber.dynamic_factor);
    return [
      ["Board", `${lengthOf(row.board_mm)} × ${long(row.width_mm)}, ${degrees(row.angle_deg)} from the vertical, kicker ${long(row.kicker_mm)}`],
      ["Sheet", `${row.sheet}, ${row.columns} × ${row.rows} pieces${front.seams_v_mm.length ? `, seam ${list(front.seams_v_mm.map((v) => v - front.kicker_mm))} up the board` : ""}`],
      ["Studs", `${row.stud_count} × ${row.stud}, centres ${list(front.stud_centres_mm)} from the left edge`],
      ["Mounts", `${row.mount_count} × ${row.mount}, at ${list(front.mounts_y_mm)} from the left edge, pivots ${list(front.hung_mm)} below its underside`],
      ...(row.tie ? [["Ties", `${row.tie}, from the middle of each stud, taut`]] : []),
      ["Hung from", hungFrom(data.room.beams.find((one) => one.name === row.beam))],
      ["In the room", `lip x = ${lengthOf(side.lip_mm[0])}, z = ${lengthOf(side.lip_mm[1])}; pivot x = ${lengthOf(side.pivot_mm[0])}, z = ${lengthOf(side.pivot_mm[1])}`],
      ["Mass", `${masses(row)}, holds and fittings included`],
      ...atOneMount(view),
      ["Climbers", `${climber.climbers} × ${heavy(climber.mass_kg)} × ${climber.dynamic_factor} (dynamic factor): ${pull(force)} each, anywhere on the board`],
    ];
  };

  const atOneMount = (view) => {
    const load = checksOf(view).find((check) => check.name === "mount working load");
    return load ? [["One mount", `bears up to ${load.demand} ${load.unit} by itself, all climbers and its share of the weight, without partial factors`]] : [];
  };

  const hungFrom = (beam) => {
    const known = (value, say) => (value === null || value === undefined ? "unknown" : say(value));
    const lineLoad = (value) => (inches ? `${Math.floor((value * 0.3048) / 4.4482216152605 + 0.5)} lbf/ft` : `${value} N/m`);
    const words = capital(beam.words);
    if (beam.kind === "slab") return `${words}: concrete, ${long(beam.depth_mm)} thick; an anchor is rated for ${known(beam.anchor_rated_n, pull)}`;
    const lining = beam.lining_mm ? `, under ${long(beam.lining_mm)} of lining` : "";
    return `${words}: ${lengthOf(beam.width_mm)} × ${long(beam.depth_mm)}, span ${long(beam.span_mm)}, grade ${beam.grade || "unknown"}, carries ${known(beam.existing_load_n_per_m, lineLoad)} already${lining}`;
  };

  const others = (view, now) => {
    const ids = new Set([...now.stair.map((row) => row.id), view.row.id]);
    const rows = now.rows.filter((row) => ids.has(row.id)).sort((a, b) => a.angle_deg - b.angle_deg);
    const heads = [["Wall"], ["Angle", "number"], ["Cost", "number"], [`Fall${inMm}`, "number"], [massUnit, "number"], ["Used", "number"], ["Hung from"]];
    const cells = (row) => [row.id === view.row.id ? `<strong>${row.id}</strong>` : row.id, degrees(row.angle_deg), amount(now.cost.get(row.id)), lengthOf(row.fall_space_mm), massOf(row.mass_kg), percent(row.use), esc(row.beam)];
    const half = Math.ceil(rows.length / 2);
    const parts = rows.length > 8 ? [rows.slice(0, half), rows.slice(half)] : [rows];
    return leaf(
      "The stair of cost against angle",
      view.row,
      `<div class="paper-chart chart"><div id="paper-stair"></div></div><div class="paper-chart chart"><div id="paper-lines"></div></div><p>Above: cost against angle, with the fall space at the marks. Below: every measure, better to the right. ${esc(view.row.id)} is ringed and drawn thick.</p>` +
        `<div class="dense halves">${parts.map((part) => table(heads, part.map(cells))).join("")}</div>`,
    );
  };

  // The foot of every page, continued ones too: a style of its own, because only the page knows it.
  const foot = document.createElement("style");
  const footText = (row) => `${row.id} · ${data.room.name} · a plan, not an approval`.replace(/["\\\n<]/g, " ");

  const make = () => {
    const { state, now } = store;
    const view = views.get(state.chosen);
    document.documentElement.classList.add("printing");
    el("sheets").innerHTML = [summary(view, now), shopping(view, state, now), cutSheets(view), sawing(view), frame(view), building(view), engineer(view), others(view, now)].join("");
    charts.print("stair", el("paper-stair"), across - 20, 235);
    charts.print("lines", el("paper-lines"), across - 20, 275);
    foot.textContent = `@page { @bottom-left { content: "${footText(view.row)}"; } }`;
    document.head.append(foot);
  };

  const clear = () => {
    for (const id of ["paper-stair", "paper-lines"]) if (el(id)) Plotly.purge(el(id));
    el("sheets").replaceChildren();
    foot.remove();
    document.documentElement.classList.remove("printing");
  };

  const start = () => {
    window.addEventListener("beforeprint", make);
    window.addEventListener("afterprint", clear);
    el("print").addEventListener("click", () => window.print());
  };
  return { start, make, clear };
})();
