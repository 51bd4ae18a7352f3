/** What a form of the bench says in its own way, as the act it opens reads it. */
import type { Desk } from "../../acts/act.js";
import { type Typed, typedWith } from "../../acts/readForm.js";
import { today } from "../../acts/today.js";
import { readMoment } from "../../estimating/closeout/log/spent.js";
import type { Act } from "../../pages/bench/benchForm.js";
import { type PartTyped, partTyped } from "../../pages/bench/partTyped.js";
import { workFrom } from "../../pages/bench/view.js";
import { partKindNamed } from "../../records/partKinds.js";
import { key } from "../../wording/fieldName.js";
import { fieldsOf, type SaidOtherwise } from "../doors/page.js";
import type { OpenBench } from "./benchView.js";

const OWN = ["minutes", "assembly", "note", "override.by", "override.reason"] as const;
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
  // A refusal that was overridden says who and why by their own names.
  const ofOwn = OWN.filter((name) => typed.get("intent") !== "override" || !name.startsWith("override."));
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
    case "own":
      return said(
        {
          ...NO_WORK,
          ...Object.fromEntries(ofOwn.map((name) => [name, typed.get(`own.${name}`)])),
          workedOn,
        },
        Object.fromEntries(ofOwn.map((name) => [name, `own.${name}`])),
        "recent",
      );
    case "begin":
      return said(
        { by: typed.get("begin.by"), reason: typed.get("begin.reason") },
        { by: "begin.by", reason: "begin.reason" },
        "deposit-awaited",
      );
    case "undo":
      return said({ by: typed.get("person"), reason: "taken back at the bench" }, { by: "by" }, typed.get("at") ?? "recent");
    case "minutes":
      return said({ ...NO_WORK, ...work, workedOn }, WORK, "recent");
    case "tick":
      return said({ count: typed.get("all") ?? typed.get("count") }, { count: `count.${itemKey}` }, `work-${itemKey}`);
    case "reading":
      return said({}, {}, "readings");
    case "part": {
      const code = (typed.get("code") ?? "").trim();
      const own = (typed.get("ownPart") ?? "").trim();
      const scanned = code === "" ? undefined : await partKindNamed(desk.db, code);
      const item = typed.get("for") || undefined;
      const found: PartTyped =
        own === "" || code !== ""
          ? partTyped(fieldsOf(typed), open.needs, open.subject.stands.latest!.id, open.input, scanned)
          : item === undefined
            ? { is: "wrong", field: "for", text: "For: choose the work that used it." }
            : { is: "part", part: { item } };
      if (found.is === "wrong") wrong.set(found.field, found.text);
      const part = found.is === "wrong" ? {} : found.part;
      const need = open.needs.find((each) => found.is === "part" && each.item === found.part.item);
      // Beside a part of the list stands its own count.
      const row = typed.get("kind") || typed.get("type");
      const count = row ? { partCount: `pieces.${key(item ?? "")}` } : {};
      return said(
        { ...NO_WORK, ...part, partCount: typed.get("all") ?? typed.get("partCount"), workedOn },
        { partKind: "code", partType: "code", item: "for", ...count },
        need ? `need-${key(need.item)}` : "parts",
      );
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
