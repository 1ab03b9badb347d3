// The report of the filter housing, as a reader meets it in a browser.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { coloursSeen, difference, openBrowser, openPage, openReport, readAt, settled, shareDrawn, workbench } from "./browser.mjs";
import { example, runCase, scratch } from "./runs.mjs";

let browser, run, page, troubles;
before(async () => {
  run = runCase(example("filter-bowl"), "bowl");
  browser = await openBrowser();
  ({ page, troubles } = await openReport(browser, run.page));
});
after(() => browser?.close());

const three = (value) => String(Number(value.toPrecision(3)));
const textOf = (selector) => page.locator(selector).innerText();
const governing = () => run.summary.load_cases.findIndex((c) => c.safety_factor.value === run.summary.safety_factor.value);

/** The first way to fail, second opinions left out. */
const worstMode = (loadCase) =>
  Object.values(loadCase.safety_factor.modes)
    .filter((mode) => mode.mode !== "tsai_wu" && mode.value !== null)
    .sort((a, b) => a.value - b.value)[0];

/** The middle of the first pin, in the window. */
async function firstPin() {
  const box = await page.locator(".pin").first().boundingBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
}

/** Another load case, seen as it opens: its own worst place may lie on another side of the part. */
async function showLoadCase(index) {
  await page.getByLabel("Load case", { exact: true }).selectOption(String(index));
  await settled(page);
  await page.locator(".pin").first().evaluate((pin) => pin.click());
  await settled(page);
}

/** The value that the view reads at the first pin, which would be in the way. */
async function readAtFirstPin() {
  const [x, y] = await firstPin();
  await page.evaluate(() => document.querySelector(".pins").setAttribute("hidden", ""));
  const read = await readAt(page, x, y);
  await page.evaluate(() => document.querySelector(".pins").removeAttribute("hidden"));
  return read;
}

/** Constants by what they do to the factor, and those that move it by less than a hundredth. */
function rankedConstants({ constant_effects, safety_factor, pressure_factor }) {
  const reach = (effect) => Math.abs(effect.safety_factor_at_high - effect.safety_factor_at_low);
  const matters = (effect) => reach(effect) > 0.01 * Math.min(safety_factor.value, pressure_factor.value);
  const ranked = [...constant_effects].sort((a, b) => reach(b) - reach(a));
  return { shown: ranked.filter(matters), others: ranked.filter((effect) => !matters(effect)) };
}

const factorsOf = (effect) => `${three(effect.safety_factor_at_low)} to ${three(effect.safety_factor_at_high)}`;

/** "11.2 to 30.4 MPa": three digits, half a hundredth off at most; which way a half goes is up to the program. */
function isRangeOf({ low, high, unit }, words) {
  const [, a, b, said] = /^([\d.]+) to ([\d.]+) ?(.*)$/.exec(words);
  return Math.abs(a / low - 1) <= 0.005 && Math.abs(b / high - 1) <= 0.005 && said === (unit === "-" ? "" : unit);
}

/** What the bars of constants show: from and to where, and the marks, in parts of their width. */
const barsOfConstants = (ofPage) =>
  ofPage.locator("#constants .bar").evaluateAll((bars) => bars.map((bar) => {
    const width = bar.viewBox.baseVal.width;
    const boxes = [...bar.querySelectorAll("path")].map((path) => path.getBBox());
    const mark = (name) => bar.querySelector(`.${name}`).x1.baseVal.value / width;
    return {
      left: Math.min(...boxes.map((box) => box.x)) / width, right: Math.max(...boxes.map((box) => box.x + box.width)) / width,
      pieces: [...bar.querySelectorAll("path")].map((path) => path.getAttribute("class")), asked: mark("asked"), found: mark("found"),
    };
  }));

/** The report with one of the blocks that the program laid into it changed. */
async function openChanged(name, id, change) {
  const block = new RegExp(`(<script[^>]* id="${id}"[^>]*>)([^]*?)(</script>)`);
  const changed = readFileSync(run.page, "utf8").replace(block, (_, head, json, tail) =>
    head + JSON.stringify(change(JSON.parse(json))).replaceAll("<", "\\u003c") + tail);
  const file = join(scratch, `${name}.html`);
  writeFileSync(file, changed);
  const opened = await openPage(browser, file);
  await opened.page.waitForSelector("#rerun");
  return opened;
}

test("the first picture shows the part, without an error and without asking for anything", async () => {
  const seen = await coloursSeen(page);
  assert.ok(shareDrawn(seen) > 0.1, "a part that fills the view covers more than a tenth of it");
  assert.ok(Object.keys(seen).length > 100, "shaded bands have many colours");
  assert.deepEqual(troubles, []);
});

