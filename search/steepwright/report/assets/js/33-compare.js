// Two walls side by side: a table of differences and two side views at one scale.
const compare = (() => {
  const words = { deg: (v) => degrees(Math.abs(v)) };
  const start = () => {
    const options = () => data.designs.map(({ row }) => new Option(`${row.id}: ${degrees(row.angle_deg)}, ${money(row.cost_cents)}`, row.id));
    el("compare-one").append(...options());
    el("compare-two").append(new Option("choose a second wall", ""), ...options());
    el("compare-one").addEventListener("change", (event) => choose(event.target.value));
    el("compare-two").addEventListener("change", (event) => setBeside(event.target.value));
  };

  const line = (label, a, b, difference) =>
    `<tr${difference ? "" : ' class="same"'}><th scope="row">${esc(label)}</th><td>${esc(a)}</td><td>${esc(b)}</td><td>${esc(difference || "same")}</td></tr>`;

  const measured = (one, two, now) =>
    data.measures.map((measure) => {
      const exact = (row) => (measure.key === "cost_cents" ? now.cost.get(row.id) : row[measure.key]);
      // The difference of two shares is that of the whole percents shown beside it.
      const value = measure.unit === "share" ? (row) => Math.ceil(exact(row) * 100 - 1e-9) / 100 : exact;
      const say = byUnit[measure.unit];
      const gap = Math.round((value(two) - value(one)) * 1000) / 1000;
      const size = (words[measure.unit] || say)(Math.abs(gap));
      const judged = gap > 0 === measure.more_is_better ? "better" : "worse";
      return line(measure.label, say(value(one)), say(value(two)), gap ? `${gap > 0 ? "+" : "−"}${size}, ${judged}` : "");
    });

  const worded = (one, two) =>
    [
      ["Beam, and the way to fall", (r) => `${r.beam}, to the ${falls(r.facing)}`],
      ["Board, kicker", (r) => `${long(r.board_mm)}, ${long(r.kicker_mm)}`],
      ["Sheet", (r) => `${r.sheet}, ${r.columns} × ${r.rows}`],
      ["Studs", (r) => `${r.stud_count} × ${r.stud}`],
      ["Mounts", (r) => `${r.mount_count} × ${r.mount}`],
      ["Ties", (r) => r.tie || "none"],
      ["Carried by", (r) => people(r.people)],
      ["Delivery", (r) => (r.delivered ? "needed" : "not needed")],
      ["Settled", (r) => (r.settled ? "yes" : "no")],
    ].map(([label, say]) => line(label, say(one), say(two), say(one) === say(two) ? "" : "differs"));

  const draw = (state, now, change) => {
    el("compare-one").value = state.chosen;
    el("compare-two").value = state.other;
    if (!change.first && !("chosen" in change) && !("other" in change) && !change.prices && !change.resized) return;
    const [a, b] = [views.get(state.chosen), views.get(state.other)];
    if (!b) {
      el("compare-body").innerHTML = `<p class="intro">Choose a second wall above, or with “beside” in the table.</p>`;
      return;
    }
    el("compare-body").innerHTML =
      `<div class="twins">${[a, b].map((view, i) => `<figure class="card"><h3>${esc(view.row.id)}</h3><div class="drawing" data-twin="${i}"></div></figure>`).join("")}</div>` +
      `<div class="scroll" role="region" aria-label="Comparison" tabindex="0"><table><caption>${esc(a.row.id)} and ${esc(b.row.id)}; differences are the second’s</caption><thead><tr><th scope="col">Measure</th><th scope="col">${esc(a.row.id)}</th><th scope="col">${esc(b.row.id)}</th><th scope="col">Difference</th></tr></thead><tbody>${[...measured(a.row, b.row, now), ...worded(a.row, b.row)].join("")}</tbody></table></div>`;
    const nodes = [...el("compare-body").querySelectorAll("[data-twin]")];
    const width = Math.max(240, nodes[0].clientWidth);
    [a, b].forEach((view, i) => {
      nodes[i].innerHTML = drawSide(view.side, view.row, width) + `<p class="note">${esc(sideWords(view.side, view.row))}</p>`;
    });
  };

  return { start, draw };
})();
