// SVG in millimetres. `u` is how many mm one CSS pixel covers, so that text keeps its size.
const svg = (() => {
  const at = (value) => String(Math.round(value * 10) / 10);
  const points = (list) => list.map(([x, y]) => `${at(x)},${at(y)}`).join(" ");
  const rect = (cls, x, y, w, h) =>
    `<rect class="${cls}" x="${at(x)}" y="${at(y)}" width="${at(w)}" height="${at(h)}"/>`;
  const line = (cls, x1, y1, x2, y2) =>
    `<line class="${cls}" x1="${at(x1)}" y1="${at(y1)}" x2="${at(x2)}" y2="${at(y2)}"/>`;
  const poly = (cls, list) => `<polygon class="${cls}" points="${points(list)}"/>`;
  const path = (cls, list) => `<polyline class="${cls}" points="${points(list)}"/>`;
  const circle = (cls, x, y, r) => `<circle class="${cls}" cx="${at(x)}" cy="${at(y)}" r="${at(r)}"/>`;

  const text = (words, x, y, size, more = {}) => {
    const { anchor = "middle", cls = "", turn = 0 } = more;
    const rotate = turn ? ` transform="rotate(${at(turn)} ${at(x)} ${at(y)})"` : "";
    return (
      `<text class="halo ${cls}" x="${at(x)}" y="${at(y)}" font-size="${at(size)}" ` +
      `stroke-width="${at(size * 0.28)}" text-anchor="${anchor}"${rotate}>${esc(words)}</text>`
    );
  };

  // A dimension between two points on a straight line, with a slanted tick at either end. Upright
  // ones read from below; `side` -1 puts the words above the line or left of it, 1 below or right.
  const dim = (x1, y1, x2, y2, words, u, more = {}) => {
    const { side = -1, size = 12, where = 0.5 } = more;
    const length = Math.hypot(x2 - x1, y2 - y1) || 1;
    const [dx, dy] = [(x2 - x1) / length, (y2 - y1) / length];
    const tick = ([x, y]) =>
      line("dim", x - (dx - dy) * 4 * u, y - (dy + dx) * 4 * u, x + (dx - dy) * 4 * u, y + (dy + dx) * 4 * u);
    let turn = (Math.atan2(dy, dx) * 180) / Math.PI;
    if (turn > 89.99) turn -= 180;
    else if (turn < -90.01) turn += 180;
    const away = side * 5 * u + (side > 0 ? size * 0.72 * u : 0);
    const [nx, ny] = [-Math.sin((turn * Math.PI) / 180), Math.cos((turn * Math.PI) / 180)];
    const [mx, my] = [x1 + (x2 - x1) * where + nx * away, y1 + (y2 - y1) * where + ny * away];
    return (
      line("dim", x1, y1, x2, y2) +
      tick([x1, y1]) +
      tick([x2, y2]) +
      text(words, mx, my, size * u, { turn })
    );
  };

  const wrap = (box, title, body, more = "") =>
    `<svg class="plan" xmlns="http://www.w3.org/2000/svg" viewBox="${box.map(at).join(" ")}" ` +
    `role="img" ${more}><title>${esc(title)}</title>${body}</svg>`;

  const arrow = (cls, x1, y1, x2, y2, head) => {
    const length = Math.hypot(x2 - x1, y2 - y1) || 1;
    const [dx, dy] = [((x2 - x1) / length) * head, ((y2 - y1) / length) * head];
    const tip = [[x2 - dx - dy * 0.6, y2 - dy + dx * 0.6], [x2, y2], [x2 - dx + dy * 0.6, y2 - dy - dx * 0.6]];
    return line(cls, x1, y1, x2, y2) + path(cls, tip);
  };

  return { rect, line, poly, path, circle, text, dim, arrow, wrap };
})();
