import type { Scarcity } from "../../estimating/input.js";
import type { ScarcityReason } from "../../estimating/sheet.js";
import { day } from "../day.js";
import { counted } from "../list.js";
import type { Figures } from "../tongue.js";

export type ScarcityReasons = {
  readonly [K in ScarcityReason["is"]]: (reason: Extract<ScarcityReason, { is: K }>, figures: Figures) => string;
};

/** Each completes a sentence such as 'Scarce: ...'. */
const reasons: ScarcityReasons = {
  "set by hand": () => "the shop has set how hard it is to get",
  "on the shelf": ({ stock }) => `${stock} on the shelf`,
  "new parts offered": ({ sources }) => `still made; offered new by ${counted(sources, "source")}`,
  "few sources": ({ sources }) => `no longer made; only ${counted(sources, "source")} found`,
  "several sources": ({ sources }) => `no longer made, but ${counted(sources, "source")} found`,
  "not enough offered": ({ offered, needed }) =>
    `about ${offered} good ${offered === 1 ? "one is" : "ones are"} to be had and ${needed} ${needed === 1 ? "is" : "are"} needed`,
  "old offers only": ({ newest }, { locale }) => `the newest offer is of ${day(newest, locale)}`,
  "donor pulls only": () => "only to be had from donor units, and not every piece will be good",
  "no offers": () => "no offer is on record",
  "usual part": () => "a usual part, counted by type",
};

const names: Readonly<Record<Scarcity, string>> = {
  "in stock": "In stock",
  "to order": "To order",
  scarce: "Scarce",
  "donor only": "Donor only",
};

export const scarcity = { reasons, names };
