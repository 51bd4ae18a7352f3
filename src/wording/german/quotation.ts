import type { Words } from "../english/index.js";

export const quotation: Words["quotation"] = {
  ceiling: (amount) => `Höchstbetrag inkl. Umsatzsteuer: ${amount}`,
  earlierRevision: "Frühere Fassung",
  noWork: "Noch keine Arbeit gewählt",
  optional: "Zusatzarbeit: der Preis zusätzlich zu diesem Angebot, alles andere unverändert.",
  ifFound: (covered) => `Nur bei Bedarf: ${covered ? "in diesem Angebot enthalten" : "der Preis zusätzlich zu diesem Angebot"}.`,
  chance: (share) => ` Wahrscheinlichkeit: ${share}.`,
};
