// The one state of the page. Every part draws itself from it and changes it only through `set`.
// A part that is out of sight waits until the browser has nothing else to do.
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

  // What follows from wishes, prices and order. They are replaced, never changed in place, so the
  // same objects mean the same result: a pick works nothing out again.
  let known = { from: [], now: null };
  const derive = () => {
    const from = [state.wish, state.prices, state.sort];
    if (known.now && from.every((one, i) => one === known.from[i])) return known.now;
    const cost = state.prices.size ? model.costs(state.prices) : listedCost;
    const kept = rows.filter((row) => model.fits(row, cost, state.wish));
    const now = {
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
    known = { from, now };
    return now;
  };

  const parts = [];
  const update = (part) => {
    const change = part.stale;
    part.stale = null;
    if (change) part.draw(state, store.now, change);
  };
  const watcher = new IntersectionObserver((entries) => {
    for (const { target, isIntersecting } of entries) {
      for (const part of parts.filter((one) => one.node === target)) {
        part.seen = isIntersecting;
        if (part.seen) update(part);
      }
    }
  });

  // After the next frame, so that what is in sight is seen first.
  const idle = window.requestIdleCallback || ((run) => setTimeout(run, 20));
  const later = (run) => requestAnimationFrame(() => idle(run, { timeout: 300 }));
  let waiting = false;
  const rest = () => {
    waiting = false;
    const part = parts.find((one) => one.stale);
    if (part) update(part);
    if (parts.some((one) => one.stale)) wait();
    else performance.mark("steepwright-settled");
  };
  const wait = () => {
    if (!waiting) later(rest);
    waiting = true;
  };

  // `draw` gets what has changed since it drew last; `first` the first time.
  const add = (draw, node = null) => {
    parts.push({ draw, node, seen: !node, stale: { first: true } });
    if (node) watcher.observe(node);
  };
  const show = (change) => {
    for (const part of parts) {
      part.stale = { ...part.stale, ...change };
      if (part.seen) update(part);
    }
    wait();
  };
  const set = (change) => {
    Object.assign(state, change);
    store.now = derive();
    show(change);
  };
  const settle = () => parts.forEach(update);

  return { state, set, add, show, settle, now: derive() };
})();

// The address keeps what is chosen and what is set beside it: #W02 or #W02+W39.
const address = {
  read: () => {
    const [chosen, other = ""] = decodeURIComponent(location.hash.slice(1)).split("+");
    return views.has(chosen) ? { chosen, other: views.has(other) ? other : "" } : null;
  },
  write: () => {
    const { chosen, other } = store.state;
    history.replaceState(null, "", `#${chosen}${other ? `+${other}` : ""}`);
  },
};
const choose = (id) => {
  if (!views.has(id) || id === store.state.chosen) return;
  store.set({ chosen: id });
  address.write();
};
const setBeside = (id) => {
  store.set({ other: id });
  address.write();
};
