// Which of the two pages this file is.
import { kindOfPage } from "./data/blocks";
import { faces } from "./faces";
import { report } from "./report";

void (kindOfPage() === "report" ? report() : faces());
