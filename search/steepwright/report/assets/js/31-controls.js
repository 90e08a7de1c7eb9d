// The filters, the line that says what is chosen, and what the opening says after a change.
const controls = (() => {
  const number = (id, scale = 1) => {
    const value = el(id).value.trim();
    return value === "" || Number.isNaN(Number(value)) ? null : Math.round(Number(value) * scale * 1000) / 1000;
  };
  const wish = () => ({
    angle: number("f-angle"),
    budget: number("f-budget", 100),
    fall: number("f-fall", inches ? 25.4 : 1),
    beam: el("f-beam").value,
    facing: el("f-facing").value,
    people: Number(el("f-people").value),
  });

  const start = () => {
    const beams = [...new Set(data.designs.map((view) => view.row.beam))].sort();
    el("f-beam").append(...beams.map((name) => new Option(name, name)));
    const form = el("filters");
    form.addEventListener("input", () => store.set({ wish: wish() }));
    form.addEventListener("reset", () => setTimeout(() => store.set({ wish: wish() })));
    form.addEventListener("submit", (event) => event.preventDefault());
    const step = (by) => {
      const list = store.now.order.filter((row) => store.now.kept.has(row.id));
      const here = list.findIndex((row) => row.id === store.state.chosen);
      const next = list[(here + by + list.length) % list.length];
      if (next) choose(next.id);
    };
    el("pick-previous").addEventListener("click", () => step(-1));
    el("pick-next").addEventListener("click", () => step(1));
  };

  const draw = (state, now, change) => {
    if (change.sort && Object.keys(change).length === 1) return;
    const row = views.get(state.chosen).row;
    const cost = now.cost.get(row.id);
    const first = views.get(data.answer)?.row;
    const gap = first && first.id !== row.id ? cost - now.cost.get(first.id) : 0;
    const against = first && first.id !== row.id ? `, ${gap ? money(Math.abs(gap)) : "no"} ${gap < 0 ? "less" : gap ? "more" : "difference"} ${gap ? "than" : "to"} the answer ${first.id}` : "";
    el("pick-says").innerHTML =
      `<strong>${esc(row.id)}</strong> chosen: ${degrees(row.angle_deg)}, ${money(cost)}, fall space ${clearMetres(row.fall_space_mm)}<span class="against">${esc(against)}</span>`;
    for (const node of document.querySelectorAll(".chosen-id")) node.textContent = row.id;
    const best = now.best;
    el("filter-says").textContent = best
      ? `${now.keptRows.length} of ${plural(now.rows.length, "wall")} left. The cheapest of them is ${best.id}: ${degrees(best.angle_deg)} for ${money(now.cost.get(best.id))}.`
      : `None of the ${plural(now.rows.length, "wall")} satisfies all of this. Loosen one wish.`;
  };

  // Cautions of the chosen wall stand beside the answer.
  const notes = (view) => {
    const open = checksOf(view).filter((check) => check.find_out.length);
    const reasons = [...new Set(open.flatMap((check) => check.find_out))];
    const told = reasons.map((reason) => {
      const names = open.filter((check) => check.find_out.includes(reason)).map((check) => check.name);
      return `Not settled (${names.join(", ")}): ${reason}. Have it looked at first.`;
    });
    told.push(...view.top.shortfall);
    if (view.side.folded && view.side.folded.headroom_mm < 2000) {
      told.push(`Folded up it leaves only ${long(view.side.folded.headroom_mm)} of headroom.`);
    }
    return told;
  };

  const mind = (state) => {
    const view = views.get(state.chosen);
    const told = notes(view);
    el("answer-mind").innerHTML = told.length
      ? `<h3>${esc(view.row.id)} in particular</h3><ul>${told.map((note) => `<li>${esc(note)}</li>`).join("")}</ul>`
      : "";
  };

  return { start, draw, mind, notes };
})();
