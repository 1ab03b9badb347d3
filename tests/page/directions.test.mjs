// The page of print directions: the map of the irrigation tee, coarsely meshed.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { a4, coloursSeen, difference, leastContrast, onPaper, openBrowser, openPage, openReport, settled, shareDrawn } from "./browser.mjs";
import { areasOff, shadedAreas } from "./plate_areas.mjs";
import { changedExample, crossgrain, scratch } from "./runs.mjs";

const coarse = '\n[mesh]\nlayers = 1\nelements_per_turn = 8\nrefine_worst_place = false\n';
const unnamed = (text, ending) => (ending === "toml" ? text.replace(/\[directions\]\nnamed.*\n/, "") + coarse : text);

/** Print directions of a case. @returns the page's path, directions.json and the map's rows. */
function study(caseFile, name) {
  const directory = join(scratch, name);
  crossgrain("directions", "--quiet", caseFile, "-o", directory);
  const told = JSON.parse(readFileSync(join(directory, "directions.json"), "utf8"));
  if (!told.maps.length) return { page: join(directory, "directions.html"), told };
  const [head, ...lines] = readFileSync(join(directory, "directions_map.csv"), "utf8").trim().split("\r\n").map((line) => line.split(","));
  const rows = lines.map((line) => Object.fromEntries(head.map((key, i) => [key, line[i]])));
  return { page: join(directory, "directions.html"), told, rows };
}

let browser, map, page, troubles;
before(async () => {
  map = study(changedExample("pipe-tee", unnamed), "map");
  browser = await openBrowser();
  ({ page, troubles } = await openStudy(map.page, { reducedMotion: "reduce" }));
});
after(() => browser?.close());

/** Opened, and the part at rest. */
async function openStudy(file, options) {
  const opened = await openReport(browser, file, options);
  await opened.page.waitForSelector(".view[data-up]");
  return opened;
}

const three = (value) => String(Number(Number(value).toPrecision(3)));
const upOf = (row) => [row.x, row.y, row.z].map(Number);
const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const factorOf = (row) => Math.min(...[row.safety_factor, row.pressure_factor].filter(Boolean).map(Number));
const textOf = (selector) => page.locator(selector).innerText();
const standing = async () => {
  await page.waitForSelector(".view[data-up]");
  await settled(page);
  return (await page.locator(".view").getAttribute("data-up")).split(" ").map(Number);
};

/** Where a direction or its opposite lies on the map, in the window, by Lambert's equal-area projection. */
async function placeOf([x, y, z]) {
  const sign = z < 0 ? -1 : 1;
  const disc = await page.locator(".disc canvas").boundingBox();
  const size = Math.sqrt(1 + sign * z);
  return [disc.x + (disc.width / 2) * (1 + (sign * x) / size), disc.y + (disc.height / 2) * (1 - (sign * y) / size)];
}

async function chosenIs(row) {
  const up = await standing();
  assert.ok(dot(up, upOf(row)) > 1 - 1e-9, `${up} stands up, expected ${upOf(row)}`);
  assert.equal(await textOf("#reading-factor"), three(factorOf(row)));
  for (const key of ["height_mm", "footprint_mm2", "plate_contact_mm2", "overhang_mm2", "trapped_overhang_mm2"])
    assert.equal(await textOf(`#facts [data-key="${key}"]`), three(row[key]));
}

test("the first picture shows the part standing in the best direction, without an error and without asking for anything", async () => {
  const best = map.told.directions.find(({ name }) => name === "best");
  assert.deepEqual(await standing(), best.direction);
  assert.ok(shareDrawn(await coloursSeen(page)) > 0.1);
  assert.equal(await textOf("#factor"), three(best.safety_factor.value));
  assert.match(await textOf("#range"), new RegExp(`${three(best.safety_factor.low)} to ${three(best.safety_factor.high)}`));
  assert.deepEqual(troubles, []);
});

