// Which of the two pages this file is.
import { kindOfPage } from "./data/blocks";
import { report } from "./report";

if (kindOfPage() === "report") void report();
