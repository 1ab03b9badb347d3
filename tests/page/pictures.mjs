// Takes the README's pictures anew: node tests/page/pictures.mjs
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { openBrowser, openReport } from "./browser.mjs";
import { changedExample, crossgrain, example, root, runCase, scratch } from "./runs.mjs";

const examples = join(root, "cases/examples");
const browser = await openBrowser();
const { page } = await openReport(browser, runCase(example("filter-housing"), "housing").page, { viewport: { width: 1240, height: 860 } });
await page.screenshot({ path: join(examples, "filter-housing/report.png") });

// Without the names that the example compares the map is made.
const unnamed = changedExample("pipe-tee", (text, ending) => (ending === "toml" ? text.replace(/^\[directions\]\nnamed.*\n/m, "") : text));
crossgrain("directions", unnamed, "-o", join(scratch, "map"));
await page.setViewportSize({ width: 900, height: 770 });
await page.goto(pathToFileURL(join(scratch, "map", "directions_map.svg")).href);
await page.screenshot({ path: join(examples, "pipe-tee/directions_map.png") });
await browser.close();