test("the solved directions have the values of directions.json, strongest first, and each stands up when it is chosen", async () => {
  const sorted = [...map.told.directions].sort((a, b) => b.safety_factor.value - a.safety_factor.value);
  const rows = await page.locator("#solved table").first().locator("tbody tr").allInnerTexts();
  const prints = await page.locator("#solved table").last().locator("tbody tr").allInnerTexts();
  assert.equal(rows.length, sorted.length);
  for (const [i, row] of sorted.entries()) {
    assert.ok(rows[i].includes(row.name) && rows[i].split("\t").includes(three(row.safety_factor.value)), rows[i]);
    assert.ok(row.safety_factor_mesh_error > 0 && rows[i].split("\t").includes(String(Number(row.safety_factor_mesh_error.toPrecision(2)))), rows[i]);
    for (const key of ["height_mm", "footprint_mm2", "overhang_mm2", "trapped_overhang_mm2"])
      assert.ok(prints[i].split("\t").includes(three(row[key])), `${key} in ${prints[i]}`);
    const before = await coloursSeen(page);
    await page.locator("ol.solved button").nth(i).click();
    assert.deepEqual(await standing(), row.direction);
    assert.equal(await textOf("#reading-factor"), three(row.safety_factor.value));
    assert.match(await textOf("#reading"), /solved/);
    if (i > 0) assert.ok(difference(before, await coloursSeen(page)) > 1000, "another direction is another picture");
  }
});

test("a click on the map means the nearest of its directions, with that one's values", async () => {
  await page.evaluate(() => document.querySelector(".disc").scrollIntoView({ block: "center" }));
  // A click on a mark means the direction that it stands for.
  const apart = map.rows.filter((row) => map.told.directions.every(({ direction }) => Math.abs(dot(direction, upOf(row))) < 0.95));
  for (const row of [3, 137, 500, 700].map((i) => apart[i])) {
    // A pixel beside it, where no other direction is nearer.
    const [x, y] = await placeOf(upOf(row));
    await page.mouse.click(x + 1, y + 1);
    await chosenIs(row);
    assert.match(await textOf("#reading"), /read from the map, which may be .* off/);
  }
});

test("dragging on the map turns the part along; beyond the rim means the rim", async () => {
  const [x, y] = await placeOf([0, 0, 1]);
  await page.mouse.move(x + 30, y + 20);
  await page.mouse.down();
  const seen = new Set();
  for (let step = 1; step <= 8; step++) {
    await page.mouse.move(x + 30 + 40 * step, y + 20);
    seen.add((await standing()).join(" "));
  }
  await page.mouse.up();
  assert.ok(seen.size >= 4, `${seen.size} directions on the way`);
  assert.ok(Math.abs((await standing())[2]) < 0.1, "the rim lies flat");
});

test("arrow keys step from direction to direction, over the rim to the other side", async () => {
  // The test before has left it at the rim.
  await page.locator(".disc svg").focus();
  let from = await standing();
  for (let step = 0; step < 12; step++) {
    await page.keyboard.press("ArrowRight");
    const to = await standing();
    // A thousand directions over the half-sphere lie 4.5 degrees apart in the mean.
    const angle = (Math.acos(Math.min(1, Math.abs(dot(from, to)))) * 180) / Math.PI;
    assert.ok(angle > 0.5 && angle < 14, `step ${step} of ${angle} degrees`);
    from = to;
  }
  await page.keyboard.press("ArrowUp");
  assert.notDeepEqual(await standing(), from);
});