test("the verdict says what the summary says", async () => {
  const { summary } = run;
  assert.equal(await textOf("#factor"), three(Math.min(summary.safety_factor.value, summary.pressure_factor.value)));
  assert.equal(await textOf("#sentence"), summary.verdict_sentence);
  const low = Math.min(summary.safety_factor.low, summary.pressure_factor.low);
  const high = Math.min(summary.safety_factor.high, summary.pressure_factor.high);
  assert.match(await textOf("#range"), new RegExp(`${three(low)} to ${three(high)}`));
});

test("pressures, ways of failing and load cases have the summary's numbers", async () => {
  const { summary } = run;
  for (const name of ["working", "allowable", "proof"])
    assert.equal(parseFloat(await textOf(`#${name}`)), Number(summary[`${name}_pressure_MPa`].toPrecision(4)));
  const modes = summary.load_cases[governing()].safety_factor.modes;
  for (const [name, mode] of Object.entries(modes)) {
    assert.equal(await textOf(`.value[data-mode="${name}"] strong`), three(mode.value));
    const off = mode.mesh_error === null ? "?" : String(Number(mode.mesh_error.toPrecision(2)));
    assert.equal(await page.locator(`.value[data-mode="${name}"] small`).first().innerText(), `± ${off}`);
  }
  const rows = await page.locator("#cases tbody tr").allInnerTexts();
  assert.equal(rows.length, summary.load_cases.length);
  rows.forEach((row, i) => assert.ok(row.includes(three(summary.load_cases[i].safety_factor.value)), row));
});

test("the constant to measure first is the one with the greatest effect", async () => {
  const { summary } = run;
  const { shown: [most] } = rankedConstants(summary);
  const worse = (end) => Math.min(summary.safety_factor[end], summary.pressure_factor[end]);
  const said = await textOf("#constants .sentence");
  assert.ok(worse("low") < summary.target_safety_factor, "of this part there is something to measure");
  assert.ok(said.startsWith(`Measure ${most.constant} of ${most.card} (${most.meaning}) first: it is known as `), said);
  assert.ok(isRangeOf(most, /known as (.*?), and/.exec(said)[1]), said);
  assert.ok(said.endsWith(` the factor goes from ${factorsOf(most)}. All constants together leave it at ${three(worse("low"))} to ${three(worse("high"))}.`), said);
});

test("constants that matter have a row each, how it was found is explained, the others are named", async () => {
  const { shown, others } = rankedConstants(run.summary);
  const rows = await page.locator("#constants li").allInnerTexts();
  assert.equal(rows.length, shown.length);
  rows.forEach((row, i) => {
    const [name, about, factor, how] = row.split("\n").map((line) => line.trim()).filter(Boolean);
    assert.equal(name, `${shown[i].constant} of ${shown[i].card}`);
    assert.ok(about.toLowerCase().startsWith(shown[i].meaning.toLowerCase()), about);
    assert.ok(isRangeOf(shown[i], /known as (.*)$/i.exec(about)[1]), about);
    assert.equal(factor, (shown[i].found_by === "foretold" ? "about " : "") + factorsOf(shown[i]));
    assert.equal(how, shown[i].found_by);
  });

  const [meaning, little] = (await textOf("#constants .fine")).split("By less than a hundredth");
  for (const basis of ["Judged", "Solved", "Foretold"])
    assert.equal(meaning.includes(`${basis}: `), shown.some((effect) => effect.found_by === basis.toLowerCase()), meaning);
  assert.ok(others.length > 0, "some do next to nothing");
  for (const { constant, card } of others) assert.ok(little.includes(`${constant} of ${card}`), little);
});

test("bars of constants lie by one scale, on which the factors asked for and found are marked", async () => {
  const { summary } = run;
  const value = Math.min(summary.safety_factor.value, summary.pressure_factor.value);
  const target = summary.target_safety_factor;
  for (const [i, bar] of (await barsOfConstants(page)).entries()) {
    const { safety_factor_at_low: low, safety_factor_at_high: high } = summary.constant_effects[i];
    const place = (factor) => bar.asked + ((factor - target) / (value - target)) * (bar.found - bar.asked);
    // Paths hold numbers as they are; their boxes are in single precision.
    assert.ok(Math.abs(bar.left - place(Math.min(low, high))) < 1e-5, `${i}: ${bar.left}`);
    assert.ok(Math.abs(bar.right - place(Math.max(low, high))) < 1e-5, `${i}: ${bar.right}`);
    const pieces = [Math.min(low, high) < target && "short", Math.max(low, high) > target && "enough"].filter(Boolean);
    assert.deepEqual(bar.pieces, pieces);
  }
});

test("a constant with no limit at one end has a bar to the edge, and no other has", async () => {
  const changed = await openChanged("no-limit", "summary", (summary) => {
    summary.constant_effects[0].safety_factor_at_high = null;
    return summary;
  });
  const [first, ...others] = await barsOfConstants(changed.page);
  assert.equal(first.right, 1);
  assert.deepEqual(first.pieces, ["short", "enough"]);
  assert.ok(others.every((bar) => bar.right < 0.99));
  assert.match(await changed.page.locator("#constants .lead").innerText(), /Where no limit was found a bar runs to the right edge\.$/);
  assert.deepEqual(changed.troubles, []);
});

