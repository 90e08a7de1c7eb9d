// The page's data: packed as packing.py says, unpacked once.
const unpack = ({ shapes, texts, pool: parts, code }) => {
  const [last, more, object] = [44, 45, 10];
  const digits = new Uint8Array(127);
  for (let c = 33, n = 0; c < 127; c += 1) if (!'"&<>\\'.includes(String.fromCharCode(c))) digits[c] = n++;
  let at = 0;
  const number = () => {
    let value = 0;
    for (;;) {
      const digit = digits[code.charCodeAt(at++)];
      if (digit < last) return value * last + digit;
      value = value * more + digit - last;
    }
  };
  const pool = [];
  const decimal = () => {
    const scale = 10 ** number();
    return number() / scale;
  };
  const sentence = () => {
    let left = number();
    const words = read().split("¤");
    return words.map((word) => word + (left-- > 0 ? read() : "")).join("");
  };
  const readers = [
    () => Array.from({ length: number() }, read),
    () => false,
    () => true,
    () => null,
    () => -number(),
    decimal,
    () => -decimal(),
    () => Number(texts[number()]),
    () => texts[number()],
    sentence,
  ];
  const read = () => {
    const head = number();
    if (head % 2 === 0) return head / 2;
    const kind = Math.floor(head / 4);
    if (head % 4 === 1) return pool[kind];
    if (kind < object) return readers[kind]();
    const made = {};
    for (const name of shapes[kind - object]) made[name] = read();
    return made;
  };
  for (let n = 0; n < parts; n += 1) pool.push(read());
  return read();
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
