// SPDX-License-Identifier: GPL-3.0-or-later
// What is chosen, in a few words: on paper, and on the line of a panel that is closed. Read from the controls and the
// state.
function wishesText() {
  const ranges = shop.wishes.filter(({ about }) => state.wishes[about]).map(({ about, label }) => `${label} ${state.wishes[about]}`);
  const tensions = Object.entries(state.tensions).filter(([, range]) => range).map(([note, range]) => `tension of ${note} ${range}`);
  return [...(state.like ? [`string as long as on ${isolated(state.like)}`] : []), ...ranges, ...tensions].join("; ");
}

const a4Text = () => `A4 ${state.a4} Hz`;
const chosenText = (id) => $(id).selectedOptions[0].textContent;

// A control that is not as it begins, by its label: a select's before what is chosen, a field's without its examples and
// with the unit behind what was typed, a tick's up to its first comma.
const BRIEF_LABEL = /^([^,(]+)(?:, ([^(]*[^( ]))?/;

function chosenAt(control) {
  const label = control.labels[0].textContent.trim(), [, name, unit] = BRIEF_LABEL.exec(label);
  const text = control.type === "checkbox" ? name : control.localName === "select" ? `${label} ${chosenText(control.id)}`
    : `${name.trim()} ${isolated(withUnit(control.value, unit))}`;
  return text[0].toLowerCase() + text.slice(1);
}

const isChosen = (control) => control.type === "checkbox" ? control.checked : control.localName === "select" ? control.selectedIndex > 0 : control.value.trim() !== "";

// All that a panel has of them, but for what is told otherwise.
const chosenIn = (name, ...told) => [...$(`panel-${name}`).querySelectorAll("select, input:is([type=text], [type=checkbox])")]
  .filter((control) => !told.includes(control.id) && isChosen(control)).map(chosenAt);

function changedCount(key) {
  const count = changesOf(state[key]).length;
  return count ? [`${key === "a" ? "" : `${isolated(state[key].name)}: `}${count} changed`] : [];
}

// Those that are told in words of their own.
const CHOSEN = {
  choose: () => [isolated(state.a.name) + (state.b.name ? `, beside ${isolated(state.b.name)}` : "")],
  measures() {
    const { fields, shown } = side.a, known = shown ? fields.filter((one) => KEY_FIELDS.includes(one.field) && one.shown !== null) : [];
    return [known.length ? `${known.map((one) => `${fieldLabel(one.field)} ${one.shown}`).join(", ")} ${state.unit}` : "", ...changedCount("a"), ...changedCount("b")];
  },
  wishes: () => [wishesText() || "none given", state.decide === plainState().decide ? "" : $(`decide-${state.decide}`).labels[0].textContent.trim()],
  terms: () => [`${chosenText("unit")}, ${chosenText("force")}, ${a4Text()}`, ...chosenIn("terms", "unit", "force", "a4")],
  restring: () => [`from ${chosenText("restring-from")}`, ...chosenIn("restring", "restring-from")],
  files: () => [shop.tables.filter((one) => !one.built_in).map((one) => one.file).join(", ") || DEMONSTRATION],
};

const chosenWords = (name) => (CHOSEN[name]?.() ?? chosenIn(name)).filter(Boolean).join("; ");
