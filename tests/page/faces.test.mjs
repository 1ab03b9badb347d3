// The page to click faces on.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { coloursSeen, difference, openBrowser, openPage, openReport, readAt, settled, shareDrawn } from "./browser.mjs";
import { crossgrain, root, scratch } from "./runs.mjs";

const step = join(root, "cases/examples/vacuum-lid/vacuum-lid.step");
const file = join(scratch, "faces.html");
let browser, listing, page, troubles;
before(async () => {
  listing = JSON.parse(crossgrain("inspect", step, "--json", "--page", file));
  browser = await openBrowser();
  ({ page, troubles } = await openReport(browser, file));
});
after(() => browser?.close());

const line = () => page.locator("#chosen code").innerText();
const clear = () => page.getByRole("button", { name: "Clear" }).click();
const flat = (up) => listing.faces.filter((face) => face.kind === "plane" && face.axis[2] === up);

/** Faces met by the pointer from the view's middle to its right side. */
async function facesAcross() {
  const box = await page.locator(".view").boundingBox();
  const seen = [];
  for (let x = box.x + box.width / 2; x < box.x + box.width; x += 4) {
    const read = await readAt(page, x, box.y + box.height / 2 + 1);
    if (read) seen.push({ face: Number(read[0].replace("face ", "")), x, y: box.y + box.height / 2 + 1 });
  }
  return seen;
}

test("it shows the part and every face in its list", async () => {
  assert.ok(shareDrawn(await coloursSeen(page)) > 0.1);
  assert.equal(await page.locator(".face").count(), listing.faces.length);
  assert.deepEqual(troubles, []);
});

test("a click chooses the face that is seen there, by its number; another takes it back", async () => {
  await page.getByRole("button", { name: "Top" }).click();
  await settled(page);
  const seen = await facesAcross();
  const [hoseEnd, top] = flat(1).sort((a, b) => b.centroid_mm[2] - a.centroid_mm[2]);
  assert.ok(seen.every(({ face }) => !flat(-1).some((down) => down.id === face)), "the underside is not seen from above");
  assert.ok(seen.some(({ face }) => face === hoseEnd.id));
  const onTop = seen.filter(({ face }) => face === top.id)[5];
  const before = await coloursSeen(page);

  await page.mouse.click(onTop.x, onTop.y);
  await settled(page);

  assert.equal(await line(), `faces = { ids = [${top.id}] }`);
  assert.match(await page.locator("#chosen .lead").innerText(), new RegExp(`^1 chosen, ${Math.round(top.area_mm2)}`));
  assert.ok(difference(before, await coloursSeen(page)) > 1000, "what is chosen is marked");
  await page.mouse.click(onTop.x, onTop.y);
  assert.equal(await line(), "faces = { ids = [] }");
});

test("a face that alone has its name is chosen by name, which survives an edit of the CAD", async () => {
  const named = listing.faces.find((face) => face.name === "hose end");
  await page.locator(".face input").nth(named.id - 1).check();
  assert.equal(await line(), 'faces = { name = "hose end" }');
  await page.locator(".face input").nth(0).check();
  assert.equal(await line(), `faces = { ids = [1, ${named.id}] }`);
  await clear();
});

test("a hole chooses its wall", async () => {
  const [hole] = listing.holes;
  await page.getByRole("button", { name: new RegExp(`^Hole ${hole.id},`) }).click();
  const expected = [...hole.wall, ...(hole.floor === null ? [] : [hole.floor])].sort((a, b) => a - b);
  assert.equal(await line(), `faces = { ids = [${expected.join(", ")}] }`);
  await clear();
});

test("a section opens the part", async () => {
  const whole = await coloursSeen(page);
  await page.locator(".row").getByLabel("y", { exact: true }).check();
  await settled(page);
  assert.ok(difference(whole, await coloursSeen(page)) > 1000);
});

test("the line is read by the program", () => {
  const caseFile = join(scratch, "pasted.toml");
  const text = readFileSync(join(root, "cases/examples/vacuum-lid/vacuum-lid.toml"), "utf8")
    .replace('"vacuum-lid.step"', `"${step}"`)
    .replace(/faces = \{ name = "seal ring" \}\nhold/, "faces = { ids = [2] }\nhold");
  assert.match(text, /ids = \[2\]/);
  writeFileSync(caseFile, text);
  crossgrain("run", "--quiet", caseFile, "-o", join(scratch, "pasted"));
});

test("names in the STEP file do nothing", async () => {
  const evil = "</script><img src=x onerror=window.struck=1>";
  const hostile = join(scratch, "hostile.step");
  writeFileSync(hostile, readFileSync(step, "utf8").replaceAll("'hose end'", `'${evil}'`));
  const target = join(scratch, "hostile-faces.html");
  crossgrain("inspect", hostile, "--page", target);
  const opened = await openPage(browser, target);
  await opened.page.waitForSelector(".face");
  assert.ok((await opened.page.locator("#faces").innerText()).includes(evil));
  assert.equal(await opened.page.locator("img").count(), 0);
  assert.equal(await opened.page.evaluate(() => window.struck), undefined);
  assert.deepEqual(opened.troubles, []);
});