test("where every constant is known there is no word of measuring", async () => {
  const changed = await openChanged("all-known", "page", (about) => ({ ...about, constants: null }));
  assert.equal(await changed.page.locator("#constants").count(), 0);
  assert.deepEqual(changed.troubles, []);
});

test("the view opens cut through the worst place and reads its factor there", async () => {
  const [value] = await readAtFirstPin();
  // One pixel is a third of a millimetre here; the factor doubles within some millimetres.
  assert.ok(Math.abs(parseFloat(value) / run.summary.safety_factor.value - 1) < 0.1, value);
});

test("stress across the layers at the worst place is the summary's, in every load case", async () => {
  await page.getByLabel("Pull across the layers").check();
  for (const [i, loadCase] of run.summary.load_cases.entries()) {
    await showLoadCase(i);
    const [value] = await readAtFirstPin();
    const expected = worstMode(loadCase).stress_material_axes_MPa["33"];
    assert.ok(Math.abs(parseFloat(value.replace("\u2212", "-")) / expected - 1) < 0.1, `${loadCase.bound}: ${value}, expected ${expected} MPa`);
  }
  await showLoadCase(governing());
  await page.getByLabel("Safety factor").first().check();
  await settled(page);
});

test("another load case has other colours, other pins and its own factor", async () => {
  const before = await coloursSeen(page);
  const assembly = run.summary.load_cases.findIndex((c) => c.name === "assembly");
  await showLoadCase(assembly);
  assert.ok(difference(before, await coloursSeen(page)) > 1000);
  const expected = run.summary.load_cases[assembly].safety_factor.value;
  assert.match(await page.locator(".pin").first().getAttribute("aria-label"), new RegExp(`: ${three(expected)}, at`));
  const [value] = await readAtFirstPin();
  assert.ok(Math.abs(parseFloat(value) / expected - 1) < 0.1, value);
  await showLoadCase(governing());
  assert.equal(difference(before, await coloursSeen(page)), 0, "back again is the same picture");
});

test("a section shows the inside of the wall, moves with its slider and goes away", async () => {
  const cut = await coloursSeen(page);
  await workbench(page).getByLabel("Place of the section").fill("0.5");
  await settled(page);
  assert.ok(difference(cut, await coloursSeen(page)) > 1000);
  const box = await workbench(page).locator(".view").boundingBox();
  await workbench(page).getByLabel("Place of the section").fill("0");
  await settled(page);
  const places = new Set();
  for (let x = box.x + 20; x < box.x + box.width; x += 9) places.add((await readAt(page, x, box.y + box.height / 2))?.[1]);
  assert.ok(places.has("inside bowl"), [...places].join("; "));
  await workbench(page).locator(".row").getByLabel("Off").check();
  await settled(page);
  for (let x = box.x + 20; x < box.x + box.width; x += 9)
    assert.notEqual((await readAt(page, x, box.y + box.height / 2))?.[1], "inside bowl");
  await page.getByLabel("Worst place").check();
  await settled(page);
});

test("movement, keys and views change the picture; the wheel scrolls until the view was chosen", async () => {
  const still = await coloursSeen(page);
  await page.getByLabel("Movement, exaggerated").last().fill("1");
  await settled(page);
  assert.ok(difference(still, await coloursSeen(page)) > 1000);
  await page.getByLabel("Movement, exaggerated").last().fill("0");
  await settled(page);
  assert.equal(difference(still, await coloursSeen(page)), 0);

  const box = await workbench(page).locator(".view").boundingBox();
  await page.mouse.move(box.x + 30, box.y + 200);
  await page.mouse.wheel(0, 200);
  await page.waitForFunction(() => scrollY > 100);
  await page.evaluate(() => scrollTo(0, 0));
  await workbench(page).locator("canvas").first().focus();
  await page.keyboard.press("ArrowLeft");
  await settled(page);
  assert.ok(difference(still, await coloursSeen(page)) > 1000);
  const turned = await coloursSeen(page);
  await page.mouse.wheel(0, 300);
  await settled(page);
  assert.equal(await page.evaluate(() => scrollY), 0);
  assert.ok(shareDrawn(await coloursSeen(page)) < shareDrawn(turned));
  await page.getByRole("button", { name: "See the place" }).click();
  await settled(page);
});

test("a click on the part adds a row of values", async () => {
  const box = await workbench(page).locator(".view").boundingBox();
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  const cells = page.locator("#readings tbody td");
  await cells.first().waitFor();
  assert.equal(await cells.count(), 7);
  assert.match(await cells.nth(6).innerText(), / mm$/);
});

test("nothing of all this troubled the console or the network", () => assert.deepEqual(troubles, []));
