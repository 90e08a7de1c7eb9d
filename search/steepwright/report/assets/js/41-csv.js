// CSV of the bill and the cuts, the same as bill.csv and cuts.csv of the command sheets; cells that a spreadsheet would run as a formula are neutralised.
const csv = (() => {
  const cell = (value) => {
    let text = String(value);
    if (typeof value === "string" && !/^-?\d+\.\d\d$/.test(text) && /^[=+\-@\t\r＝＋－＠]/.test(text)) text = `'${text}`;
    return /[",\n\r]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
  };
  const write = (rows) => rows.map((row) => row.map(cell).join(",")).join("\n") + "\n";

  const bill = (view, state) =>
    write([
      ["sku", "what", "yard", "quantity", "unit", "amount", "currency"],
      ...view.bill.map((line) => {
        const unit = state.prices.get(line.sku) ?? line.unit_cents;
        return [line.sku, line.what, line.yard, line.quantity, amount(unit), amount(unit * line.quantity), data.currency];
      }),
      ...view.open.map((item) => ["", `Not in the sum: ${item.what}; ${item.why}`, "", item.count, "", "", ""]),
    ]);

  // In a spreadsheet lengths are plain numbers: mm, or inches to the nearest 1/16.
  const inUnit = (name) => `${name}_${inches ? "in" : "mm"}`;
  const plain = (mm) => (inches ? inSixteenths(mm) / 16 : mm);

  const cuts = (view) =>
    write([
      ["stock", "sku", "times", "order", "mark", "piece", ...["length", "width"].map(inUnit), "cut", inUnit("fence"), "by"],
      ...view.sheets.flatMap((sheet) => [
        ...sheet.parts.map((p, i) => [sheet.what, sheet.sku, sheet.count, i + 1, p.mark, p.name, plain(p.length_mm), plain(p.width_mm), "", "", ""]),
        ...sheet.cuts.map((c, i) => [sheet.what, sheet.sku, sheet.count, i + 1, "", "", "", "", c.across ? "across" : "along", plain(c.distance_mm), c.home ? "home" : "shop"]),
      ]),
      ...view.bars.flatMap((bar) => bar.pieces.map((p, i) => [bar.what, bar.sku, bar.count, i + 1, p.mark, p.name, plain(p.length_mm), "", "", "", ""])),
    ]);

  const save = (text, name) => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type: "text/csv;charset=utf-8" }));
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  };

  const start = () => {
    const chosen = () => views.get(store.state.chosen);
    el("csv-bill").addEventListener("click", () => save(bill(chosen(), store.state), `bill-${store.state.chosen}.csv`));
    el("csv-cuts").addEventListener("click", () => save(cuts(chosen()), `cuts-${store.state.chosen}.csv`));
  };
  return { start, bill, cuts };
})();
