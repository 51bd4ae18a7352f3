/** German as the trade writes it. The names of work, parts and taxes are the shop's own and stand as it wrote them. */
import type { Words } from "../english/index.js";
import { account, causes, changes, law } from "./agreement.js";
import { paper, paperChanges, paperMeaning, quotation, unitDetails } from "./paper.js";
import { boardsNamed, detail, lists, rules, scarcity, sources, warnings, why } from "./reasons.js";

const lines: Words["lines"] = {
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
  boards: (size, mounting, count) => `${count} ${boardsNamed(size, mounting, count)}`,
  rounding: "Aufrundung auf berechnete Zeit",
  donorPull: (part) => `Ausbau aus einem Spendergerät: ${part}`,
  aPart: "Teil",
  minimumCharge: "Ergänzung zum Mindestbetrag",
  scarcityMargin: (part) => `Beschaffungszuschlag: ${part}`,
  allowance: "Zuschlag",
  part: "Teil",
  work: "Arbeit",
  storage: "Lagerung",
  beforeTax: (amount) => `${amount} vor Umsatzsteuer`,
  diagnosisFee: "Pauschale für die Fehlersuche",
  diagnosisFeeCredited: "Pauschale für die Fehlersuche, angerechnet",
};

const adjustments: Words["adjustments"] = {
  names: {
    discount: "Nachlass",
    sundries: "Kleinmaterial",
    freight: "Versandkosten",
    rush: "Eilzuschlag",
    "promised price": "Auf die zugesagten Preise begrenzt",
  },
  of: (base) => `von ${base}`,
};

const taxRounding: Words["taxRounding"] = {
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

const dangers: Words["dangers"] = {
  names: {
    "mains and stored charge": "Netzspannung mit gespeicherter Ladung",
    "valve high tension": "Hochspannung der Röhren",
    "lithium cells": "Lithiumzellen",
    "leaking cells": "auslaufende Zellen",
    "lead solder": "bleihaltiges Lot",
    "solvent vapour": "Lösemitteldämpfe",
    mercury: "Quecksilber",
    asbestos: "Asbest",
    selenium: "Selen",
    "picture tube": "Bildröhre",
  },
  atHome: (listed) =>
    `Im Gerät können Gefahren lauern: ${listed}. Manche bleiben auch bei gezogenem Netzstecker. Öffnen Sie es nicht und schalten Sie es ` +
    "nicht ein, bevor es repariert und geprüft ist. Beachten Sie die örtlichen Vorschriften; Arbeiten an Netz- und Hochspannung sind Sache von Fachkräften.",
  memory: (held) =>
    `Arbeiten an der Batterie können löschen, was das Gerät gespeichert hat${held === "" ? ", etwa eigene Klänge und Einstellungen" : ` (${held})`}. Wir sichern es vorher, wo immer das möglich ist; ` +
    "bewahren Sie eine eigene Kopie auf und sagen Sie uns, was nicht verloren gehen darf.",
};

export const german: Words = {
  tag: "de",
  locale: "de-DE",
  ownName: "Deutsch",
  ...{ account, adjustments, causes, changes, dangers, detail, law, lines, lists, paper, paperChanges, paperMeaning },
  ...{ quotation, rules, scarcity, sources, taxRounding, unitDetails, warnings, why },
};
