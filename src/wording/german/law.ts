import type { Words } from "../english/index.js";

const NAMES: Readonly<Record<string, string>> = {
  plain: "Kein Rechtsprofil: die eigenen Bedingungen der Werkstatt",
  "us-ca": "Kalifornien: Reparatur elektronischer Geräte",
  "us-md-pg": "Prince George's County, Maryland: Reparatur von Fernseh- und Rundfunkgeräten",
  "ca-on": "Ontario: Verbraucherschutzgesetz von 2002, Artikel 10",
  "ca-qc": "Québec: Verbraucherschutzgesetz, Reparatur von Geräten",
  de: "Deutschland: Kostenanschlag, § 649 BGB",
  uk: "Vereinigtes Königreich: Verbraucherrechtegesetz 2015, Artikel 49 bis 52",
  au: "Australien: Australisches Verbraucherrecht, Artikel 101 und Reparaturhinweise",
  "eu-form": "Europäisches Formular für Reparaturinformationen, Richtlinie (EU) 2024/1799",
};

export const law: Words["law"] = {
  partsReturned: {
    returned: "Ausgetauschte Teile gehen an Sie zurück.",
    "in most cases": "Ausgetauschte Teile gehen in den meisten Fällen an Sie zurück; sagen Sie uns, wenn Sie sie wünschen.",
    "on request": "Ausgetauschte Teile gehen auf Wunsch an Sie zurück.",
    "not stated": "",
  },
  name: ({ id, name }) => NAMES[id] ?? name,
  notAdvice: "Keine Rechtsberatung; maßgeblich ist das Recht an Ihrem Ort.",
  writtenFor: (name) => `Abgefasst für: ${name}.`,
  notAboveYourCeiling: "Wir gehen nicht ohne Ihre vorherige Zustimmung über den Höchstbetrag hinaus, den Sie gesetzt haben.",
  notAboveTheCeiling: "Wir gehen nicht ohne Ihre vorherige Zustimmung über den Höchstbetrag hinaus.",
  notAbove:
    "Wir gehen nicht ohne Ihre vorherige Zustimmung über diesen Kostenvoranschlag und die darin genannten möglichen Arbeiten hinaus.",
  notMoreAbove: (percent) =>
    `Wir gehen nicht ohne Ihre vorherige Zustimmung um mehr als ${percent} über diesen Kostenvoranschlag und die darin genannten möglichen Arbeiten hinaus.`,
  taxApart: "Die Umsatzsteuer kommt zum Kostenvoranschlag hinzu und ist nicht Teil davon.",
  noStoredData:
    "Sie haben uns gesagt, dass dieses Gerät keine Daten von Ihnen enthält. Die Reparatur kann löschen, was darin steht.",
  storedData: (held) =>
    `Dieses Gerät enthält Daten von Ihnen: ${held}. Die Reparatur kann sie löschen; bewahren Sie eine Kopie auf.`,
  usedPartsMaybe: "Gebrauchte oder aufgearbeitete Teile können eingebaut werden, wo es keine neuen gibt; die Rechnung nennt sie.",
  usedParts: (names) => `Gebrauchte oder aufgearbeitete Teile sind vorgesehen für: ${names}. Die Rechnung nennt jedes davon.`,
  warranty: (months) =>
    `Auf Teile und Arbeit besteht eine Garantie von ${months} ${months === 1 ? "Monat" : "Monaten"} ab Rückgabe des Geräts.`,
  itemisedBill: (ask, give) =>
    `Sie können binnen ${ask} Tagen eine aufgeschlüsselte Rechnung verlangen; Sie erhalten sie kostenlos binnen ${give} Tagen.`,
};
