/** Whether log or ticks tell that a unit was opened, whatever is said of it: it is logged itself, or what is closed in was worked on. */
import { tellsOpening } from "../estimating/closeout/log/workLog.js";
import type { EstimateInput } from "../estimating/input.js";
import { closure, readMap } from "../estimating/teardown/map.js";
import { workTitle } from "../wording/line.js";
import { wrongField } from "./act.js";
import { droppedSince } from "./agreedThen.js";
import type { JobAsItStands } from "./job.js";

/** Refused where it is said that it was not. */
export function saidUnopened(job: JobAsItStands, opened: "yes" | "no" | undefined) {
  const told = opened === "no" ? toldBy(job) : undefined;
  return told === undefined
    ? undefined
    : wrongField("/opened", "opening told", `${told}, so the unit was opened. Say yes, or put the log or the ticks right.`);
}

function toldBy(job: JobAsItStands): string | undefined {
  if (tellsOpening(job.log())) return "Opening is logged";
  const input = job.input();
  if (!input) return undefined;
  const worked = new Set(job.entries.map(({ item }) => item));
  const { map, items } = input;
  const item = [...items, ...droppedSince(job, input)].find(
    ({ id, assembly = "" }) => (worked.has(id) || (job.done[id] ?? 0) > 0) && isClosedIn(map, assembly),
  );
  return item && `Work was done on '${workTitle(item, input)}', which has to be opened up`;
}

function isClosedIn(map: EstimateInput["map"], assembly: string): boolean {
  const reading = readMap(map);
  const place = reading.at.get(assembly);
  if (place === undefined) return false;
  return [...closure(reading, [place])].some((each) => {
    const { access } = reading.assemblies[each]!;
    return access.by !== "fasteners" || access.fasteners.some(({ count }) => count > 0);
  });
}
