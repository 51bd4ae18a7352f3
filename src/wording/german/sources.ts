import { day } from "../day.js";
import type { Words } from "../english/index.js";

export const sources: Words["sources"] = {
  texts: {
    item: ({ id }) => `Arbeitsposten ${id}.`,
    assembly: ({ name }) => `Baugruppe ${name}.`,
    operation: ({ name }) => `Arbeitsgang ${name}.`,
    "rate book": ({ entry }) => `Richtwert ${entry} der Werkstatt.`,
    offer: ({ source, on }, { locale }) => `Angebot von ${source} vom ${day(on, locale)}.`,
    stock: () => "Aus dem Lager der Werkstatt.",
    policy: ({ entry }) => `Für diesen Kostenvoranschlag festgelegt: ${entry}.`,
  },
  counted: (boards) => `Gezählt: ${boards}.`,
};
