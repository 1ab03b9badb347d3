// Takes the README's pictures anew: node tests/page/pictures.mjs
import { join } from "node:path";
import { openBrowser, openReport } from "./browser.mjs";
import { example, root, runCase } from "./runs.mjs";

const browser = await openBrowser();
const { page } = await openReport(browser, runCase(example("filter-housing"), "housing").page, { viewport: { width: 1240, height: 860 } });
await page.screenshot({ path: join(root, "cases/examples/filter-housing/report.png") });
await browser.close();
