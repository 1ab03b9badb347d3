// Takes the README's pictures anew: node tests/page/pictures.mjs
import { join } from "node:path";
import { openBrowser, openReport, settled } from "./browser.mjs";
import { changedExample, crossgrain, example, root, runCase, scratch } from "./runs.mjs";

const examples = join(root, "cases/examples");
const browser = await openBrowser();
const { page } = await openReport(browser, runCase(example("filter-housing"), "housing").page, { viewport: { width: 1240, height: 860 } });
await page.screenshot({ path: join(examples, "filter-housing/report.png") });

// Without the names that the example compares the map is made.
const unnamed = changedExample("pipe-tee", (text, ending) => (ending === "toml" ? text.replace(/^\[directions\]\nnamed.*\n/m, "") : text));
crossgrain("directions", unnamed, "-o", join(scratch, "map"));
const map = await openReport(browser, join(scratch, "map", "directions.html"), { viewport: { width: 1240, height: 860 } });
await map.page.waitForSelector(".view[data-up]");
await settled(map.page);
await map.page.screenshot({ path: join(examples, "pipe-tee/directions.png") });
await browser.close();
