import type { DocumentField } from "../estimating/agreement/profile.js";
import type { Unready } from "../estimating/agreement/unready.js";
import { day } from "./day.js";

const FIELD: Readonly<Record<DocumentField, string>> = {
  "shop name": "the shop's name: fill it in under the shop's settings",
  "shop address": "the shop's address: fill it in under the shop's settings",
  "shop phone": "the shop's telephone number: fill it in under the shop's settings",
  "shop e-mail": "the shop's e-mail address: fill it in under the shop's settings",
  "shop registration": "the shop's registration number: fill it in under the shop's settings",
  "owner name": "the owner's name: fill it in with the owner",
  "owner address": "the owner's address: fill it in with the owner",
  date: "the date: it is set when the estimate is issued",
  "maker and model": "the unit's maker and model: fill them in with the unit",
  serial: "the unit's serial number: fill it in with the unit, or write that it has none",
  "reported fault": "the fault as the owner reported it: fill it in with the unit",
  "work described": "the work: add at least one line",
  total: "the total",
  "highest price": "a highest price that holds: the ceiling is below the total, so agree a higher one or drop work",
  validity: "how long it is good for",
  "days to complete": "the days to complete",
  "price of diagnosis": "the price of diagnosis",
  "price of teardown and reassembly": "the price of opening and refitting",
  "stored data notice": "what the unit holds of the owner's data: ask, and fill it in with the unit, even if it is nothing",
  "used parts notice": "the notice of used parts",
};

/** Why an estimate cannot be issued under its profile, and what to do. */
export function unreadyText(unready: Unready, profileName: string, locale: string): string {
  switch (unready.is) {
    case "field missing":
      return `${profileName} asks for ${FIELD[unready.field]}.`;
    case "word not allowed":
      return `${profileName} does not let an estimate be called a '${unready.word}'; reword '${unready.sentence.replace(/[.!?;]+$/, "")}'.`;
    case "validity too short":
      return (
        `${profileName} wants it to hold for ${unready.days} days, until ${day(unready.atLeast, locale)}, but it ends on ${day(unready.until, locale)}; ` +
        `read the prices as of ${day(unready.asOfFrom, locale)} or later.`
      );
  }
}
