// The report on paper, in the dark, on a phone, without WebGL, and with hostile names.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { a4, coloursSeen, leastContrast, onPaper, openBrowser, openPage, openReport, readAt, settled, shareDrawn, workbench } from "./browser.mjs";
import { changedExample, crossgrain, example, root, runCase, scratch } from "./runs.mjs";

let browser, lid;
before(async () => {
  lid = runCase(example("vacuum-lid"), "lid");
  browser = await openBrowser();
});
after(() => browser?.close());

test("the face under the pointer is the STEP file's", async () => {
  const step = join(root, "cases/examples/vacuum-lid/vacuum-lid.step");
  const { faces } = JSON.parse(crossgrain("inspect", "--json", step));
  const flatUp = faces.filter((face) => face.kind === "plane" && face.axis[2] === 1);
  const { page, troubles } = await openReport(browser, lid.page);
  await workbench(page).locator(".row").getByLabel("Off").check();
  await workbench(page).getByRole("button", { name: "Top" }).click();
  await settled(page);

  const box = await workbench(page).locator(".view").boundingBox();
  const seen = [];
  for (let x = box.x + box.width / 2; x < box.x + box.width; x += 3) {
    const place = (await readAt(page, x, box.y + box.height / 2 + 1))?.[1];
    if (place) seen.push(Number(/^face (\d+)/.exec(place)[1]));
  }

  // From above, from the axis outwards: the hose end on its boss, the flat top, never the underside.
  const [hoseEnd, top] = [...flatUp].sort((a, b) => b.centroid_mm[2] - a.centroid_mm[2]).map((face) => face.id);
  assert.equal(seen.find((face) => face === hoseEnd || face === top), hoseEnd);
  assert.ok(seen.filter((face) => face === top).length > 20, String(seen));
  const down = faces.filter((face) => face.kind === "plane" && face.axis[2] === -1).map((face) => face.id);
  assert.deepEqual(seen.filter((face) => down.includes(face)), []);
  assert.deepEqual(troubles, []);
});

test("on paper the picture has its pins and every section its words", async () => {
  const { page } = await openReport(browser, lid.page, { colorScheme: "dark" });
  const file = join(scratch, "lid.pdf");
  await page.pdf({ path: file, preferCSSPageSize: true });
  const picture = await coloursSeen(page, "canvas.printed");
  assert.ok(shareDrawn(picture) > 0.1);
  assert.ok(picture["22 25 28"] > 100, "the pins' own colour");

  const { words, size } = onPaper(file);
  const titles = await page.locator("section:not([hidden]) > h2").allInnerTexts();
  assert.ok(titles.length > 8, String(titles));
  for (const said of [lid.summary.title, ...titles, lid.summary.cautions.at(-1)])
    assert.ok(words.includes(said.replaceAll(/\s+/g, " ")), `"${said}" is missing on paper`);
  assert.ok(!words.includes("Colour by"), "controls are of no use on paper");
  assert.match(size, a4);
});

for (const colorScheme of ["light", "dark"]) {
  test(`every text is legible in ${colorScheme} colours`, async () => {
    const { page } = await openReport(browser, lid.page, { colorScheme });
    const { contrast, text } = await leastContrast(page);
    assert.ok(contrast >= 4.5, `"${text}" has a contrast of ${contrast.toFixed(2)}`);
  });
}

test("on a phone nothing sticks out sideways", async () => {
  const { page } = await openReport(browser, lid.page, { viewport: { width: 390, height: 844 } });
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), 390);
});

test("without WebGL the words and tables are there", async () => {
  const bare = await openBrowser(["--disable-3d-apis"]);
  try {
    const { page } = await openPage(bare, lid.page);
    await page.waitForSelector("#rerun");
    assert.equal(await page.locator("#sentence").innerText(), lid.summary.verdict_sentence);
    assert.equal(await page.locator("#cases tbody tr").count(), lid.summary.load_cases.length);
    assert.match(await page.locator("main").innerText(), /no three-dimensional view/);
  } finally {
    await bare.close();
  }
});

test("names that carry markup and scripts do nothing", async () => {
  const evil = "</script><script>document.title='struck'</script><img src=x onerror=window.struck=1><!--data-->&lt;b&gt;";
  const caseFile = changedExample("vacuum-lid", (text, ending) =>
    ending === "toml"
      ? text.replace(/title = ".*"/, `title = "${evil}"`).replaceAll('name = "seal ring"\nfaces', `name = "${evil}"\nfaces`)
      : text.replaceAll("'lid'", `'${evil.replaceAll("'", "''")}'`));
  const hostile = runCase(caseFile, "hostile");
  assert.equal(hostile.summary.title, evil);
  assert.equal(hostile.summary.bodies[0].name, evil);
  const { page, troubles } = await openReport(browser, hostile.page);
  assert.equal(await page.title(), evil);
  assert.equal(await page.locator("h1").innerText(), evil);
  assert.equal(await page.locator("img").count(), 0);
  assert.equal(await page.evaluate(() => window.struck), undefined);
  assert.deepEqual(troubles, []);
});
