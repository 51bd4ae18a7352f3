import type { Words } from "../english/index.js";

export const taxRounding: Words["taxRounding"] = {
  level: {
    line: "Die Umsatzsteuer wird je Zeile berechnet und gerundet",
    group: "Die Umsatzsteuer wird je Steuersatz einmal berechnet und gerundet",
    document: "Die Umsatzsteuer wird genau berechnet und einmal für das ganze Dokument gerundet",
  },
  mode: {
    "half up": "Hälften werden von null weg gerundet",
    "half down": "Hälften werden zur Null hin gerundet",
    down: "Bruchteile fallen weg",
  },
  moreDigits: (count) => ` auf ${count === 1 ? "eine Stelle" : `${count} Stellen`} mehr, als die Währung hat`,
};
