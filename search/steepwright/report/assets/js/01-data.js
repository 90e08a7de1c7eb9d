// The page's data: packed as packing.py says, unpacked once.
const unpack = (packed) => {
  const pool = [];
  const read = (form) => {
    if (!Array.isArray(form)) return form;
    const head = form[0];
    if (head < 0) return pool[-1 - head];
    if (head === 0) return form.slice(1).map(read);
    return Object.fromEntries(packed.shapes[head - 1].map((name, i) => [name, read(form[i + 1])]));
  };
  for (const entry of packed.pool) pool.push(read(entry));
  return read(packed.root);
};

const data = unpack(JSON.parse(document.getElementById("page-data").textContent));
const views = new Map(data.designs.map((view) => [view.row.id, view]));
