// Re-pricing on the page: unit prices in, costs and front out, and how far that can be trusted.
const priceTable = (() => {
  const start = () => {
    const body = el("price-table").tBodies[0];
    body.innerHTML = data.prices
      .map(
        (line) =>
          `<tr data-sku="${esc(line.sku)}"><th scope="row">${esc(capital(line.what))}${yardNote(line)}</th><td class="number">${amount(line.unit_cents)}</td>` +
          `<td class="number"><input type="text" inputmode="decimal" autocomplete="off" value="${amount(line.unit_cents)}" aria-label="Your price for ${esc(line.what)}"></td><td class="number used"></td></tr>`,
      )
      .join("");
    el("prices-all").addEventListener("change", () => draw(store.state, store.now, { first: true }));
    body.addEventListener("input", (event) => {
      const value = cents(event.target.value);
      event.target.setAttribute("aria-invalid", String(value === null));
      if (value === null) {
        say(store.state, store.now);
        return;
      }
      const sku = event.target.closest("tr").dataset.sku;
      const prices = new Map(store.state.prices);
      if (value === model.listed.get(sku)) prices.delete(sku);
      else prices.set(sku, value);
      store.set({ prices });
    });
    el("prices-reset").addEventListener("click", () => {
      for (const input of body.querySelectorAll("input")) {
        input.value = amount(model.listed.get(input.closest("tr").dataset.sku));
        input.removeAttribute("aria-invalid");
      }
      store.set({ prices: new Map() });
    });
  };

  const trust = (state, now) => {
    if (!state.prices.size) return "No price changed: everything on this page is at the yard’s prices.";
    const head = `${plural(state.prices.size, "price")} changed; ${now.front.size} of ${plural(now.rows.length, "wall")} still ${now.front.size === 1 ? "is" : "are"} unbeaten by another on this page.`;
    if (!data.exact) return `${head} Walls that are not on this page may be cheaper: this search was not exact.`;
    const angle = state.wish.angle ?? data.target_angle_deg ?? 0;
    const steep = now.rows.filter((row) => row.angle_deg >= angle);
    const best = model.cheapest(steep, now.cost);
    if (!best) return head;
    const before = Math.min(...steep.map((row) => now.listedCost.get(row.id)));
    const floor = Math.ceil(model.leastRatio(state.prices) * before - 1e-9);
    const cost = now.cost.get(best.id);
    const where = angle ? `of ${angle}° or more` : "of any angle";
    if (cost <= floor) return `${head} ${best.id} is still the cheapest wall ${where}, on this page or not: ${money(cost)}.`;
    return (
      `${head} The cheapest here ${where} is now ${best.id} for ${money(cost)}. Walls that are not on this page could win at these prices, but none ${where} can cost less than ${money(floor)}: ` +
      `a new search with these prices can save at most ${money(cost - floor)}.`
    );
  };

  const draw = (state, now, change) => {
    if (!change.first && !change.prices && !("chosen" in change) && !change.wish) return;
    const all = el("prices-all").checked;
    const quantity = new Map(views.get(state.chosen).bill.map((line) => [line.sku, line.quantity]));
    for (const line of el("price-table").tBodies[0].rows) {
      line.querySelector(".used").textContent = quantity.has(line.dataset.sku) ? `× ${quantity.get(line.dataset.sku)}` : "–";
      line.classList.toggle("changed", state.prices.has(line.dataset.sku));
      const asked = quantity.has(line.dataset.sku) || state.prices.has(line.dataset.sku) || line.contains(document.activeElement);
      line.hidden = !all && !asked;
    }
    say(state, now);
  };

  const say = (state, now) => {
    const wrong = el("price-table").querySelector('[aria-invalid="true"]');
    el("prices-say").classList.toggle("bad", Boolean(wrong));
    el("prices-say").textContent = wrong
      ? `“${wrong.value}” is no amount like 12.90; the price before it still counts.`
      : trust(state, now);
  };

  // The opening was written at the yard's prices and says so as soon as they are not the page's.
  const moved = (state, now, change) => {
    if (!change.prices && !change.wish) return;
    el("answer-moved").hidden = !state.prices.size;
    el("answer-moved").textContent = state.prices.size ? `The figures of this opening are at the yard’s prices. ${trust(state, now)}` : "";
  };

  return { start, draw, moved };
})();
