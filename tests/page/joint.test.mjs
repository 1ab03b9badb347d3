// The joint on the report of the two-piece filter housing, coarsely meshed.
import assert from "node:assert/strict";
import { readdirSync } from "node:fs";
import { dirname } from "node:path";
import { after, before, test } from "node:test";
import { openBrowser, openReport, settled, workbench } from "./browser.mjs";
import { areasOff, shadedAreas } from "./plate_areas.mjs";
import { changedExample, runCase } from "./runs.mjs";

let browser, run, page, troubles;
before(async () => {
  const coarse = '\n[mesh]\nlayers = 1\nelements_per_turn = 6\nsize = "25 mm"\nsize_min = "4 mm"\nrefine_worst_place = false\n';
  run = runCase(changedExample("filter-housing", (text, ending) => (ending === "toml" ? text + coarse : text)), "housing");
  browser = await openBrowser();
  ({ page, troubles } = await openReport(browser, run.page));
});
after(() => browser?.close());

const three = (value) => String(Number(value.toPrecision(3)));
const states = () => run.summary.joint.history.states;

test("every check of the joint stands in its table, with the summary's use of the limit", async () => {
  const rows = await page.locator("#joint table").first().locator("tbody tr").allInnerTexts();
  assert.equal(rows.length, run.summary.joint.lines.length);
  rows.forEach((row, i) => {
    const { used, owner } = run.summary.joint.lines[i];
    assert.ok(row.includes(owner) && row.includes(used === null ? "nothing left" : `${three(100 * used)} %`), row);
  });
});

test("the torque asked for stands on the bar, the window's ends are the summary's", async () => {
  const [group] = run.summary.joint.groups;
  const label = await page.locator("#torque svg").first().getAttribute("aria-label");
  const asked = group.torque_nominal_Nmm / 1000;
  assert.ok(label.includes(`asked for ${three(asked)} N m`), label);
  const { lowest, highest, empty } = run.summary.joint.torque_window;
  if (empty) assert.match(label, /no torque does/);
  else for (const bound of [lowest, highest]) if (bound) assert.ok(label.includes(three(bound.over_nominal * asked)), label);
});

test("contact round the seal is drawn for the state that is chosen, the leakiest first", async () => {
  const plot = page.locator(".contact svg");
  const ends = (state) => [Math.min(...state.contact_MPa[0]), Math.max(...state.contact_MPa[0])].map(three).join(" to ");
  const cover = (state) => (state.contact_wanted_MPa[0] > 0 ? Math.min(...state.contact_MPa[0]) / state.contact_wanted_MPa[0] : Infinity);
  const leakiest = states().reduce((a, b) => (cover(b) < cover(a) ? b : a));
  assert.ok((await plot.getAttribute("aria-label")).includes(ends(leakiest)));
  assert.equal(await plot.locator(".screw").count(), 8);

  const other = states().findIndex((state) => ends(state) !== ends(leakiest));
  await page.locator("#seal-state-0").selectOption(String(other));
  await settled(page);
  assert.ok((await plot.getAttribute("aria-label")).includes(ends(states()[other])));
});

test("on a phone nothing sticks out sideways, the choice of a state neither", async () => {
  const phone = await openReport(browser, run.page, { viewport: { width: 390, height: 844 } });
  assert.equal(await phone.page.evaluate(() => document.documentElement.scrollWidth), 390);
});

test("screw forces are listed state by state", async () => {
  await page.getByText("Screw forces, state by state").click();
  const rows = await page.locator("#joint details tbody tr").allInnerTexts();
  assert.equal(rows.length, states().length);
  rows.forEach((row, i) => assert.ok(row.includes(three(Math.max(...states()[i].screw_force_N[0]))), row));
});

test("a check's place is shown in the view", async () => {
  const still = await workbench(page).locator("canvas").first().screenshot();
  await page.locator("#joint table button").first().click();
  await settled(page);
  assert.notDeepEqual(await workbench(page).locator("canvas").first().screenshot(), still);
});

test("what the screws' heads crush stands beside the factor that it is left out of", async () => {
  const { governing_case } = await page.evaluate(() => JSON.parse(document.getElementById("page").textContent));
  const crushed = run.summary.load_cases[governing_case].safety_factor.under_screw_heads;
  assert.ok(crushed.length > 0, "the example's heads crush something");
  const items = await page.locator("#under-heads li").allInnerTexts();
  assert.equal(items.length, crushed.length);
  items.forEach((item, i) => assert.ok(item.includes(`: ${three(crushed[i].value)}`), item));
});

test("each body stands on the plate by its print direction, shaded as the program counts", async () => {
  const { plate } = await page.evaluate(() => JSON.parse(document.getElementById("page").textContent));
  const view = page.locator("#plate .view");
  const pictures = [];
  for (const [i, body] of run.summary.bodies.entries()) {
    await page.locator("#plate").getByLabel(body.name, { exact: true }).check();
    await page.waitForSelector("#plate .view[data-up]");
    await settled(page);
    assert.deepEqual((await view.getAttribute("data-up")).split(" ").map(Number), body.print_direction.map((x) => x + 0)); // a minus before 0 is lost
    assert.deepEqual(areasOff(await shadedAreas(page, i, body.print_direction), plate.bodies[i].print), []);
    assert.equal(await page.locator('#plate [data-key="overhang_mm2"]').innerText(), three(plate.bodies[i].print.overhang_mm2));
    pictures.push(await view.locator("canvas").first().screenshot());
  }
  assert.equal(pictures.length, 2);
  assert.notDeepEqual(pictures[0], pictures[1]);
});

test("the closing lines name every file that the run wrote, the load cases' own ones as lists", async () => {
  const said = await page.locator("#files").innerText();
  const files = readdirSync(dirname(run.page)).filter((name) => !/_\d+_/.test(name) && name !== "report.html");
  assert.ok(files.includes("joint.pvd") && files.includes("joint_forces.svg"), String(files));
  for (const name of files) assert.ok(said.includes(name), `${name} is not in "${said}"`);
});

test("either body can be hidden", async () => {
  const before = await workbench(page).locator("canvas").first().screenshot();
  await workbench(page).getByLabel("lid", { exact: true }).uncheck();
  await settled(page);
  assert.notDeepEqual(await workbench(page).locator("canvas").first().screenshot(), before);
});

test("nothing of all this troubled the console or the network", () => assert.deepEqual(troubles, []));
