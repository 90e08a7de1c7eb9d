// The page's data: packed as packing.py says, unpacked once.
const unpack = (packed) => {
  const pool = [];
  const read = (form) => {
    if (!Array.isArray(form)) return form;
    const head = form[0];
    if (head === "") {
      const [words, ...numbers] = form.slice(1).map(read);
      return words.split("¤").map((word, i) => word + (numbers[i] ?? "")).join("");
    }
    if (head < 0) return pool[-1 - head];
    if (head === 0) return form.slice(1).map(read);
    return Object.fromEntries(packed.shapes[head - 1].map((name, i) => [name, read(form[i + 1])]));
  };
  for (const entry of packed.pool) pool.push(read(entry));
  return read(packed.root);
};

const data = unpack(JSON.parse(document.getElementById("page-data").textContent));
const views = new Map(data.designs.map((view) => [view.row.id, view]));

// A design's checks come column by column; here as rows, the most used first.
const stateNames = { f: "fails", u: "not settled", n: "not loaded", c: "close", h: "holds" };
const checksOf = (view) => {
  const { rules, use_permille: use, demand, capacity, state } = view.checks;
  const rows = rules.map((rule, i) => ({
    ...rule,
    use: use[i] / 1000,
    demand: demand[i],
    capacity: capacity[i],
    state: stateNames[state[i]],
    governs: rule.name === view.row.governing_check,
  }));
  return rows.sort((a, b) => b.use - a.use);
};
