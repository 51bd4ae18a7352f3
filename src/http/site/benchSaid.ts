/** What a form of the bench says in its own way, as the act it opens reads it. */
import type { Desk } from "../../acts/act.js";
import { type Typed, typedWith } from "../../acts/readForm.js";
import { today } from "../../acts/today.js";
import { readMoment } from "../../estimating/closeout/log/spent.js";
import type { Act } from "../../pages/bench/benchForm.js";
import { partTyped } from "../../pages/bench/partTyped.js";
import { workFrom } from "../../pages/bench/view.js";
import { partKinds } from "../../records/partKinds.js";
import { key } from "../../wording/fieldName.js";
import { fieldsOf, type SaidOtherwise } from "../doors/page.js";
import type { OpenBench } from "./benchView.js";

const WORK = { item: "work", assembly: "work", offer: "work" };

/** With the place of the page where it was said. */
export async function benchSaid(
  act: Act,
  typed: Typed,
  open: OpenBench,
  desk: Desk,
): Promise<SaidOtherwise & { readonly anchor: string }> {
  const { typed: rest, wrong } = overriding(typed);
  const told = typed.get("moment") || desk.at;
  const workedOn = today(
    new Date(Math.min(readMoment(told) ?? desk.now.getTime(), desk.now.getTime())),
    open.subject.settings.timeZone,
  );
  const said = (changed: Readonly<Record<string, string | undefined>>, names: SaidOtherwise["names"], anchor: string) => ({
    ...{ typed: typedWith(rest, changed), names: { person: "by", ...names }, wrong, anchor },
  });
  const work = workFrom(typed.get("work") ?? "");
  const itemKey = key(typed.get("item") ?? "");
  switch (act) {
    case "start":
      return said(
        { ...NO_WORK, ...work, startedAt: told, endedAt: told },
        { ...WORK, endedAt: "worked", minutes: "worked" },
        work.item === undefined ? "at-work" : `work-${key(work.item)}`,
      );
    case "stop":
      return said({ endedAt: told }, { endedAt: "worked", minutes: "worked" }, "at-work");
    case "minutes":
      return said({ ...NO_WORK, ...work, workedOn }, WORK, "recent");
    case "tick":
      return said({ count: typed.get("all") ?? typed.get("count") }, { count: `count.${itemKey}` }, `work-${itemKey}`);
    case "reading":
      return said({}, {}, "readings");
    case "part": {
      const code = (typed.get("code") ?? "").trim();
      const scanned = code === "" ? undefined : await partKinds.find(desk.db, code);
      const found = partTyped(fieldsOf(typed), open.needs, open.subject.stands.latest!.id, open.input, scanned);
      if (found.is === "wrong") wrong.set(found.field, found.text);
      const part = found.is === "wrong" ? {} : found.part;
      return said({ ...NO_WORK, ...part, workedOn }, { partKind: "code", partType: "code", item: "for" }, "parts");
    }
  }
}

const NO_WORK = { item: undefined, assembly: undefined, offer: undefined };

/** An override is meant by its own button alone. */
export function overriding(typed: Typed): { readonly typed: Typed; readonly wrong: Map<string, string> } {
  const wrong = new Map<string, string>();
  if (typed.get("intent") !== "override")
    return { wrong, typed: typedWith(typed, { "override.by": undefined, "override.reason": undefined }) };
  if (!typed.get("override.by")?.trim()) wrong.set("override.by", "Who decides: an override needs a name.");
  if (!typed.get("override.reason")?.trim()) wrong.set("override.reason", "Why: an override needs a reason.");
  return { typed, wrong };
}
