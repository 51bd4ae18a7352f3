import type { ScarcityReason } from "../estimating/sheet.js";
import { day } from "./day.js";
import { counted } from "./list.js";
import type { Tongue } from "./tongue.js";

type Say = { readonly [K in ScarcityReason["is"]]: (reason: Extract<ScarcityReason, { is: K }>, tongue: Tongue) => string };

const SAY: Say = {
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

/** Completes a sentence such as 'Scarce: ...'. */
export const scarcityText = (reason: ScarcityReason, tongue: Tongue): string =>
  (SAY[reason.is] as (reason: ScarcityReason, tongue: Tongue) => string)(reason, tongue);