test("what strength costs: all directions that no other beats, ordered by any column, each stands up", async () => {
  const unbeaten = map.rows.filter((row) => row.unbeaten === "1");
  assert.match(await textOf("#trade-offs .lead"), new RegExp(`^${unbeaten.length} of ${map.rows.length} directions`));
  const cells = () => page.locator("#trade-offs tbody tr");
  assert.equal(await cells().count(), Math.min(12, unbeaten.length));
  await page.getByRole("button", { name: "Show all" }).click();
  assert.equal(await cells().count(), unbeaten.length);
  await page.getByRole("button", { name: "Height, mm" }).click();
  const lowest = unbeaten.reduce((a, b) => (Number(b.height_mm) < Number(a.height_mm) ? b : a));
  assert.equal(await cells().first().locator("td").nth(2).innerText(), three(lowest.height_mm));
  assert.equal(await page.locator('#trade-offs th[aria-sort="ascending"]').innerText(), "Height, mm");
  await cells().first().getByRole("button").click();
  await chosenIs(lowest);
  assert.equal(await cells().first().getAttribute("aria-current"), "true");
  await page.getByRole("button", { name: "Show 12" }).click();
  assert.equal(await cells().count(), 12);
});

test("the page shades as much overhang as the program counts, in the plate's contact and in cavities as well", async () => {
  const rows = [...map.told.directions.map((row) => ({ up: row.direction, ...row })), ...[3, 77, 400, 801, 1001].map((i) => ({ up: upOf(map.rows[i]), ...map.rows[i] }))];
  for (const row of rows) assert.deepEqual(areasOff(await shadedAreas(page, 0, row.up), row), [], `${row.up} up`);
});

test("a section looks inside", async () => {
  const whole = await coloursSeen(page);
  await page.locator(".row").getByLabel("y", { exact: true }).check();
  await settled(page);
  assert.ok(difference(whole, await coloursSeen(page)) > 1000);
  await page.locator(".row").getByLabel("Off").check();
});

test("nothing of all this troubled the console or the network", () => assert.deepEqual(troubles, []));

test("on paper there are the picture, the map and every section's words", async () => {
  const opened = await openStudy(map.page, { colorScheme: "dark" });
  const file = join(scratch, "directions.pdf");
  await opened.page.pdf({ path: file, preferCSSPageSize: true });
  assert.ok(shareDrawn(await coloursSeen(opened.page, "canvas.printed")) > 0.1);
  const { words, size } = onPaper(file);
  const titles = await opened.page.locator("section > h2").allInnerTexts();
  for (const said of [map.told.title, ...titles, "crossgrain directions"]) assert.ok(words.includes(said), `"${said}" is missing on paper`);
  assert.ok(!words.includes("Look inside"), "controls are of no use on paper");
  assert.match(size, a4);
});

for (const colorScheme of ["light", "dark"]) {
  test(`every text is legible in ${colorScheme} colours`, async () => {
    const opened = await openStudy(map.page, { colorScheme });
    const { contrast, text } = await leastContrast(opened.page);
    assert.ok(contrast >= 4.5, `"${text}" has a contrast of ${contrast.toFixed(2)}`);
  });
}

test("a map that may be off by more than asked for says so beside the verdict", async () => {
  assert.equal(await page.locator("#sketch").count(), map.told.maps[0].within_tolerance ? 0 : 1);
  const sketch = join(scratch, "sketch.html");
  writeFileSync(sketch, readFileSync(map.page, "utf8").replace('"within_tolerance": true', '"within_tolerance": false'));
  const opened = await openStudy(sketch);
  assert.match(await opened.page.locator("#sketch").innerText(), /sketch/);
});

test("on a phone nothing sticks out sideways", async () => {
  const opened = await openStudy(map.page, { viewport: { width: 390, height: 844 } });
  assert.equal(await opened.page.evaluate(() => document.documentElement.scrollWidth), 390);
});

test("without WebGL the map and the tables are there", async () => {
  const bare = await openBrowser(["--disable-3d-apis"]);
  try {
    const opened = await openPage(bare, map.page);
    await opened.page.waitForSelector("#rerun");
    await opened.page.locator("ol.solved button").last().click();
    const worst = map.told.directions.find(({ name }) => name === "worst");
    assert.equal(await opened.page.locator("#reading-factor").innerText(), three(worst.safety_factor.value));
    assert.match(await opened.page.locator("main").innerText(), /no three-dimensional view/);
  } finally {
    await bare.close();
  }
});

