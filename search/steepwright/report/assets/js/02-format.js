// How numbers are written; the same rules as words.py.
const el = (id) => document.getElementById(id);
const escapes = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };
const esc = (text) => String(text).replace(/[&<>"']/g, (c) => escapes[c]);

const amount = (cents) => {
  const whole = Math.floor(Math.abs(cents) / 100);
  return `${cents < 0 ? "-" : ""}${whole}.${String(Math.abs(cents) % 100).padStart(2, "0")}`;
};
const money = (cents) => `${amount(cents)} ${data.currency}`;
const angleMdeg = (deg) => Math.floor(deg * 1000 + 1e-6);
const degrees = (deg) => {
  const tenths = Math.floor(angleMdeg(deg) / 100);
  return `${Math.floor(tenths / 10)}.${tenths % 10}°`;
};

// Lengths [mm] in the room's units; imperial.py is the reference: to the nearest 1/16 in.
const inches = data.inches;
const inSixteenths = (mm) => Math.floor((Math.abs(mm) * 80) / 127 + 0.5);
const feetInches = (mm) => {
  const size = inSixteenths(mm);
  const feet = Math.floor(size / 192);
  const whole = Math.floor((size % 192) / 16);
  let [part, of] = [size % 16, 16];
  while (part && part % 2 === 0) [part, of] = [part / 2, of / 2];
  const share = part ? `${part}/${of}` : "";
  const rest = share && !whole && !feet ? share : share ? `${whole} ${share}` : `${whole}`;
  return `${mm < 0 && size ? "-" : ""}${feet ? `${feet}′ ` : ""}${rest}″`;
};
const lengthOf = (mm) => (inches ? feetInches(mm) : String(mm));
const long = (mm) => (inches ? feetInches(mm) : `${mm} mm`);
const unitWords = inches ? "feet and inches, to the nearest 1/16 in" : "mm";
const inMm = inches ? "" : ", mm";
const clearMetres = (mm) => (inches ? feetInches(mm) : `${(Math.floor(mm / 10) / 100).toFixed(2)} m`);
// Masses [kg] to 0.1 lb and forces [N] to 1 lbf in a room in inches; imperial.py is the reference.
const massUnit = inches ? "lb" : "kg";
const forceUnit = inches ? "lbf" : "N";
const massOf = (kg) => (inches ? Math.floor((kg / 0.45359237) * 10 + 0.5) / 10 : kg);
const heavy = (kg) => `${massOf(kg)} ${massUnit}`;
const forceOf = (n) => (inches ? Math.floor(n / 4.4482216152605 + 0.5) : n);
const pull = (n) => `${forceOf(n)} ${forceUnit}`;
// A charge that belongs to a yard has its name in its own words.
const yardNote = (line) => (line.yard && line.group !== "charges" ? ` <span class="note">${esc(line.yard)}</span>` : "");
const percent = (share) => `${Math.ceil(share * 100 - 1e-9)} %`;
const masses = (row) => `${heavy(row.mass_kg)}${row.rig_kg ? `, and ${heavy(row.rig_kg)} of timber that it hangs from` : ""}`;
const people = (n) => (n === 0 ? "more than three people, or a tackle" : n === 1 ? "one person" : n === 2 ? "two people" : `${n} people`);
const falls = (facing) => (facing === "+x" ? "right" : "left");
const beamWords = (name) => data.room.beams.find((beam) => beam.name === name)?.words || `“${name}”`;
const kindOf = (name) => data.room.beams.find((beam) => beam.name === name)?.kind || "beam";
// The frame or the ledgers that the builder sets up to hang from; nothing for a beam that is there.
const rigOf = (name) => {
  const beam = data.room.beams.find((one) => one.name === name);
  return beam?.stand || beam?.ledger || beam?.spreader;
};
const isHidden = (name) => kindOf(name) !== "beam";

// What a sum holds and leaves out, said beside the total.
const notInSum = (row) => {
  const says = [];
  const rig = rigOf(row.beam);
  const [parts, rest] = {
    frame: ["The freestanding frame's timber and bolts are", ""],
    ledger: ["The timber of the beam and its wall ledgers is", " What fixes the ledgers to the walls is not in it."],
    spreader: ["The timber under the joists is", ` The ${data.room.code === "NDS" ? "lag" : "coach"} screws that hold it are not in it.`],
  }[kindOf(row.beam)] || ["", ""];
  if (rig) says.push(rig.owned ? `${parts} yours already and not in this sum.${rest}` : `${parts} in this sum, in bars bought for it alone: what the wall's bars leave over may save some.${rest}`);
  if (row.pads_cents && !row.pads_on_bill) says.push(`Pads are not in this sum; they cost ${money(row.pads_cents)} more.`);
  return says.map((text) => `<p class="note">${text}</p>`).join("");
};
// What nobody on the list sells: told with the bill, for it has no price.
const openTitle = "To be had elsewhere: without a price, and not in this sum";
const openItems = (view) => view.open.map((item) => `<p class="note">${openTitle}: ${item.count} × ${esc(item.what)}; ${esc(item.why)}.</p>`).join("");
const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);
const plural = (n, noun) => `${n} ${noun}${n === 1 ? "" : "s"}`;

const byUnit = {
  money,
  deg: degrees,
  mm: long,
  count: String,
  kg: heavy,
  share: percent,
};

// "12.90" or "12,90" as whole cents; null when it is no such amount.
const cents = (text) => {
  const match = /^\s*(\d{1,7})(?:[.,](\d{1,2}))?\s*$/.exec(text);
  return match ? Number(match[1]) * 100 + Number((match[2] || "").padEnd(2, "0")) : null;
};
