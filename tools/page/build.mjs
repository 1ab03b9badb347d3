// Builds generated/page.html, the template that the program fills: one file, nothing fetched.
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = fileURLToPath(new URL(".", import.meta.url));
const output = process.argv[2] ?? `${here}generated/page.html`;

async function bundled(entry, options) {
  const result = await build({
    entryPoints: [here + entry],
    bundle: true,
    minify: true,
    write: false,
    charset: "ascii",
    legalComments: "inline",
    ...options,
  });
  return result.outputFiles[0].text.trim();
}

const hash = (text) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;

const script = await bundled("src/main.ts", { format: "iife", target: "es2022" });
const style = await bundled("src/style.css", { target: "es2022" });
// Only these two texts may act, and nothing may be fetched: a name that smuggles in markup stays dead.
const policy = `default-src 'none'; script-src ${hash(script)}; style-src ${hash(style)}; base-uri 'none'; form-action 'none'`;
const shell = readFileSync(`${here}src/shell.html`, "utf8");
const page = shell
  .replace("{{policy}}", () => policy)
  .replace("{{style}}", () => style)
  .replace("{{script}}", () => script);
mkdirSync(`${here}generated`, { recursive: true });
writeFileSync(output, page);
