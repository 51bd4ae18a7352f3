import type { Words } from "../english/index.js";

export const causes: Words["causes"] = {
  prices: "geänderte Preise und Stundensätze",
  condition: "der Zustand des Geräts",
  access: "was geöffnet werden muss",
  dropped: "entfallene Arbeiten",
  found: "mögliche Arbeiten, die sich als nötig erwiesen",
  choice: "gewählte oder abgewählte Zusatzarbeiten",
  corrected: "berichtigte Arbeiten und Stückzahlen",
  "extra faults": "seither gefundene Fehler",
  terms: "Nachlass, Gebühren und Bedingungen",
};
