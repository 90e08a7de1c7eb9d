// The chosen wall: drawings, cut plans, bill, checks, pieces and the order of building.
const design = (() => {
  const figure = (title, cls, id, more = "") =>
    `<figure class="${cls}"><h3>${title}</h3><div class="drawing" data-draw="${id}"></div>${more}</figure>`;

  const groupNames = { sheets: "Sheets", timber: "Timber", hardware: "Hardware", pads: "Pads", charges: "Charges" };
  const billTable = (view, state, now) => {
    const unit = (line) => state.prices.get(line.sku) ?? line.unit_cents;
    const yards = [...new Set(view.bill.map((line) => line.yard).filter(Boolean))];
    const rows = Object.keys(groupNames).flatMap((group) => {
      const lines = view.bill.filter((line) => line.group === group);
      if (!lines.length) return [];
      const sum = lines.reduce((total, line) => total + unit(line) * line.quantity, 0);
      return [
        `<tr class="group"><th scope="rowgroup" colspan="3">${groupNames[group]}</th><td class="number">${amount(sum)}</td></tr>`,
        ...lines.map(
          (line) =>
            `<tr><td>${esc(capital(line.what))}${yards.length > 1 ? yardNote(line) : ""}</td><td class="number">${line.quantity}</td>` +
            `<td class="number">${amount(unit(line))}</td><td class="number">${amount(unit(line) * line.quantity)}</td></tr>`,
        ),
      ];
    });
    const from = yards.length === 1 ? `, all from ${esc(yards[0])}` : "";
    return (
      `<div class="scroll" role="region" aria-label="Bill" tabindex="0"><table class="bill"><caption>Everything to buy, in ${esc(data.currency)}${from}${state.prices.size ? ", at your prices" : ""}</caption>` +
      `<thead><tr><th scope="col">Article</th><th scope="col" class="number">Buy</th><th scope="col" class="number">Each</th><th scope="col" class="number">Amount</th></tr></thead>` +
      `<tbody>${rows.join("")}<tr class="total"><th scope="row" colspan="3">Total</th><td class="number" data-total>${amount(now.cost.get(view.row.id))}</td></tr></tbody></table></div>` +
      notInSum(view.row) +
      openItems(view)
    );
  };

  const stateWords = { holds: "✓ holds", close: "! close to its limit", fails: "✗ fails", "not settled": "? not settled", "not loaded": "– not loaded here" };
  const checkBar = (check) => {
    const cls = { "not settled": "unsettled", "not loaded": "idle" }[check.state] || check.state;
    const use = check.state === "not loaded" ? "" : `, ${percent(check.use)}`;
    const numbers = check.state === "not loaded" || !check.unit ? "" : `${check.demand} of ${check.capacity} ${esc(check.unit)} · `;
    return (
      `<li class="${cls}"><div class="bar-head"><strong>${esc(capital(check.name))}</strong><span>${stateWords[check.state]}${use}${check.governs ? " – the tightest" : ""}</span></div>` +
      `<div class="track" aria-hidden="true"><i style="width:${Math.min(100, check.use * 100).toFixed(1)}%"></i></div>` +
      `<p class="note">${numbers}${esc(check.clause)}<br>${esc(capital(check.assumption))}</p></li>`
    );
  };
  const checkSays = (checks) => {
    const number = (state) => checks.filter((check) => check.state === state).length;
    const told = [
      number("fails") ? `${number("fails")} fail` : "none fails",
      ...(number("not settled") ? [`${number("not settled")} can’t be settled, because something is unknown`] : []),
    ];
    const { name, use } = checks[0];
    return `<p>${plural(checks.length, "check")}: ${told.join(", ")}. Nearest to its limit is ${esc(name)}, at ${percent(use)} of what it can bear.</p>`;
  };
  // The tight, failing and open ones stand open; the rest, however many, are one click away.
  const checkBars = (view) => {
    const checks = checksOf(view);
    const open = checks.filter((check, i) => i < 6 || check.state === "fails" || check.state === "not settled");
    const rest = checks.filter((check) => !open.includes(check));
    const list = (checks) => `<ul class="bars">${checks.map(checkBar).join("")}</ul>`;
    const most = rest.length ? percent(rest[0].use) : "";
    return checkSays(checks) + list(open) + (rest.length ? `<details><summary>${plural(rest.length, "more check")}, none above ${most}</summary>${list(rest)}</details>` : "");
  };

  const liftTable = (view) =>
    `<div class="scroll" role="region" aria-label="Pieces" tabindex="0"><table class="lifts${inches ? " stacked" : ""}"><caption>Marks as on the cut plan; sizes in ${unitWords}, mass of one piece</caption><thead><tr><th scope="col">Mark</th><th scope="col"><span class="piece">Piece</span> Size</th><th scope="col" class="number">Pieces</th><th scope="col" class="number">${massUnit}</th><th scope="col">Carried by</th></tr></thead><tbody>${pieceRows(view)
      .map((x) => `<tr><th scope="row">${esc(x.mark)}</th><td><span class="piece">${esc(x.name)}</span> <span class="size">${x.size}</span></td><td class="number">${x.count}</td><td class="number">${massOf(x.mass_kg)}</td><td>${people(x.people)}</td></tr>`)
      .join("")}</tbody></table></div>`;

  const stepList = (view) =>
    `<ol class="steps">${view.steps
      .map((step) => {
        const load = step.mass_kg ? ` <span class="note">${heavy(step.mass_kg)}, ${people(step.people)}</span>` : ` <span class="note">${people(step.people)}</span>`;
        return `<li><strong>${esc(step.title)}.</strong> ${esc(step.text)} ${esc(step.detail)}${load}</li>`;
      })
      .join("")}</ol>`;

  const notes = (view) =>
    view.notes.map((part) => `<div><h4>${esc(part.title)}</h4><ul>${part.lines.map((line) => `<li>${esc(capital(line))}</li>`).join("")}</ul></div>`).join("");

  const sheetFigures = (view) =>
    `<div class="sheet-list">${view.sheets
      .map(
        (sheet, i) =>
          `<figure><h4>${sheet.count} × ${esc(sheet.what)}</h4><div class="drawing" data-draw="sheet-${i}"></div>${sawOrder(sheet)}<p class="note">${Math.floor(sheet.used * 100)} % ends up in the wall; kerf ${long(sheet.kerf_mm)}</p></figure>`,
      )
      .join("")}</div>`;

  const levels = (front) =>
    new Set(front.hung_mm).size > 1 ? ` The beam is out of level: the pivots hang ${front.hung_mm.map(long).join(", ")} below it, from the left.` : "";

  const describe = (row) =>
    `Hangs from ${esc(beamWords(row.beam))}; the climber falls to the ${falls(row.facing)}, as seen in the side view. ` +
    `The board is ${plural(row.columns * row.rows, "piece")} of ${esc(row.sheet)} on ${row.stud_count} studs of ${esc(row.stud)}, hung by ${row.mount_count} × ${esc(row.mount)}${row.tie ? `, its studs tied back by ${esc(row.tie)}` : ""}.` +
    `${row.delivered ? " The yard delivers." : ""}`;

  const topNotes = (view) =>
    `<p class="note">Pads: ${long(view.top.asked_mat_mm)} thick over the dashed area is what the guidance for public walls asks for; no source speaks of small walls at home. ${view.top.laid.length ? "The filled outlines are the pads to lay. " : ""}Way past the wall: ${long(view.top.passage_mm)}.</p>` +
    (view.top.shortfall.length ? `<ul class="flagged">${view.top.shortfall.map((text) => `<li>${esc(text)}</li>`).join("")}</ul>` : "");

  const html = (view, state, now) =>
    `<div class="headline"><h2 id="design-title">${esc(view.row.id)}: ${degrees(view.row.angle_deg)} for ${money(now.cost.get(view.row.id))}</h2></div>` +
    `<p class="intro">${describe(view.row)}</p>` +
    `<div class="drawings">` +
    figure("From the side", "", "side", `<p class="note">${esc(sideWords(view.side, view.row))}</p>`) +
    figure("The face", "half", "front", `<p class="note">○ free hold position, × blocked: a bar lies behind. Dashed: bars behind the sheets. Numbers are ${unitWords} from the climber’s left edge: holds above, stud centres below; at the right, rows of holds measured up the board.${levels(view.front)}</p>`) +
    `<div class="stack">${figure("The floor", "", "top", topNotes(view))}` +
    `<div class="card"><h3>Pieces to lift and carry</h3>${liftTable(view)}</div></div>` +
    `<figure><h3>Cutting the sheets</h3>${sheetFigures(view)}</figure>` +
    figure("Cutting the bars", "", "bars", `<p class="note">Saw from the left, kerf ${long(view.bars[0] ? view.bars[0].kerf_mm : 0)}: the mark, the piece, its length in ${unitWords}. What is left over is grey.</p>`) +
    `<div class="card half"><h3>The bill</h3>${billTable(view, state, now)}</div>` +
    `<div class="card half"><h3>What it can bear</h3>${checkBars(view)}</div>` +
    `<div class="card"><h3>The order of building</h3>${stepList(view)}</div>` +
    (view.hoist ? figure("Lifting it out of the way", "lifting", "hoist", `<div><p>${esc(hoistWords(view.hoist, view.side))}</p>${hoistTable(view.hoist)}</div>`) : "") +
    (view.notes.length ? `<div class="card"><h3>Before you spend money</h3><div class="parts">${notes(view)}</div></div>` : "") +
    `</div>`;

  const drawing = {
    side: (view, width) => drawSide(view.side, view.row, width),
    front: (view, width) => {
      const shown = frontWidth(view.front, width, 620);
      return `<div class="centred" style="width:${shown}px">${drawFront(view.front, view.row, shown)}</div>`;
    },
    top: (view, width) => drawTop(view.top, view.row, width),
    sheet: (view, width, index) => {
      const sheet = view.sheets[index];
      const shown = Math.min(width, Math.round(58 + (340 * sheet.length_mm) / sheet.width_mm));
      return `<div style="width:${shown}px">${drawSheet(sheet, shown)}</div>`;
    },
    bars: (view, width) => drawBars(view.bars, width),
    hoist: (view, width) => drawHoist(view, width),
  };
  // All widths are read before anything is drawn, so that the browser lays the page out once.
  const drawIn = (root, view) => {
    const nodes = [...root.querySelectorAll("[data-draw]")];
    const widths = nodes.map((node) => Math.max(240, node.clientWidth));
    nodes.forEach((node, i) => {
      const [name, index] = node.dataset.draw.split("-");
      node.innerHTML = drawing[name](view, widths[i], index);
    });
  };

  const draw = (state, now, change) => {
    if (!change.first && !("chosen" in change) && !change.prices && !change.resized) return;
    const view = views.get(state.chosen);
    el("design-body").innerHTML = html(view, state, now);
    drawIn(el("design-body"), view);
  };

  return { draw, drawIn, billTable, checkBars, liftTable, stepList, notes };
})();