test("directions that the case names stand side by side, and names that carry markup do nothing", async () => {
  const evil = "</script><script>document.title='struck'</script><img src=x onerror=window.struck=1><!--data-->";
  const caseFile = changedExample("pipe-tee", (text, ending) =>
    ending === "toml"
      ? text.replace(/title = ".*"/, `title = "${evil}"`).replace('"lying, branch up"', `"${evil}"`) + coarse
      : text.replaceAll("'inlet'", `'${evil.replaceAll("'", "''")}'`).replaceAll("'outlet'", "'other end'"));
  const text = readFileSync(caseFile, "utf8").replaceAll('name = "inlet" }', `name = "${evil}" }`).replaceAll('name = "outlet" }', 'name = "other end" }');
  writeFileSync(caseFile, text);
  const named = study(caseFile, "named");
  const opened = await openStudy(named.page);
  assert.equal(await opened.page.locator("h1").innerText(), evil);
  assert.equal(await opened.page.locator(".disc").count(), 0);
  const buttons = opened.page.locator("ol.solved button");
  assert.equal(await buttons.count(), named.told.directions.length);
  const names = await buttons.allInnerTexts();
  assert.deepEqual([...names].sort(), named.told.directions.map(({ name }) => name).sort());
  assert.ok(names.includes(evil), String(names));
  assert.equal(await opened.page.locator("img").count(), 0);
  assert.equal(await opened.page.evaluate(() => window.struck), undefined);
  assert.notEqual(await opened.page.title(), "struck");
  assert.deepEqual(opened.troubles, []);
});

test("of bodies printed separately each has its map, and stands as the row or the map that was chosen has it", async () => {
  const housing = changedExample("filter-housing", (text, ending) =>
    (ending === "toml" ? `${text}\n[mesh]\nlayers = 1\nelements_per_turn = 6\nsize = "25 mm"\nsize_min = "4 mm"\nrefine_worst_place = false\n` : text));
  const directory = join(scratch, "prints");
  crossgrain("directions", "--quiet", housing, "-o", directory);
  const told = JSON.parse(readFileSync(join(directory, "directions.json"), "utf8"));
  const opened = await openStudy(join(directory, "directions.html"), { reducedMotion: "reduce" });
  const up = async () => {
    await settled(opened.page);
    return (await opened.page.locator(".view").getAttribute("data-up")).split(" ").map(Number);
  };
  assert.deepEqual(told.maps.map(({ print }) => print), ["bowl", "lid"]);
  const best = told.directions.find(({ name }) => name === "best of each");
  await opened.page.locator("ol.solved").getByRole("button", { name: "best of each" }).click();
  for (const { name, direction } of best.of_bodies) {
    await opened.page.getByLabel(name, { exact: true }).check();
    assert.deepEqual(await up(), direction);
    assert.equal(await opened.page.locator(".disc:visible").count(), 1);
    assert.match(await opened.page.locator("#reading").innerText(), new RegExp(`${name}: `, "i"));
    // Marked are the case, its own best and worst, and the best of each.
    assert.equal(await opened.page.locator(".disc:visible .mark").count(), 4);
    const titles = await opened.page.locator("section:visible > h2").allInnerTexts();
    assert.ok(titles.includes(`How far to rely on the map of ${name}`), titles.join(", "));
    assert.equal(titles.filter((title) => title.startsWith("How far to rely")).length, 1);
  }
  // A direction of the lid's map leaves the bowl as it is in the case.
  const row = opened.page.locator("#trade-offs1 tbody tr").first();
  await row.getByRole("button").click();
  assert.match(await opened.page.locator("#reading").innerText(), /map of lid/);
  assert.notDeepEqual(await up(), [0, 0, 1]);
  await opened.page.getByLabel("bowl", { exact: true }).check();
  assert.deepEqual(await up(), [0, 0, 1]);
  assert.deepEqual(opened.troubles, []);
});
