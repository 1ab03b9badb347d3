// Runs of the program whose pages are looked at: made once for all tests of a file.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("../../", import.meta.url));
const program = process.env.CROSSGRAIN_PROGRAM ?? join(root, "build/release/crossgrain");

export const scratch = mkdtempSync(join(tmpdir(), "crossgrain-page-"));
process.on("exit", () => rmSync(scratch, { recursive: true, force: true }));

/** What the program prints; a verdict that is no pass is no failure of the program. */
export function crossgrain(...words) {
  try {
    return execFileSync(program, words, { encoding: "utf8", maxBuffer: 1 << 28, stdio: ["ignore", "pipe", "pipe"] });
  } catch (problem) {
    if (problem.status === 1 || problem.status === 4) return problem.stdout;
    throw new Error(`crossgrain ${words.join(" ")}: ${problem.stderr}`);
  }
}

/** Run a case. @returns its page's path and its summary. */
export function runCase(caseFile, name) {
  const directory = join(scratch, name);
  crossgrain("run", "--quiet", caseFile, "-o", directory);
  return {
    page: join(directory, "report.html"),
    summary: JSON.parse(readFileSync(join(directory, "summary.json"), "utf8")),
  };
}

export const example = (name) => join(root, "cases/examples", name, `${name}.toml`);

/** An example copied, its files changed on the way. @returns the copy's case file. */
export function changedExample(name, change) {
  const stem = join(scratch, `changed-${name}`);
  for (const ending of ["step", "toml"]) {
    const text = readFileSync(join(root, "cases/examples", name, `${name}.${ending}`), "utf8");
    writeFileSync(`${stem}.${ending}`, change(text.replaceAll(`"${name}.step"`, `"changed-${name}.step"`), ending));
  }
  return `${stem}.toml`;
}
