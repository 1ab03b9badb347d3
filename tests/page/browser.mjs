// A headless browser that draws WebGL on the processor, and pages that record what they should not do.
import { execFileSync } from "node:child_process";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";

const require = createRequire(new URL("../../tools/page/package.json", import.meta.url));
const { chromium } = require("playwright-core");

/** @param more  further switches. */
export const openBrowser = (more = []) =>
  chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader", ...more],
  });

/** A page with `troubles`: every console error, uncaught error and request but that for the file itself. */
export async function openPage(browser, file, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  const troubles = [];
  page.on("console", (message) => {
    if (message.type() === "error") troubles.push(message.text());
  });
  page.on("pageerror", (error) => troubles.push(String(error)));
  page.on("request", (request) => {
    if (request.url() !== pathToFileURL(file).href) troubles.push(`asked for ${request.url().slice(0, 100)}`);
  });
  await page.goto(pathToFileURL(file).href);
  return { page, troubles };
}

/** A page once all of it is there and its first picture is drawn. */
export async function openReport(browser, file, options) {
  const opened = await openPage(browser, file, options);
  await opened.page.waitForSelector("body[data-ready]");
  await opened.page.waitForSelector('.view[data-drawn="yes"]');
  await settled(opened.page);
  return opened;
}

/** The view at the head of a report, with what is asked of it. */
export const workbench = (page) => page.locator("main > .workbench");

/** The values that were asked for have come, and two more pictures: they are drawn then. */
export async function settled(page) {
  await page.waitForFunction(() => !document.querySelector("[data-waits]"));
  await page.evaluate(() => new Promise((done) => setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(done)), 150)));
}

/** Colours of the view's canvas, how often each is seen; "none" where nothing is drawn. */
export const coloursSeen = (page, selector = ".view canvas:first-child") =>
  page.evaluate((canvasSelector) => {
    const canvas = document.querySelector(canvasSelector);
    const copy = new OffscreenCanvas(canvas.width, canvas.height).getContext("2d");
    copy.drawImage(canvas, 0, 0);
    const { data } = copy.getImageData(0, 0, canvas.width, canvas.height);
    const seen = {};
    for (let i = 0; i < data.length; i += 4) {
      const colour = data[i + 3] === 0 ? "none" : `${data[i]} ${data[i + 1]} ${data[i + 2]}`;
      seen[colour] = (seen[colour] ?? 0) + 1;
    }
    return seen;
  }, selector);

/** Share of the canvas that is drawn on. */
export function shareDrawn(seen) {
  const all = Object.values(seen).reduce((sum, count) => sum + count, 0);
  return 1 - (seen.none ?? 0) / all;
}

/** How many of the canvas's pixels two pictures count differently, at least. */
export function difference(a, b) {
  const colours = new Set([...Object.keys(a), ...Object.keys(b)]);
  return [...colours].reduce((sum, colour) => sum + Math.abs((a[colour] ?? 0) - (b[colour] ?? 0)), 0) / 2;
}

/** What the view says of the point under the pointer: [value, place], or null. */
export async function readAt(page, x, y) {
  await page.mouse.move(x, y);
  return page.evaluate(() => {
    const tip = document.querySelector(".tip.shown");
    return tip && [tip.querySelector("strong").textContent, tip.querySelector("span").textContent];
  });
}

/** What a PDF says, and what poppler tells of its pages. */
export const onPaper = (file) => ({
  words: execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" }).replaceAll(/\s+/g, " "),
  size: execFileSync("pdfinfo", [file], { encoding: "utf8" }),
});

export const a4 = /Page size:\s+59[45](\.\d+)? x 84[12](\.\d+)? pts/; // 210 x 297 mm (ISO 216)

/** Contrast of each text with what lies behind it, by WCAG 2.1's formula (success criterion 1.4.3). */
export const leastContrast = (page) =>
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
