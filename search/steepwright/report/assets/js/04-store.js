// The one state of the page. Every part draws itself from it and changes it only through `set`.
const store = (() => {
  const rows = data.designs.map((view) => view.row);
  const listedCost = model.costs(new Map());
  const state = {
    chosen: data.answer || (rows[0] ? rows[0].id : ""),
    other: "",
    wish: { angle: null, budget: null, fall: null, beam: "", facing: "", people: 0 },
    prices: new Map(),
    sort: { key: "", down: false },
  };
  const parts = [];

  const derive = () => {
    const cost = state.prices.size ? model.costs(state.prices) : listedCost;
    const kept = rows.filter((row) => model.fits(row, cost, state.wish));
    return {
      rows,
      cost,
      listedCost,
      front: state.prices.size ? model.front(cost) : new Set(rows.map((row) => row.id)),
      kept: new Set(kept.map((row) => row.id)),
      keptRows: kept,
      best: model.cheapest(kept, cost),
      stair: model.stair(rows, cost),
      order: order(cost),
    };
  };

  const order = (cost) => {
    const { key, down } = state.sort;
    if (!key) return rows;
    const value = (row) => (key === "cost_cents" ? cost.get(row.id) : row[key]);
    const sorted = [...rows].sort((a, b) => {
      const [x, y] = [value(a), value(b)];
      return (typeof x === "string" ? x.localeCompare(y, "en", { numeric: true }) : x - y) || 0;
    });
    return down ? sorted.reverse() : sorted;
  };

  const set = (change) => {
    Object.assign(state, change);
    const now = derive();
    store.now = now;
    for (const part of parts) part(state, now, change);
  };

  return { state, set, add: (part) => parts.push(part), now: derive() };
})();

const choose = (id) => {
  if (!views.has(id) || id === store.state.chosen) return;
  store.set({ chosen: id });
  history.replaceState(null, "", `#${id}`);
};
const setBeside = (id) => store.set({ other: store.state.other === id ? "" : id });
