/** Prints the coverage of each room beside its floor, when vitest measures it. */
import { relative } from "node:path";
import type { Reporter } from "vitest/reporters";
import { FLOORS } from "./floors.js";

interface Measured {
  readonly total: number;
  readonly covered: number;
}
interface CoverageMap {
  readonly files: () => readonly string[];
  readonly fileCoverageFor: (file: string) => {
    readonly toSummary: () => { readonly lines: Measured; readonly branches: Measured };
  };
}

export default class Rooms implements Reporter {
  onCoverage(coverage: unknown): void {
    const map = coverage as CoverageMap;
    const rows = Object.entries(FLOORS).map(([room, floor]) => {
      const files = map.files().filter((file) => relative(process.cwd(), file).startsWith(`src/${room}/`));
      const of = (sort: "lines" | "branches") => {
        const all = files.map((file) => map.fileCoverageFor(file).toSummary()[sort]);
        const sum = (key: keyof Measured) => all.reduce((total, each) => total + each[key], 0);
        return `${((100 * sum("covered")) / sum("total")).toFixed(2).padStart(6)} (floor ${floor[sort]})`;
      };
      return `${room.padEnd(12)} ${String(files.length).padStart(4)} files   lines ${of("lines")}   branches ${of("branches")}`;
    });
    console.log(["", "Coverage by room, percent:", ...rows].join("\n"));
  }
}
