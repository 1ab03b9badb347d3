// Which of the pages this file is.
import { kindOfPage } from "./data/blocks";
import { directions } from "./directions";
import { faces } from "./faces";
import { report } from "./report";

const pages: Record<string, () => Promise<void>> = { report, directions, faces };
void pages[kindOfPage()]().then(() => (document.body.dataset.ready = "yes"));
