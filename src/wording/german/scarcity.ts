import { day } from "../day.js";
import type { Words } from "../english/index.js";

const sources = (count: number, one: string, many: string): string => (count === 1 ? one : `${count} ${many}`);

const reasons: Words["scarcity"]["reasons"] = {
  "set by hand": () => "die Werkstatt hat festgelegt, wie schwer es zu beschaffen ist",
  "on the shelf": ({ stock }) => `${stock} auf Lager`,
  "new parts offered": ({ sources: count }) =>
    `noch in Fertigung; neu angeboten von ${sources(count, "einer Quelle", "Quellen")}`,
  "few sources": ({ sources: count }) => `nicht mehr in Fertigung; nur ${sources(count, "eine Quelle", "Quellen")} gefunden`,
  "several sources": ({ sources: count }) => `nicht mehr in Fertigung, aber ${sources(count, "eine Quelle", "Quellen")} gefunden`,
  "not enough offered": ({ offered, needed }) =>
    `etwa ${offered} gute ${offered === 1 ? "ist" : "sind"} zu haben und ${needed} ${needed === 1 ? "wird" : "werden"} gebraucht`,
  "old offers only": ({ newest }, { locale }) => `das neueste Angebot ist vom ${day(newest, locale)}`,
  "donor pulls only": () => "nur aus Spendergeräten zu haben, und nicht jedes Stück wird gut sein",
  "no offers": () => "kein Angebot liegt vor",
  "usual part": () => "ein gängiges Teil, nach Art gezählt",
};

export const scarcity: Words["scarcity"] = {
  reasons,
  names: {
    "in stock": "Auf Lager",
    "to order": "Zu bestellen",
    scarce: "Schwer beschaffbar",
    "donor only": "Nur aus Spendergeräten",
  },
};
