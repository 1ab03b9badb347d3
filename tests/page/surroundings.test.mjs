// The report on paper, in the dark, on a phone, without WebGL, and with hostile names.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { coloursSeen, openBrowser, openPage, openReport, readAt, settled, shareDrawn } from "./browser.mjs";
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
  await page.locator(".row").getByLabel("Off").check();
  await page.getByRole("button", { name: "Top" }).click();
  await settled(page);

  const box = await page.locator(".view").boundingBox();
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

  const words = execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" }).replaceAll(/\s+/g, " ");
  const titles = await page.locator("section:not([hidden]) > h2").allInnerTexts();
  assert.ok(titles.length > 8, String(titles));
  for (const said of [lid.summary.title, ...titles, lid.summary.cautions.at(-1)])
    assert.ok(words.includes(said.replaceAll(/\s+/g, " ")), `"${said}" is missing on paper`);
  assert.ok(!words.includes("Colour by"), "controls are of no use on paper");
  const size = execFileSync("pdfinfo", [file], { encoding: "utf8" });
  assert.match(size, /Page size:\s+59[45](\.\d+)? x 84[12](\.\d+)? pts/); // A4: 210 x 297 mm (ISO 216)
});

/** Contrast of each text with what lies behind it, by WCAG 2.1's formula (success criterion 1.4.3). */
const leastContrast = (page) =>
  page.evaluate(() => {
    const parse = (text) => (text.match(/[\d.]+/g) ?? []).map(Number);
    const luminance = ([r, g, b]) => {
      const [x, y, z] = [r, g, b].map((c) => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4));
      return 0.2126 * x + 0.7152 * y + 0.0722 * z;
    };
    const behind = (element) => {
      for (let e = element; e; e = e.parentElement) {
        const colour = parse(getComputedStyle(e).backgroundColor);
        if (colour.length === 3 || colour[3] > 0) return colour;
      }
      return [255, 255, 255];
    };
    let least = { contrast: 21, text: "" };
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const element = walker.currentNode.parentElement;
      if (!walker.currentNode.textContent.trim() || !element.checkVisibility() || element.closest("svg, script, select")) continue;
      const [a, b] = [luminance(parse(getComputedStyle(element).color)), luminance(behind(element))];
      const contrast = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
      if (contrast < least.contrast) least = { contrast, text: walker.currentNode.textContent };
    }
    return least;
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
