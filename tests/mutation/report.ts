/** What came of the mutants tried: by folder, and each that lives. */
import { type Known, names, type Placed, short } from "./known.js";
import type { Told } from "./trial.js";

type Fate = "killed" | "endless" | "survived" | "not reached" | "at load" | "explained" | "types";
const FATES: readonly Fate[] = ["killed", "endless", "survived", "not reached", "at load", "explained", "types"];

/** `refused`: which of those that live do not build. */
export async function reported(
  drawn: ReadonlyMap<number, Placed>,
  told: readonly Told[],
  known: readonly Known[],
  refused: (those: ReadonlyMap<number, Placed>) => Promise<ReadonlySet<number>>,
): Promise<readonly string[]> {
  const fates = new Map<number, Fate>([...drawn.keys()].map((id) => [id, "not reached"]));
  const by = new Map<string, string>();
  for (const each of told) {
    if ("loaded" in each) for (const id of each.loaded) if (fates.get(id) === "not reached") fates.set(id, "at load");
    if ("done" in each) by.set(each.done, each.as);
    if ("came" in each && !["killed", "endless"].includes(fates.get(each.id)!)) fates.set(each.id, each.came);
  }
  const living = () => new Map([...drawn].filter(([id]) => ["survived", "not reached"].includes(fates.get(id)!)));
  for (const [id, mutant] of living()) if (known.some((one) => names(one, mutant))) fates.set(id, "explained");
  for (const id of await refused(living())) fates.set(id, "types");

  const rooms = new Map<string, Map<Fate, number>>();
  for (const [id, { file }] of drawn)
    for (const room of new Set([file.slice(0, file.lastIndexOf("/")), file.split("/").slice(0, 2).join("/")])) {
      const counts = rooms.get(room) ?? new Map<Fate, number>();
      rooms.set(room, counts.set(fates.get(id)!, (counts.get(fates.get(id)!) ?? 0) + 1));
    }
  const lines = [`${"".padEnd(36)}${FATES.map((fate) => fate.padStart(12)).join("")}   noticed`];
  for (const [room, counts] of [...rooms].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const of = (...those: Fate[]) => those.reduce((sum, fate) => sum + (counts.get(fate) ?? 0), 0);
    const [hit, all] = [of("killed", "endless"), of("killed", "endless", "survived", "not reached")];
    const figures = FATES.map((fate) => String(of(fate)).padStart(12)).join("");
    lines.push(`${room.padEnd(36)}${figures}   ${percent(hit, all)}`);
  }
  const times = new Map<string, number>();
  for (const how of by.values()) times.set(how, (times.get(how) ?? 0) + 1);
  lines.push(`tests: ${[...times].map(([how, many]) => `${many} ${how}`).join(", ")}`);
  for (const [id, { file, line, is, was, becomes }] of living()) {
    lines.push(`${fates.get(id)}: ${file}:${line}  ${short(was)}  ->  ${short(becomes)}   in: ${short(is)}`);
  }
  return lines;
}

/** With Wilson's interval of 95 %. */
function percent(hit: number, all: number): string {
  if (all === 0) return "-";
  const [p, z] = [hit / all, 1.96];
  const middle = (p + (z * z) / (2 * all)) / (1 + (z * z) / all);
  const half = (z * Math.sqrt((p * (1 - p)) / all + (z * z) / (4 * all * all))) / (1 + (z * z) / all);
  const say = (share: number) => (share * 100).toFixed(1);
  return `${say(p)} % (${say(middle - half)} to ${say(middle + half)})`;
}
