import type { BoardSize, Mounting } from "../../estimating/input.js";
import type { Words } from "../english/index.js";

const ONE: Readonly<Record<BoardSize, string>> = {
  small: "kleine Platine",
  medium: "mittlere Platine",
  large: "große Platine",
};
const MANY: Readonly<Record<BoardSize, string>> = {
  small: "kleine Platinen",
  medium: "mittlere Platinen",
  large: "große Platinen",
};
export const MOUNTED: Readonly<Record<Mounting, string>> = {
  "on top": "obenauf",
  "behind another": "hinter einer anderen",
  "behind a panel with knobs": "hinter einer Frontplatte mit Knöpfen",
};
export const boardNamed = (size: BoardSize, mounting: Mounting): string => `${ONE[size]} ${MOUNTED[mounting]}`;

export const lines: Words["lines"] = {
  allowances: {
    "labour allowance": "Zuschlag für Arbeiten, die länger dauern",
    "sourcing allowance": "Zuschlag für schwer beschaffbare Teile",
    "if-found allowance": "Zuschlag für Arbeiten, die sich als nötig erweisen können",
    "margin allowance": "Marge über den erwarteten Kosten",
  },
  states: {
    "new old stock": "Altbestand: unbenutzt, aber vor langer Zeit gefertigt",
    used: "Gebrauchtteil",
    "donor pull": "Gebrauchtteil aus einem Spendergerät",
    reproduction: "Nachfertigung",
  },
  headings: {
    access: "Öffnen und Zusammenbau, nur einmal berechnet",
    parts: "Ersatzteile",
    hardToGet: "Schwer beschaffbare Teile",
    billedTime: "Berechnete Arbeitszeit",
    allowances: "Für das, was sich vorher nicht wissen lässt",
    fees: "Gebühren",
    wholeUnit: "Das ganze Gerät",
  },
  openAndRefit: (what) => `Aus- und Einbau: ${what}`,
  theUnit: "das Gerät",
  boards: (size, mounting, count) => `${count} ${count === 1 ? ONE[size] : MANY[size]} ${MOUNTED[mounting]}`,
  rounding: "Aufrundung auf berechnete Zeit",
  donorPull: (part) => `Ausbau aus einem Spendergerät: ${part}`,
  aPart: "Teil",
  minimumCharge: "Ergänzung zum Mindestbetrag",
  scarcityMargin: (part) => `Beschaffungszuschlag: ${part}`,
  allowance: "Zuschlag",
  part: "Teil",
  work: "Arbeit",
  storage: "Lagerung",
  diagnosisFee: "Pauschale für die Fehlersuche",
  diagnosisFeeCredited: "Pauschale für die Fehlersuche, angerechnet",
};
