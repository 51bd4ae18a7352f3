import type { Words } from "../english/index.js";

export const detail: Words["detail"] = {
  counts: "nach bloßen Stückzahlen und den Richtwerten der Werkstatt, ohne dass eine Baugruppe genannt ist",
  grid: "Baugruppe für Baugruppe nach den Richtwerten der Werkstatt",
  map: "Baugruppe für Baugruppe nach dem Zerlegeplan des Modells",
  mixed: "teils Baugruppe für Baugruppe, teils nach bloßen Stückzahlen oder Richtwerten",
  none: "mit nichts, denn es fällt nichts an",
};
